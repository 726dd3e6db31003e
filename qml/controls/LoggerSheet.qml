// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Dialogs
import QtQuick.Layouts
import Rillmark.Ui

/// The file of a logger: its first lines, which column is what, and the reading of it. Serves any LoggerImport.
BottomSheet {
    id: root
    required property LoggerImport file
    heading: file.open ? file.fileName : qsTr("File of a logger")

    function choose() {
        chooser.open()
    }
    function resume(given: string) {
        if (!file.open)
            file.begin(given)
        open()
    }
    onClosed: if (!file.busy) file.close()

    readonly property FileDialog chooser: FileDialog {
        title: qsTr("File of the logger")
        nameFilters: [qsTr("Tables (*.csv *.txt *.tsv *.dat)"), qsTr("All files (*)")]
        onAccepted: {
            root.file.begin(selectedFile)
            root.resumeWith = "" + selectedFile
            root.open()
        }
    }
    readonly property Connections whenRead: Connections {
        target: root.file
        function onDone() {
            root.close()
        }
    }

    FindingList { findings: root.file.findings }
    LoggerHead {
        lines: root.file.head
        first: root.file.firstShown
        understood: root.file.understood
    }
    LoggerChoices {
        visible: !root.file.busy
        file: root.file
    }
    Rectangle { // how far the reading is
        Layout.fillWidth: true
        implicitHeight: Theme.space
        visible: root.file.busy
        color: Theme.pressed
        Accessible.role: Accessible.ProgressBar
        Accessible.name: qsTr("Read so far: %1 %").arg(Math.round(root.file.progress * 100))
        Rectangle {
            width: parent.width * root.file.progress
            height: parent.height
            color: Theme.water
        }
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.file.busy
        text: qsTr("Stop reading")
        iconName: "close"
        onClicked: root.file.cancel()
    }
    ActionButton {
        Layout.fillWidth: true
        visible: !root.file.busy
        text: qsTr("Read the file")
        enabled: root.file.ready
        onClicked: root.file.read()
    }
}
