// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// The one main action of a place, worded as a verb, at the thumb.
PressArea {
    id: root
    implicitHeight: Math.max(Theme.mainAction, implicitContentHeight + topPadding + bottomPadding)
    fill: Theme.action
    ink: down ? Theme.ink : Theme.inkOnAction
    font.pixelSize: Theme.title
    font.bold: true
    contentItem: Text {
        text: root.text
        color: root.ink
        font: root.font
        horizontalAlignment: Text.AlignHCenter
        verticalAlignment: Text.AlignVCenter
        wrapMode: Text.Wrap
        Accessible.ignored: true
    }
}
