// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Figures with what they are, one below the other.
ColumnLayout {
    id: root
    required property var facts // list of FactItem
    Layout.fillWidth: true
    visible: repeater.count > 0
    spacing: Theme.space / 2
    Repeater {
        id: repeater
        model: root.facts
        ColumnLayout {
            id: one
            required property var modelData // FactItem
            Layout.fillWidth: true
            spacing: 0
            InkText {
                Layout.fillWidth: true
                visible: text !== ""
                text: one.modelData.label
                color: Theme.quietInk
                font.pixelSize: Theme.small
            }
            InkText {
                Layout.fillWidth: true
                text: one.modelData.value
                font.bold: true
            }
        }
    }
}
