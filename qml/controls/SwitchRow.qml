// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// A yes or no with its words; the whole row can be pressed. Tell with toggled(), show with `on`.
PressArea {
    id: root
    property bool on: false
    signal toggled
    onClicked: toggled()
    leftPadding: 0
    Accessible.role: Accessible.CheckBox
    Accessible.checkable: true
    Accessible.checked: on
    contentItem: Item {
        implicitWidth: words.implicitWidth + box.width + Theme.gap
        implicitHeight: Math.max(words.implicitHeight, box.height)
        Rectangle {
            id: box
            anchors.verticalCenter: parent.verticalCenter
            width: 28
            height: 28
            radius: Theme.radius
            color: root.on ? Theme.action : "transparent"
            border.color: root.on ? Theme.action : Theme.rule
            border.width: Theme.stroke
            InkIcon {
                anchors.centerIn: parent
                visible: root.on
                size: 20
                name: "check"
                ink: Theme.inkOnAction
            }
        }
        Text {
            id: words
            anchors { left: box.right; leftMargin: Theme.gap; right: parent.right; verticalCenter: parent.verticalCenter }
            text: root.text
            color: Theme.ink
            font: root.font
            wrapMode: Text.Wrap
            Accessible.ignored: true
        }
    }
}
