// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// One month as a bar, with what must stay in the creek as a mark.
RowLayout {
    id: root
    required property var modelData // MonthItem
    Layout.fillWidth: true
    spacing: Theme.space
    Accessible.role: Accessible.StaticText
    Accessible.name: modelData.name + ": " + modelData.words

    InkText {
        Layout.preferredWidth: Theme.touch
        text: root.modelData.name
        Accessible.ignored: true
    }
    ColumnLayout {
        Layout.fillWidth: true
        spacing: 0
        Item {
            id: bar
            Layout.fillWidth: true
            implicitHeight: Theme.gap
            Rectangle {
                width: Math.max(1, parent.width * root.modelData.middle)
                height: parent.height
                color: Theme.pressed
                border.color: Theme.water
                border.width: Theme.hairline
            }
            Rectangle {
                width: Math.max(1, parent.width * root.modelData.low)
                height: parent.height
                color: Theme.water
            }
            Rectangle {
                visible: root.modelData.left > 0
                x: Math.min(bar.width - width, bar.width * root.modelData.left)
                width: Theme.stroke * 2
                height: parent.height
                color: Theme.danger
            }
        }
        InkText {
            Layout.fillWidth: true
            text: root.modelData.words
            color: Theme.quietInk
            font.pixelSize: Theme.small
            Accessible.ignored: true
        }
    }
}
