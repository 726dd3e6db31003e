// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The set-up of a test: what is chosen, and the numbers that all its readings share.
PanelCard {
    id: root
    required property FlowRunModel run
    required property bool readOnly
    heading: qsTr("Set-up of the test")

    Repeater {
        model: root.run.setupChoices
        PickField {
            id: one
            required property int index
            required property var modelData // SetupChoiceItem
            label: modelData.label
            choices: modelData.choices
            chosen: modelData.chosen
            onPicked: id => root.run.choose(one.index, id)
        }
    }
    Repeater {
        model: root.run.setup !== null ? [root.run.setup] : []
        EntryFields {
            required property var modelData // EntryForm
            form: modelData
            doneText: qsTr("done")
        }
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Use this set-up")
        iconName: "check"
        enabled: root.run.setup !== null && root.run.setup.complete && !root.readOnly
        onClicked: root.run.keepSetup()
    }
}
