// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// A block of a page: a heading and what belongs to it, one below the other.
Rectangle {
    id: root
    property string heading
    default property alias content: column.data

    Layout.fillWidth: true
    implicitHeight: column.implicitHeight + 2 * Theme.gap
    implicitWidth: column.implicitWidth + 2 * Theme.gap
    color: Theme.card
    radius: Theme.radius

    ColumnLayout {
        id: column
        anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.gap }
        spacing: Theme.space
        InkText {
            visible: root.heading !== ""
            Layout.fillWidth: true
            text: root.heading
            font.pixelSize: Theme.title
            font.bold: true
            Accessible.role: Accessible.Heading
        }
    }
}
