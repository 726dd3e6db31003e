// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The meter of the test: one that shows the velocity, or a rotor with its rating v = a n + b.
BottomSheet {
    id: root
    required property FlowModel flow
    resumeName: "meter"
    heading: qsTr("Current meter and its rating")

    PickField {
        label: qsTr("Meter used")
        choices: root.flow.meters
        chosen: root.flow.meter
        onPicked: id => root.flow.meter = id
    }
    PanelCard {
        heading: qsTr("Add a meter")
        InkText {
            Layout.fillWidth: true
            text: qsTr("From its certificate: velocity = a × revolutions per second + b.")
        }
        EntryFields { form: root.flow.meterForm }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Add this meter")
            iconName: "add"
            enabled: root.flow.meterForm.complete
            onClicked: root.flow.addMeter()
        }
    }
}
