// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Readings from the device's own sensor: hold it still, the mean goes into the field.
PanelCard {
    id: root
    required property HeightRunModel run
    heading: qsTr("With this device")

    Repeater {
        model: root.run.sensor.running ? [] : root.run.holds
        PlainButton {
            required property var modelData // Choice
            Layout.fillWidth: true
            text: modelData.label
            iconName: "levels"
            onClicked: root.run.hold(modelData.id)
        }
    }
    InkText {
        Layout.fillWidth: true
        visible: root.run.sensor.running
        text: qsTr("Hold still: %1").arg(root.run.sensor.now)
        font.pixelSize: Theme.readout
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.run.sensor.running
        text: qsTr("Take it now")
        iconName: "check"
        onClicked: root.run.sensor.stop()
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.run.levelCheck
    }
    FindingList { findings: root.run.sensor.findings }
}
