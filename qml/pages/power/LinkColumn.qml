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
    Layout.fillWidth: true
    spacing: 2

    Repeater {
        model: root.power.links
        PressArea {
            id: one
            required property var modelData // LinkItem
            Layout.fillWidth: true
            text: qsTr("%1: %2. %3").arg(modelData.label).arg(modelData.missing ? qsTr("missing") : modelData.value).arg(modelData.detail)
            enabled: modelData.opens
            opacity: 1
            fill: modelData.key === "house" ? Theme.action : Theme.card
            ink: modelData.key === "house" ? Theme.onAction : Theme.ink
            leftPadding: Theme.gap
            onClicked: root.pressed(modelData.key)
            contentItem: ColumnLayout {
                spacing: 0
                RowLayout {
                    Layout.fillWidth: true
                    InkText {
                        Layout.fillWidth: true
                        text: one.modelData.label
                        color: one.ink
                        Accessible.ignored: true
                    }
                    InkText {
                        Layout.maximumWidth: one.availableWidth * 0.6
                        text: one.modelData.missing ? qsTr("missing") : one.modelData.value
                        color: one.modelData.missing ? Theme.warning : one.ink
                        font.bold: true
                        horizontalAlignment: Text.AlignRight
                        Accessible.ignored: true
                    }
                    InkIcon {
                        visible: one.modelData.opens
                        name: "next"
                        ink: one.ink
                    }
                }
                InkText {
                    Layout.fillWidth: true
                    visible: text !== "" && !one.modelData.missing
                    text: one.modelData.detail
                    color: one.modelData.key === "house" ? one.ink : Theme.quietInk
                    font.pixelSize: Theme.small
                    Accessible.ignored: true
                }
            }
        }
    }
}
