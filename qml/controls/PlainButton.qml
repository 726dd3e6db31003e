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
    contentItem: Row {
        spacing: Theme.space
        InkIcon {
            visible: root.iconName !== ""
            width: visible ? implicitWidth : 0
            name: root.iconName
            ink: root.ink
            anchors.verticalCenter: parent.verticalCenter
        }
        Text {
            width: Math.min(implicitWidth, root.availableWidth - (root.iconName !== "" ? 24 + Theme.space : 0))
            text: root.text
            color: root.ink
            font: root.font
            wrapMode: Text.Wrap
            anchors.verticalCenter: parent.verticalCenter
            Accessible.ignored: true
        }
    }
}
