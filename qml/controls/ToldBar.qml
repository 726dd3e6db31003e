// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Tells what belongs to no field: an action that was refused, a file that cannot be opened. Stays until it is put away.
Rectangle {
    id: root
    required property AppModel app
    visible: false
    color: Theme.paper
    border.color: Theme.danger
    border.width: Theme.stroke
    radius: Theme.radius
    implicitHeight: row.implicitHeight + 2 * Theme.space

    Connections {
        target: root.app
        function onTold(what) {
            words.sentence = what.sentence
            words.source = what.source
            words.severity = what.severity
            root.visible = true
        }
    }
    RowLayout {
        id: row
        anchors { left: parent.left; right: parent.right; verticalCenter: parent.verticalCenter; leftMargin: Theme.gap }
        FindingRow {
            id: words
            sentence: ""
            source: ""
            severity: 2
        }
        IconButton {
            text: qsTr("Put this message away")
            iconName: "close"
            onClicked: root.visible = false
        }
    }
}
