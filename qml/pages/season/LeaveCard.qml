// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// What must stay in the creek, by a rule that the authority sets.
PanelCard {
    id: root
    required property FlowModel flow
    required property bool readOnly
    heading: qsTr("Flow to leave in the creek")

    ChoiceRow {
        label: qsTr("The local authority's licence decides; this is what the estimate reckons with")
        choices: root.flow.leaveRules
        chosen: root.flow.leaveRule
        onPicked: id => root.flow.leaveRule = id
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.flow.leaveText
    }
    FindingList { findings: root.flow.leaveFindings }
    Repeater {
        model: root.flow.leaveForm !== null ? [root.flow.leaveForm] : []
        EntryFields {
            required property var modelData // EntryForm
            form: modelData
            doneText: qsTr("done")
        }
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.flow.leaveForm !== null
        text: qsTr("Reckon with it")
        iconName: "check"
        enabled: root.flow.leaveForm !== null && root.flow.leaveForm.complete && !root.readOnly
        onClicked: root.flow.keepLeave()
    }
}
