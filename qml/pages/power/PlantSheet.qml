// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// One link of the plant: its choices, its fields, what follows from them.
BottomSheet {
    id: root
    required property PlantModel plant
    property string key
    property var linkForm: null // EntryForm of the link, null while closed
    property int seen: 0        // counts what changed, so that figures follow

    function show(which: string) {
        plant.load(which)
        present(which)
    }
    function present(which: string) {
        key = which
        resumeWith = which
        heading = ({ intake: qsTr("Diversion and intake"), laying: qsTr("Laying and closing"), turbine: qsTr("Turbine"),
            drive: qsTr("Drive and generator"), prices: qsTr("Prices") })[which]
        linkForm = plant.form(which)
        open()
    }
    resumeName: "plant"
    function resume(given: string) {
        present(given) // with what was half typed
    }
    heading: ""
    Connections {
        target: root.plant
        function onChanged() { root.seen += 1 }
    }
    CautionRow {
        visible: root.key === "intake"
        text: qsTr("A wall in a stream, its flood and its slopes: a civil or dam-safety engineer, and the permit first. People and animals drown at intakes: fence and rake from above.")
    }
    CautionRow {
        visible: root.key === "laying"
        text: qsTr("A valve that closes fast bursts a pipe: close slowly, never with a quarter turn. Trenches cave in: shore them, know what lies in the ground. Pressure pipe and blocks: its maker and a licensed engineer.")
    }
    CautionRow {
        visible: root.key === "turbine"
        text: qsTr("Without load a turbine runs away. Runner and generator must survive that speed: their makers say so or not.")
    }
    CautionRow {
        visible: root.key === "drive"
        text: qsTr("Belts and shafts need guards. Ampacity, protection and earthing are never computed here: the local code and a licensed electrician.")
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        color: Theme.quietInk
        text: ({ turbine: qsTr("Efficiency empty: 70 % ± 10 %, common practice for a small set. The maker's curve decides; part-flow tables are unconfirmed until measured."),
            drive: qsTr("Generator empty: 85 % ± 5 %, below 100 kW. With a drive chosen the generator's efficiency is its own."),
            prices: qsTr("In any one currency, as you were told. Nothing is looked up.") })[root.key] ?? ""
    }
    Repeater {
        model: root.visible ? root.plant.lists(root.key) : []
        PickField {
            required property var modelData // Choice: key and label of a list
            label: modelData.label
            choices: root.plant.choicesOf(modelData.id)
            chosen: root.seen >= 0 ? root.plant.chosenOf(modelData.id) : ""
            onPicked: id => root.plant.choose(modelData.id, id)
        }
    }
    Loader {
        Layout.fillWidth: true
        active: root.linkForm !== null
        sourceComponent: EntryFields {
            form: root.linkForm
            doneText: qsTr("done")
        }
    }
    NameField {
        Layout.fillWidth: true
        visible: root.key === "prices"
        label: qsTr("Currency of all prices")
        draft: "alternative/currency"
        settles: true
        text: root.plant.currency
        onCommitted: word => root.plant.currency = word
    }
    ActionButton {
        Layout.fillWidth: true
        enabled: root.linkForm !== null && root.linkForm.complete
        text: qsTr("Use these values")
        onClicked: root.plant.store(root.key)
    }
    FactList { facts: root.visible && root.seen >= 0 ? root.plant.facts(root.key) : [] }
    FindingList { findings: root.visible && root.seen >= 0 ? root.plant.findingsOf(root.key) : [] }
}
