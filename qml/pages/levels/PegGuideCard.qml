// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Leads through a two-peg test set-up by set-up, and gives the verdict.
PanelCard {
    id: root
    required property var guide // PegGuide
    readonly property string kept: Drafts.text("two-peg/layout")
    property bool beyond: kept === "beyond"

    heading: guide.setup === 1 ? qsTr("Set-up 1 of 2: midway")
           : guide.setup === 2 ? qsTr("Set-up 2 of 2: %1").arg(beyond ? qsTr("behind peg B") : qsTr("close to peg B"))
           : qsTr("Verdict")

    ChoiceRow {
        visible: root.guide.setup === 2
        label: qsTr("Where the level stands now")
        choices: [{ id: "near", label: qsTr("Close to peg B") }, { id: "beyond", label: qsTr("Behind peg B") }]
        chosen: root.beyond ? "beyond" : "near"
        onPicked: id => {
            root.beyond = id === "beyond"
            Drafts.keep("two-peg/layout", id)
        }
    }
    PegDrawing {
        Layout.fillWidth: true
        visible: root.guide.setup < 3
        setup: root.guide.setup
        beyond: root.beyond
    }
    InkText {
        Layout.fillWidth: true
        visible: root.guide.setup < 3
        text: root.guide.setup === 1
              ? qsTr("Drive two pegs 40 to 100 m (130 to 330 ft) apart on fairly level ground. Set the level up midway, within a step of equal distances, and read the staff on both pegs: here an error of the level falls out.")
              : root.beyond
              ? qsTr("Set the level up in line with both pegs, a short focus distance behind peg B. Read the staff on B, then on A, and book both distances from the level.")
              : qsTr("Set the level up as close to peg B as it will focus. Read the staff on B, then on A, and book both distances from the level.")
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.guide.verdict
        font.bold: true
        color: root.guide.good ? Theme.ink : Theme.danger
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.guide.until
    }
}
