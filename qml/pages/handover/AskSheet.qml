// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// One item of the designer's list: the answer that a person can give, the way to where it is mended, or why this site
/// does without it.
BottomSheet {
    id: root
    required property HandoverModel handover
    property string key
    readonly property var ask: item(handover.asks, key) // AskItem
    readonly property string takes: ask !== null && ask.state !== 3 ? ask.takes : ""
    signal placeAsked(string place)

    function item(all: var, wanted: string): var {
        for (const one of all)
            if (one.key === wanted)
                return one
        return null
    }
    function show(which: string) {
        key = which
        resumeWith = which
        open()
    }
    function resume(given: string) {
        show(given)
    }
    function answer(verdict: string) {
        const words = remark.text.trim()
        const which = key
        root.close()
        root.handover.answer(which, verdict, words)
    }
    resumeName: "ask"
    heading: ask !== null ? ask.label : ""
    onClosed: remark.done()

    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.ask !== null ? root.ask.why : ""
    }
    InkText {
        Layout.fillWidth: true
        visible: root.ask !== null && root.ask.answered
        text: root.ask === null ? "" : root.ask.state === 3 ? qsTr("Not needed here: %1").arg(root.ask.answer) : qsTr("Answered: %1").arg(root.ask.answer)
        font.bold: true
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.ask !== null && root.ask.answered
        text: qsTr("Take the answer back")
        iconName: "undo"
        onClicked: {
            const which = root.key
            root.close()
            root.handover.takeAnswerBack(which)
        }
    }
    NameField {
        id: remark
        Layout.fillWidth: true
        visible: root.ask !== null && root.ask.state !== 3
        label: root.takes === "text" ? qsTr("Answer, or why it is not needed") : root.takes === "yes-no" ? qsTr("Remark, or why it is not needed") : qsTr("Why it is not needed here")
        draft: root.resumeName + "/" + root.key
    }
    RowLayout {
        Layout.fillWidth: true
        visible: root.takes === "yes-no"
        spacing: Theme.gap
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Yes")
            iconName: "check"
            onClicked: root.answer("yes")
        }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("No")
            iconName: "close"
            onClicked: root.answer("no")
        }
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.takes === "text"
        enabled: remark.text.trim() !== ""
        text: qsTr("Keep the answer")
        iconName: "check"
        onClicked: root.answer("text")
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.ask !== null && root.ask.place !== "handover" && root.ask.state !== 3
        text: qsTr("Go to where it is measured")
        iconName: "next"
        onClicked: {
            const where = root.ask.place
            root.close()
            root.placeAsked(where)
        }
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.ask !== null && root.ask.state !== 3
        enabled: remark.text.trim() !== ""
        text: qsTr("This site does without it")
        iconName: "strike"
        onClicked: root.answer("not-needed")
    }
}
