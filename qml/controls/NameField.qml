// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Templates as T
import Rillmark.Ui

/// A line of text: a name, a remark. Tells by committed() when the person is done with it; `label` stands above.
T.TextField {
    id: root
    required property string label
    property string draft: "" // the name under which half-typed text outlives the program; empty: it does not
    readonly property string kept: Drafts.text(draft)
    property bool settles: false // committed() changes the record, the draft ends with it
    signal committed(string text)

    /// Empties the field after its text was used.
    function done() {
        clear()
        Drafts.keep(draft, "")
    }
    onKeptChanged: restore()
    Component.onCompleted: restore()
    function restore() {
        if (kept !== "")
            text = kept
    }
    onTextEdited: Drafts.keep(draft, text)

    implicitHeight: Math.max(Theme.touch, caption.implicitHeight + contentHeight + 3 * Theme.space)
    topPadding: caption.implicitHeight + Theme.space
    leftPadding: Theme.gap
    rightPadding: Theme.gap
    bottomPadding: Theme.space
    font.pixelSize: Theme.body
    color: Theme.ink
    selectionColor: Theme.action
    selectedTextColor: Theme.inkOnAction
    placeholderTextColor: Theme.quietInk
    selectByMouse: true
    verticalAlignment: TextInput.AlignBottom
    onEditingFinished: {
        committed(text)
        if (settles)
            Drafts.keep(draft, "")
    }

    Accessible.role: Accessible.EditableText
    Accessible.name: label

    background: Rectangle {
        radius: Theme.radius
        color: Theme.paper
        border.width: root.activeFocus ? Theme.stroke * 2 : Theme.stroke
        border.color: root.activeFocus ? Theme.action : Theme.rule
        Text {
            id: caption
            x: Theme.gap
            y: Theme.space / 2
            width: parent.width - 2 * Theme.gap
            elide: Text.ElideRight
            text: root.label
            color: Theme.quietInk
            font.pixelSize: Theme.small
            Accessible.ignored: true
        }
    }
}
