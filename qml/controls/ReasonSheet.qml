// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Asks for the reason of a strike-out, or takes one back.
BottomSheet {
    id: root
    property string subject
    property string what
    property bool struck: false
    signal given(string id, string why)
    signal takenBack(string id)

    function show(id: string, words: string, isStruck: bool) {
        subject = id
        what = words
        struck = isStruck
        resumeWith = JSON.stringify([id, words, isStruck])
        open()
    }
    function resume(given: string) {
        const [id, words, isStruck] = JSON.parse(given)
        show(id, words, isStruck)
    }
    onClosed: reason.done()
    heading: struck ? qsTr("Struck out") : qsTr("Strike out")
    InkText {
        Layout.fillWidth: true
        text: root.what
        font.strikeout: root.struck
    }
    NameField {
        id: reason
        Layout.fillWidth: true
        visible: !root.struck
        label: qsTr("Reason for striking it out")
        draft: root.resumeName === "" ? "" : root.resumeName + "/reason"
        onAccepted: confirm.clicked()
    }
    PlainButton {
        id: confirm
        Layout.fillWidth: true
        enabled: root.struck || reason.text.trim() !== ""
        text: root.struck ? qsTr("Take the strike-out back") : qsTr("Strike out")
        iconName: root.struck ? "undo" : "strike"
        onClicked: {
            const why = reason.text.trim()
            root.close() // first: what follows may take the page away
            if (root.struck)
                root.takenBack(root.subject)
            else
                root.given(root.subject, why)
        }
    }
}
