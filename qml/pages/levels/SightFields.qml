// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The sight to be booked next: the set-up in hand, kind, point, reading; judged before it is booked.
ColumnLayout {
    id: root
    required property LevelsModel levels
    Layout.fillWidth: true
    spacing: Theme.gap

    InkText {
        Layout.fillWidth: true
        text: root.levels.setup
        font.bold: true
    }
    ChoiceRow {
        label: qsTr("Sight")
        choices: root.levels.kinds
        chosen: root.levels.kind
        onPicked: id => root.levels.kind = id
    }
    PickField {
        label: qsTr("Staff on")
        choices: root.levels.points
        chosen: root.levels.point
        onPicked: id => root.levels.point = id
    }
    EntryFields {
        form: root.levels.form
        doneText: qsTr("done")
    }
    SwitchRow {
        Layout.fillWidth: true
        text: qsTr("Staff upside down (point overhead)")
        on: root.levels.inverted
        onToggled: root.levels.inverted = !root.levels.inverted
    }
    FindingList { findings: root.levels.doubts }
    ActionButton {
        Layout.fillWidth: true
        text: qsTr("Book the sight")
        enabled: root.levels.ready
        onClicked: root.levels.bookSight()
    }
}
