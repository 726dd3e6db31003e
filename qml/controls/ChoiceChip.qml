// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// One of a few alternatives that stand side by side; the chosen one is filled and ticked.
PressArea {
    id: root
    property bool chosen: false
    frame: chosen ? Theme.action : Theme.rule
    fill: chosen ? Theme.action : "transparent"
    ink: chosen && !down ? Theme.inkOnAction : Theme.ink
    leftPadding: Theme.gap
    rightPadding: Theme.gap
    Accessible.role: Accessible.RadioButton
    Accessible.checkable: true
    Accessible.checked: chosen
    contentItem: Text {
        text: (root.chosen ? "✓ " : "") + root.text
        color: root.ink
        font: root.font
        horizontalAlignment: Text.AlignHCenter
        verticalAlignment: Text.AlignVCenter
        elide: Text.ElideRight
        Accessible.ignored: true
    }
}
