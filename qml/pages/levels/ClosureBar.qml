// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The closing error of the book against what is allowed: a full bar is the allowance.
ColumnLayout {
    id: root
    required property string text
    required property double share
    spacing: 2
    InkText {
        Layout.fillWidth: true
        text: root.share > 1 ? qsTr("%1: observe again").arg(root.text) : root.text
        color: root.share > 1 ? Theme.danger : Theme.ink
        font.bold: true
    }
    Rectangle {
        Layout.fillWidth: true
        implicitHeight: Theme.space
        color: Theme.card
        border.color: Theme.rule
        border.width: Theme.hairline
        Rectangle {
            width: parent.width * Math.min(1, root.share)
            height: parent.height
            color: root.share > 1 ? Theme.danger : Theme.action
        }
    }
}
