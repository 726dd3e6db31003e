// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Rillmark.Ui

/// A part of a value, half to one and a half of it.
ColumnLayout {
    id: root
    required property string label
    required property string value
    required property double part
    signal moved(double part)
    Layout.fillWidth: true
    spacing: 0
    InkText {
        Layout.fillWidth: true
        text: qsTr("%1: %2").arg(root.label).arg(root.value)
    }
    T.Slider {
        id: slider
        Layout.fillWidth: true
        implicitHeight: Theme.touch
        from: 0.5
        to: 1.5
        stepSize: 0.01
        value: root.part
        onMoved: root.moved(value)
        Accessible.role: Accessible.Slider
        Accessible.name: root.label
        Accessible.onIncreaseAction: increase()
        Accessible.onDecreaseAction: decrease()
        background: Rectangle {
            y: (slider.height - height) / 2
            width: slider.width
            height: 6
            radius: 3
            color: Theme.rule
        }
        handle: Rectangle {
            x: slider.visualPosition * (slider.width - width)
            y: (slider.height - height) / 2
            width: 32
            height: width
            radius: width / 2
            color: Theme.action
            border.width: slider.visualFocus ? Theme.stroke * 2 : 0
            border.color: Theme.ink
        }
    }
}
