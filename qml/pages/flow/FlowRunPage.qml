// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// A test by float, tracer, weir, flume or high-water marks: live result, set-up, the reading to be booked next.
ScrollPage {
    id: root
    required property AppModel app
    readonly property FlowModel flow: app.flow
    readonly property FlowRunModel run: app.flowRun

    FlowTestHead { flow: root.flow }
    Repeater {
        model: root.run.details
        InkText {
            required property string modelData
            Layout.fillWidth: true
            text: modelData
            color: Theme.quietInk
        }
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.run.advice
    }
    CautionRow {
        visible: text !== ""
        text: root.run.caution
    }
    SaltPlanCard {
        visible: root.run.plansSalt
        run: root.run
    }
    WaveCard {
        visible: root.run.role === "trace"
        run: root.run
        readOnly: root.app.readOnly
    }
    TraceClockPad {
        visible: root.run.role === "trace"
        run: root.run
    }
    StopwatchPad {
        Layout.fillWidth: true
        visible: root.run.timed
        onStopped: seconds => root.run.takeTime(seconds)
    }
    ChoiceRow {
        visible: root.run.roles.length > 1
        label: qsTr("To book")
        choices: root.run.roles
        chosen: root.run.role
        onPicked: id => root.run.role = id
    }
    ChoiceRow {
        visible: root.run.partLabel !== ""
        label: root.run.partLabel
        choices: root.run.parts
        chosen: root.run.part
        onPicked: id => root.run.part = id
    }
    StationHeights {
        visible: root.run.role === "section" || root.run.role === "mark"
        run: root.run
        readOnly: root.app.readOnly
    }
    Repeater {
        model: root.run.form !== null ? [root.run.form] : []
        EntryFields {
            required property var modelData // EntryForm
            form: modelData
            doneText: qsTr("done")
        }
    }
    FindingList { findings: root.flow.testFindings }
    FlowSetupCard {
        run: root.run
        readOnly: root.app.readOnly
    }
    ReadingList {
        readings: root.run.readings
        resumeName: "strike-flow-run-reading"
        onStruckOut: (id, why) => root.run.strikeReading(id, why)
        onTakenBack: id => root.run.restoreReading(id)
    }
    actions: ActionButton {
        Layout.fillWidth: true
        text: qsTr("Book this reading")
        enabled: root.run.form !== null && root.run.form.complete && !root.app.readOnly
        onClicked: root.run.book()
    }
}
