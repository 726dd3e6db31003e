// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The meter in hand: one that shows the velocity, or a rotor with its rating v = a n + b.
BottomSheet {
    id: root
    required property GaugingModel gauging
    resumeName: "meter"
    heading: qsTr("Current meter and its rating")

    PickField {
        label: qsTr("Meter used")
        choices: root.gauging.meters
        chosen: root.gauging.meter
        onPicked: id => root.gauging.meter = id
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.gauging.meterText
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Each reading keeps the meter it was booked with: change it here and read on.")
        color: Theme.quietInk
    }
    PanelCard {
        heading: qsTr("Add a meter")
        InkText {
            Layout.fillWidth: true
            text: qsTr("From its certificate: velocity = a × revolutions per second + b, and the velocities that it is rated for. Leave a and b empty for a meter that shows the velocity.")
        }
        EntryFields { form: root.gauging.meterForm }
        SwitchRow {
            Layout.fillWidth: true
            text: qsTr("This very meter was rated, not its type")
            on: root.gauging.ownRating
            onToggled: root.gauging.ownRating = !root.gauging.ownRating
        }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Add this meter")
            iconName: "add"
            enabled: root.gauging.meterForm.complete
            onClicked: root.gauging.addMeter()
        }
    }
}
