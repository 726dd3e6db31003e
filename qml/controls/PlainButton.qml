// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// A secondary action: framed, with an icon before its words when one is named.
PressArea {
    id: root
    property string iconName
    frame: Theme.rule
    leftPadding: Theme.gap
    rightPadding: Theme.gap
    contentItem: Item {
        implicitWidth: words.implicitWidth + words.leftEdge
        implicitHeight: Math.max(24, words.implicitHeight)
        InkIcon {
            visible: root.iconName !== ""
            name: root.iconName
            ink: root.ink
            anchors.verticalCenter: parent.verticalCenter
        }
        Text {
            id: words
            readonly property int leftEdge: root.iconName !== "" ? 24 + Theme.space : 0
            x: leftEdge
            width: parent.width - leftEdge
            height: parent.height
            text: root.text
            color: root.ink
            font: root.font
            wrapMode: Text.Wrap
            verticalAlignment: Text.AlignVCenter
            horizontalAlignment: root.iconName !== "" ? Text.AlignLeft : Text.AlignHCenter
            Accessible.ignored: true
        }
    }
}
