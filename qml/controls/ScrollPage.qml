// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// A page that scrolls, its content not wider than can be read; an action bar may stand fixed at the thumb.
Item {
    id: root
    default property alias content: column.data
    property alias actions: bar.data
    property alias contentY: flick.contentY

    Flickable {
        id: flick
        anchors { left: parent.left; right: parent.right; top: parent.top; bottom: bar.top }
        contentHeight: column.implicitHeight + 2 * Theme.edge
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        ColumnLayout {
            id: column
            y: Theme.edge
            x: (parent.width - width) / 2
            width: Math.min(flick.width - 2 * Theme.edge, Theme.readable)
            spacing: Theme.gap
        }
    }
    RowLayout {
        id: bar
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; leftMargin: Theme.edge; rightMargin: Theme.edge; bottomMargin: children.length > 0 ? Theme.space : 0 }
        spacing: Theme.space
    }
}
