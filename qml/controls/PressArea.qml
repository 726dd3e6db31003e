// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Templates as T
import Rillmark.Ui

/// Base of everything that can be pressed: at least 56 dp, focus frame, accessible name.
T.AbstractButton {
    id: root
    property color fill: "transparent"
    property color frame: "transparent"
    property color ink: Theme.ink

    implicitWidth: Math.max(Theme.touch, implicitContentWidth + leftPadding + rightPadding)
    implicitHeight: Math.max(Theme.touch, implicitContentHeight + topPadding + bottomPadding)
    padding: Theme.space
    font.pixelSize: Theme.label
    focusPolicy: Qt.StrongFocus
    opacity: enabled ? 1 : 0.5

    Accessible.role: Accessible.Button
    Accessible.name: text
    Accessible.onPressAction: click()

    Keys.onReturnPressed: click()
    Keys.onEnterPressed: click()

    background: Rectangle {
        radius: Theme.radius
        color: root.down ? Theme.pressed : root.fill
        border.width: root.visualFocus ? Theme.stroke * 2 : Theme.stroke
        border.color: root.visualFocus ? Theme.ink : root.frame
    }
}
