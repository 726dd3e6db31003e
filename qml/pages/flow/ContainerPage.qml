// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// A container test: stopwatch, fill by fill, live result.
ScrollPage {
    id: root
    required property AppModel app
    readonly property FlowModel flow: app.flow

    FlowTestHead { flow: root.flow }
    StopwatchPad {
        Layout.fillWidth: true
        onStopped: seconds => root.flow.takeTime(seconds)
    }
    ChoiceRow {
        label: qsTr("Volume by")
        choices: [{ id: "mark", label: qsTr("A mark") }, { id: "weight", label: qsTr("Weighing full and empty") }]
        chosen: root.flow.volumeBy
        onPicked: id => root.flow.volumeBy = id
    }
    Repeater {
        model: [root.flow.fillForm]
        EntryFields {
            required property var modelData // EntryForm
            form: modelData
            doneText: qsTr("done")
        }
    }
    FindingList { findings: root.flow.testFindings }
    ReadingList {
        readings: root.flow.readings
        resumeName: "strike-flow-reading"
        onStruckOut: (id, why) => root.flow.strikeReading(id, why)
        onTakenBack: id => root.flow.restoreReading(id)
    }
    FlowSetupCard {
        run: root.app.flowRun
        readOnly: root.app.readOnly
    }
    CautionRow {
        text: qsTr("A full container is heavy: 20 L is 20 kg. Stand firmly, lift with two, and keep clear of slippery plates and planks.")
    }
    actions: ActionButton {
        Layout.fillWidth: true
        text: qsTr("Book the fill")
        enabled: root.flow.fillForm.complete && !root.app.readOnly
        onClicked: root.flow.bookFill()
    }
}
