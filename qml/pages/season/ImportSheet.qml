// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Dialogs
import QtQuick.Layouts
import Rillmark.Ui

/// Reads in a record: the file, its columns as understood, and the reading itself with its progress.
BottomSheet {
    id: root
    required property SeriesImport series
    heading: qsTr("Read in a record")
    closePolicy: root.series.running ? BottomSheet.NoAutoClose : BottomSheet.CloseOnEscape | BottomSheet.CloseOnPressOutside

    FileDialog {
        id: chooser
        title: qsTr("File of the logger or of the gauge")
        nameFilters: [qsTr("Tables (*.csv *.txt *.dat *.tsv)"), qsTr("All files (*)")]
        onAccepted: root.series.file.begin(selectedFile)
    }
    Connections {
        target: root.series
        function onDone() {
            gauge.done()
            root.close()
        }
    }
    ChoiceRow {
        label: qsTr("What it holds")
        choices: root.series.kinds
        chosen: root.series.kind
        onPicked: id => root.series.kind = id
    }
    PlainButton {
        Layout.fillWidth: true
        text: root.series.file.open ? qsTr("File: %1").arg(root.series.file.fileName) : qsTr("Choose the file")
        iconName: "folder"
        enabled: !root.series.running
        onClicked: chooser.open()
    }
    FindingList { findings: root.series.findings }
    ColumnLayout {
        visible: root.series.file.open && !root.series.running
        Layout.fillWidth: true
        spacing: Theme.gap
        LoggerHead {
            lines: root.series.file.head
            first: root.series.file.firstShown
            understood: root.series.file.understood
        }
        ChoiceRow {
            visible: root.series.kind === "stage"
            label: qsTr("The logger's clock shows")
            choices: root.series.clocks
            chosen: root.series.clock
            onPicked: id => root.series.clock = id
        }
        LoggerChoices { file: root.series.file }
        NameField {
            id: gauge
            Layout.fillWidth: true
            label: qsTr("Name of the gauge or creek")
            draft: "season-import/name"
        }
    }
    ColumnLayout {
        visible: root.series.running
        Layout.fillWidth: true
        Rectangle {
            Layout.fillWidth: true
            implicitHeight: Theme.gap
            color: Theme.card
            Accessible.role: Accessible.ProgressBar
            Accessible.name: qsTr("Read so far: %1 %").arg(Math.round(root.series.file.progress * 100))
            Rectangle {
                width: parent.width * root.series.file.progress
                height: parent.height
                color: Theme.water
            }
        }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Stop reading")
            iconName: "close"
            onClicked: root.series.cancel()
        }
    }
    PlainButton {
        Layout.fillWidth: true
        visible: !root.series.running
        text: qsTr("Read it in")
        iconName: "check"
        enabled: root.series.file.ready
        onClicked: root.series.start(gauge.text)
    }
}
