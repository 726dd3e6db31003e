// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// What the lines of a plot are.
Flow {
    id: root
    required property var lines // as LinesPlot takes them
    Layout.fillWidth: true
    spacing: Theme.gap
    Repeater {
        model: root.lines
        Row {
            id: one
            required property var modelData // { name, points, ink, thickness }
            spacing: Theme.space / 2
            Rectangle {
                anchors.verticalCenter: parent.verticalCenter
                width: 24
                height: one.modelData.thickness
                color: one.modelData.ink
            }
            InkText {
                text: one.modelData.name
                font.pixelSize: Theme.small
            }
        }
    }
}
