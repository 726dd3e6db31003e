// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// One finding in words: its weight by a word and an icon as well as by colour, and the source of the limit.
RowLayout {
    id: root
    required property string sentence
    required property string source
    required property int severity // 0 note, 1 warning, 2 refusal
    readonly property color ink: severity === 0 ? Theme.quietInk : severity === 1 ? Theme.warning : Theme.danger

    visible: sentence !== ""
    Layout.fillWidth: true
    spacing: Theme.space
    InkIcon {
        Layout.alignment: Qt.AlignTop
        name: root.severity === 0 ? "note" : "warning"
        ink: root.ink
    }
    ColumnLayout {
        Layout.fillWidth: true
        spacing: 0
        InkText {
            Layout.fillWidth: true
            text: root.sentence
            color: root.ink
            font.bold: root.severity === 2
        }
        InkText {
            Layout.fillWidth: true
            visible: root.source !== ""
            text: root.source
            color: Theme.quietInk
            font.pixelSize: Theme.small
        }
    }
}
