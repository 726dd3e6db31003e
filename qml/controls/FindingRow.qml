// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// One finding in words: its weight by an icon as well as by colour, and the source of the limit.
Item {
    id: root
    required property string sentence
    required property string source
    required property int severity // 0 note, 1 warning, 2 refusal
    readonly property color ink: severity === 0 ? Theme.quietInk : severity === 1 ? Theme.warning : Theme.danger

    visible: sentence !== ""
    Layout.fillWidth: true
    implicitHeight: words.implicitHeight
    implicitWidth: words.implicitWidth + icon.width + Theme.space

    InkIcon {
        id: icon
        name: root.severity === 0 ? "note" : "warning"
        ink: root.ink
    }
    // plain positioning: wrapped text in nested layouts is given its height too late
    Column {
        id: words
        anchors { left: icon.right; leftMargin: Theme.space; right: parent.right }
        InkText {
            width: parent.width
            text: root.sentence
            color: root.ink
            font.bold: root.severity === 2
        }
        InkText {
            width: parent.width
            visible: root.source !== ""
            text: root.source
            color: Theme.quietInk
            font.pixelSize: Theme.small
        }
    }
}
