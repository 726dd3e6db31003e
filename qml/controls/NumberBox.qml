// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// A number as typed and, beside it, as understood; a press opens the keypad.
PressArea {
    id: root
    required property string label
    required property string typed
    required property string understood
    required property string problem
    property bool optional: false

    text: label
    fill: Theme.paper
    frame: problem !== "" ? Theme.danger : Theme.rule
    leftPadding: Theme.gap
    Accessible.role: Accessible.EditableText
    Accessible.editable: true
    Accessible.description: typed === "" ? qsTr("empty") : problem !== "" ? typed + ", " + problem : typed + ", " + understood

    contentItem: ColumnLayout {
        spacing: 0
        Text {
            Layout.fillWidth: true
            text: root.optional ? qsTr("%1 (optional)").arg(root.label) : root.label
            color: Theme.quietInk
            font.pixelSize: Theme.small
            elide: Text.ElideRight
            Accessible.ignored: true
        }
        RowLayout {
            Text {
                text: root.typed === "" ? "–" : root.typed
                color: Theme.ink
                font.pixelSize: Theme.title
                font.bold: true
                Accessible.ignored: true
            }
            Text {
                Layout.fillWidth: true
                text: root.understood === "" ? "" : "= " + root.understood
                color: Theme.quietInk
                font.pixelSize: Theme.body
                elide: Text.ElideRight
                Accessible.ignored: true
            }
        }
        InkText {
            Layout.fillWidth: true
            visible: root.problem !== ""
            text: root.problem
            color: Theme.danger
            font.pixelSize: Theme.small
        }
    }
}
