// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// A caution at the step where someone can be hurt.
Rectangle {
    id: root
    required property string text
    Layout.fillWidth: true
    implicitHeight: row.implicitHeight + 2 * Theme.space
    color: "transparent"
    border.color: Theme.warning
    border.width: Theme.stroke
    radius: Theme.radius
    RowLayout {
        id: row
        anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.space }
        spacing: Theme.space
        InkIcon {
            Layout.alignment: Qt.AlignTop
            name: "warning"
            ink: Theme.warning
        }
        InkText {
            Layout.fillWidth: true
            text: root.text
            color: Theme.warning
        }
    }
}
