// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The position being averaged: how far it is, how good, and the scatter of its fixes.
RowLayout {
    id: root
    required property WalkModel walk
    Layout.fillWidth: true
    spacing: Theme.gap

    Rectangle {
        implicitWidth: 120
        implicitHeight: 120
        radius: width / 2
        color: Theme.card
        border.color: Theme.rule
        border.width: Theme.hairline
        Accessible.role: Accessible.Graphic
        Accessible.name: qsTr("Scatter of the fixes")
        Repeater {
            model: root.walk.scatter
            Rectangle {
                required property point modelData
                x: 57 + 50 * modelData.x
                y: 57 + 50 * modelData.y
                width: 6
                height: 6
                radius: 3
                color: Theme.water
            }
        }
    }
    ColumnLayout {
        Layout.fillWidth: true
        InkText {
            Layout.fillWidth: true
            text: root.walk.averageText
            font.pixelSize: Theme.title
            font.bold: true
        }
        Rectangle {
            Layout.fillWidth: true
            implicitHeight: Theme.space
            color: Theme.card
            border.color: Theme.rule
            border.width: Theme.hairline
            Rectangle {
                width: parent.width * root.walk.progress
                height: parent.height
                color: Theme.action
            }
        }
        InkText {
            Layout.fillWidth: true
            text: root.walk.progress < 1 ? qsTr("Stand still. Longer is better; you may log at any time.") : qsTr("Averaging time is over.")
            color: Theme.quietInk
            font.pixelSize: Theme.small
        }
        FindingList { findings: root.walk.averageFindings }
    }
}
