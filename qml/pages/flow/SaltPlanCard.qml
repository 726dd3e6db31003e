// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Before the salt: how far below to read, how much to take, and what the creek may stand. Opens with a press.
PanelCard {
    id: root
    required property FlowRunModel run
    readonly property SaltPlanModel plan: run.saltPlan
    property bool unfolded: Drafts.text("salt-plan/open") !== ""
    heading: qsTr("How far and how much salt")

    PlainButton {
        Layout.fillWidth: true
        text: root.unfolded ? qsTr("Put the advice away") : qsTr("Ask for advice")
        iconName: root.unfolded ? "close" : "down"
        onClicked: {
            root.unfolded = !root.unfolded
            Drafts.keep("salt-plan/open", root.unfolded ? "open" : "")
        }
    }
    ColumnLayout {
        Layout.fillWidth: true
        visible: root.unfolded
        spacing: Theme.space
        EntryFields {
            form: root.plan.form
            doneText: qsTr("done")
        }
        ChoiceRow {
            label: qsTr("The salt goes in")
            choices: root.plan.pourings
            chosen: root.plan.pouring
            onPicked: id => root.plan.pouring = id
        }
        Repeater {
            model: root.plan.advice
            InkText {
                required property string modelData
                Layout.fillWidth: true
                text: modelData
            }
        }
        FindingList { findings: root.plan.findings }
        CautionRow {
            text: qsTr("Before it goes in: have leave of the owner and of the authority that the water is under, which may ask for a permit or a licensed person; nobody drinking, no spawning fish and no intake just below.")
        }
        InkText {
            Layout.fillWidth: true
            text: qsTr("Limits of chloride for life in fresh water. %1.").arg(Array.from(root.plan.limits).join("; "))
            color: Theme.quietInk
            font.pixelSize: Theme.small
        }
    }
}
