// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The links from water to wire, one below the other; each shows what it takes, and opens to be changed.
ColumnLayout {
    id: root
    required property PowerModel power
    signal pressed(string key)
    signal asked(string key, string label, string value) // how we know it
    Layout.fillWidth: true
    spacing: 2

    Repeater {
        model: root.power.links
        RowLayout {
            id: line
            required property var modelData // LinkItem
            Layout.fillWidth: true
            spacing: 2
            PressArea {
                id: one
                readonly property var modelData: line.modelData // LinkItem
                Layout.fillWidth: true
                Layout.fillHeight: true
                text: qsTr("%1: %2. %3").arg(modelData.label).arg(modelData.missing ? qsTr("missing") : modelData.value).arg(modelData.detail)
                enabled: modelData.opens
                opacity: 1
                readonly property bool last: modelData.key === "house" && !modelData.missing
                readonly property color quiet: last ? ink : Theme.quietInk
                fill: last ? Theme.action : Theme.card
                ink: last ? Theme.inkOnAction : Theme.ink
                leftPadding: Theme.gap
                onClicked: root.pressed(modelData.key)
                contentItem: RowLayout {
                    ColumnLayout {
                        Layout.fillWidth: true
                        spacing: 0
                        InkText {
                            Layout.fillWidth: true
                            text: one.modelData.label
                            color: one.quiet
                            font.pixelSize: Theme.small
                            Accessible.ignored: true
                        }
                        InkText {
                            Layout.fillWidth: true
                            text: one.modelData.missing ? qsTr("missing") : one.modelData.value
                            color: one.modelData.missing ? Theme.warning : one.ink
                            font.pixelSize: Theme.title
                            font.bold: true
                            Accessible.ignored: true
                        }
                        InkText {
                            Layout.fillWidth: true
                            visible: text !== "" && !one.modelData.missing
                            text: one.modelData.detail
                            color: one.quiet
                            font.pixelSize: Theme.small
                            Accessible.ignored: true
                        }
                    }
                    InkIcon {
                        visible: one.modelData.opens
                        name: "next"
                        ink: one.ink
                    }
                }
            }
            IconButton {
                Layout.fillHeight: true
                visible: line.modelData.known
                fill: Theme.card
                text: qsTr("How we know: %1").arg(line.modelData.label)
                iconName: "chart"
                onClicked: root.asked(line.modelData.key, line.modelData.label, line.modelData.value)
            }
        }
    }
}
