// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Settings of this device: units, look, text size, receiver, averaging time, observer.
ColumnLayout {
    id: root
    required property SettingsModel settings
    spacing: Theme.gap

    ChoiceRow {
        label: qsTr("Units")
        choices: [{ id: "metric", label: qsTr("Metric") }, { id: "us", label: qsTr("US customary") }]
        chosen: root.settings.metric ? "metric" : "us"
        onPicked: id => root.settings.metric = id === "metric"
    }
    ChoiceRow {
        label: qsTr("Look")
        choices: [{ id: "day", label: qsTr("Day") }, { id: "night", label: qsTr("Night") }, { id: "system", label: qsTr("System") }]
        chosen: root.settings.theme
        onPicked: id => root.settings.theme = id
    }
    ChoiceRow {
        label: qsTr("Text size")
        choices: [{ id: "100", label: "100 %" }, { id: "130", label: "130 %" }, { id: "160", label: "160 %" }, { id: "200", label: "200 %" }]
        chosen: String(root.settings.textPercent)
        onPicked: id => root.settings.textPercent = Number(id)
    }
    ChoiceRow {
        label: qsTr("Receiver")
        choices: [{ id: "system", label: qsTr("Device") }, { id: "tcp", label: qsTr("NMEA, network") },
            { id: "serial", label: qsTr("NMEA, serial") }, { id: "replay", label: qsTr("Recorded log") }]
        chosen: root.settings.receiver
        onPicked: id => root.settings.receiver = id
    }
    NameField {
        Layout.fillWidth: true
        visible: root.settings.receiver !== "system"
        label: root.settings.receiver === "tcp" ? qsTr("Host and port, as 192.168.1.1:10110")
             : root.settings.receiver === "serial" ? qsTr("Port and speed, as ttyUSB0@9600") : qsTr("Log file")
        text: root.settings.receiverAddress
        onCommitted: text => root.settings.receiverAddress = text
    }
    ChoiceRow {
        label: qsTr("Averaging time at a station")
        choices: [{ id: "10", label: qsTr("10 s") }, { id: "60", label: qsTr("1 min") }, { id: "300", label: qsTr("5 min") },
            { id: "600", label: qsTr("10 min") }]
        chosen: String(root.settings.averagingSeconds)
        onPicked: id => root.settings.averagingSeconds = Number(id)
    }
    NameField {
        Layout.fillWidth: true
        label: qsTr("Who observes")
        text: root.settings.observer
        onCommitted: text => root.settings.observer = text
    }
}
