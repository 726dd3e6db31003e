// SPDX-License-Identifier: GPL-3.0-or-later
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
        onStopped: seconds => root.flow.takeTime(root.flow.fillForm, seconds)
    }
    EntryFields {
        form: root.flow.fillForm
        doneText: qsTr("done")
    }
    FindingList { findings: root.flow.testFindings }
    ReadingList {
        readings: root.flow.readings
        resumeName: "strike-flow-reading"
        onStruckOut: (id, why) => root.flow.strikeReading(id, why)
        onTakenBack: id => root.flow.restoreReading(id)
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
