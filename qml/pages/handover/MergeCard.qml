// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Dialogs
import QtQuick.Layouts
import Rillmark.Ui

/// Another copy of this site taken in: what came of it, and what a person must settle.
PanelCard {
    id: root
    required property AppModel app
    readonly property MergeModel merge: app.merge

    heading: qsTr("Two books of one site")
    FileDialog {
        id: picker
        title: qsTr("The other copies of this site")
        fileMode: FileDialog.OpenFiles
        nameFilters: [qsTr("Rillmark sites (*.gpkg)")]
        onAccepted: root.merge.takeIn(selectedFiles)
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Where two people booked on copies of this site, their readings come together here. Nothing is lost: of two edits the later one counts, and the other stays in the history.")
        color: Theme.quietInk
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Take in another copy")
        iconName: "add"
        enabled: !root.app.readOnly && root.app.saved && !root.merge.working
        onClicked: picker.open()
    }
    Repeater {
        model: root.merge.report
        InkText {
            required property string modelData
            Layout.fillWidth: true
            text: modelData
        }
    }
    FindingList { findings: root.merge.refusal }
    InkText {
        Layout.fillWidth: true
        visible: conflicts.count > 0
        text: qsTr("Said differently: look at each, and choose the value that is right.")
        font.bold: true
        color: Theme.warning
    }
    Repeater {
        id: conflicts
        model: root.merge.conflicts
        ChoiceRow {
            id: conflict
            required property int index
            required property var modelData // ConflictItem
            label: modelData.what
            choices: [{ id: "mine", label: qsTr("Here: %1").arg(modelData.mine) }, { id: "other", label: qsTr("There: %1").arg(modelData.other) }]
            chosen: modelData.otherHolds ? "other" : "mine"
            onPicked: id => root.merge.settle(index, id === "other")
        }
    }
}
