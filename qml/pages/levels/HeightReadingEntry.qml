// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The reading to be booked next: its points, what it is for, its numbers.
ColumnLayout {
    id: root
    required property AppModel app
    readonly property HeightRunModel run: app.heightRun
    Layout.fillWidth: true
    spacing: Theme.gap

    ChoiceRow {
        visible: root.run.roles.length > 0
        label: qsTr("Which instrument")
        choices: root.run.roles
        chosen: root.run.role
        onPicked: id => root.run.role = id
    }
    PickField {
        visible: root.run.ends > 0
        label: root.run.ends === 2 ? qsTr("From point") : qsTr("At point")
        choices: root.run.points
        chosen: root.run.from
        onPicked: id => root.run.from = id
    }
    PickField {
        visible: root.run.ends === 2
        label: qsTr("To point")
        choices: root.run.points
        chosen: root.run.to
        onPicked: id => root.run.to = id
    }
    SensorCard {
        visible: root.run.holds.length > 0
        run: root.run
    }
    Loader {
        Layout.fillWidth: true
        active: root.run.form !== null
        sourceComponent: EntryFields {
            form: root.run.form
            doneText: qsTr("done")
        }
    }
    FindingList { findings: root.run.doubts }
    ActionButton {
        Layout.fillWidth: true
        text: qsTr("Book the reading")
        enabled: root.run.ready && !root.app.readOnly
        onClicked: root.run.book()
    }
}
