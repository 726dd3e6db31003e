// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// What can be chosen for one link: where the head is taken, the flow, the cable.
BottomSheet {
    id: root
    required property PowerModel power
    property string key

    function show(which: string) {
        power.load()
        present(which)
    }
    function present(which: string) {
        key = which
        resumeWith = which
        heading = ({ head: qsTr("Gross head"), flow: qsTr("Flow through the turbine"), cable: qsTr("Cable") })[which]
        open()
    }
    resumeName: "link"
    function resume(given: string) {
        present(given) // with what was half typed
    }
    heading: ""
    PickField {
        visible: root.key === "head"
        label: qsTr("Intake")
        choices: root.power.stations
        chosen: root.power.intake
        onPicked: id => root.power.intake = id
    }
    PickField {
        visible: root.key === "head"
        label: qsTr("Powerhouse")
        choices: root.power.stations
        chosen: root.power.powerhouse
        onPicked: id => root.power.powerhouse = id
    }
    ChoiceRow {
        visible: root.key === "head"
        label: qsTr("The head ends at")
        choices: root.power.lowerEnds
        chosen: root.power.lowerEnd
        onPicked: id => root.power.lowerEnd = id
    }
    InkText {
        Layout.fillWidth: true
        visible: root.key === "head"
        text: qsTr("An impulse wheel (jets into air) works with the fall down to its axis: level to where the axis will be. A reaction turbine with a draft tube works with the fall down to the tailwater.")
        color: Theme.quietInk
    }
    InkText {
        Layout.fillWidth: true
        visible: root.key === "flow"
        text: qsTr("Empty: the flow to use from the flow tests. What must stay in the creek is decided by the local authority, not here.")
    }
    EntryFields {
        visible: root.key === "flow"
        form: root.power.flowForm
        doneText: qsTr("done")
    }
    PickField {
        visible: root.key === "cable"
        label: qsTr("Conductor")
        choices: root.power.conductors
        chosen: root.power.conductor
        onPicked: id => root.power.conductor = id
    }
    ChoiceRow {
        visible: root.key === "cable"
        label: qsTr("Current")
        choices: [{ id: "dc", label: qsTr("Direct") }, { id: "single-phase", label: qsTr("Single phase") },
            { id: "three-phase", label: qsTr("Three phases") }]
        chosen: root.power.system
        onPicked: id => root.power.system = id
    }
    EntryFields {
        visible: root.key === "cable"
        form: root.power.cableForm
        doneText: qsTr("done")
    }
    EntryFields {
        visible: root.key === "cable"
        form: root.power.lossForm
        doneText: qsTr("done")
    }
    InkText {
        Layout.fillWidth: true
        visible: root.key === "cable" && text !== ""
        text: root.power.cableSize
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.key === "cable" && root.power.cableSizeKnown
        text: qsTr("Take this conductor")
        iconName: "check"
        onClicked: root.power.takeCableSize()
    }
    CautionRow {
        visible: root.key === "cable"
        text: qsTr("Loss and voltage drop only. Ampacity, protection, earthing and burial: the local code and a licensed electrician.")
    }
    ActionButton {
        Layout.fillWidth: true
        visible: root.key !== "head"
        text: qsTr("Use these values")
        enabled: root.power.cableForm.complete && root.power.flowForm.complete
        onClicked: {
            if (root.power.store())
                root.close()
        }
    }
}
