// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// A current-meter gauging: vertical by vertical, with the section drawn as it grows.
ScrollPage {
    id: root
    required property AppModel app
    readonly property FlowModel flow: app.flow

    MeterSheet {
        id: meterSheet
        flow: root.flow
    }
    FlowTestHead { flow: root.flow }
    SectionPlot {
        Layout.fillWidth: true
        visible: root.flow.bed.length > 1
        bed: root.flow.bed
        speeds: root.flow.speeds
    }
    InkText {
        Layout.fillWidth: true
        visible: root.flow.bed.length > 1
        text: qsTr("Across: distance, %1. Left: depth, %1. Right: velocity, %2.").arg(root.flow.lengthUnit).arg(root.flow.velocityUnit)
        color: Theme.quietInk
        font.pixelSize: Theme.small
    }
    PanelCard {
        heading: qsTr("Next vertical")
        ChoiceRow {
            label: qsTr("Where it stands")
            choices: [{ id: "", label: qsTr("In the water") }, { id: "water-edge", label: qsTr("Water's edge") },
                { id: "vertical-bank", label: qsTr("Vertical bank") }]
            chosen: root.flow.edge
            onPicked: id => root.flow.edge = id
        }
        EntryFields {
            form: root.flow.verticalForm
            doneText: qsTr("done")
        }
        ChoiceRow {
            visible: root.flow.edge === ""
            label: qsTr("Velocity at shares of the depth, from the surface")
            choices: root.flow.points
            chosen: root.flow.point
            onPicked: id => root.flow.point = id
        }
        Repeater {
            model: root.flow.velocityForms // qmllint disable type
            EntryFields {
                required property var modelData // EntryForm
                form: modelData
                doneText: qsTr("done")
            }
        }
    }
    FindingList { findings: root.flow.testFindings }
    ReadingList {
        readings: root.flow.readings
        resumeName: "strike-flow-reading"
        onStruckOut: (id, why) => root.flow.strikeReading(id, why)
        onTakenBack: id => root.flow.restoreReading(id)
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Current meter and its rating")
        iconName: "settings"
        onClicked: meterSheet.open()
    }
    CautionRow {
        text: qsTr("Wade only where depth times speed is well below 0.9 m²/s (10 ft²/s), never alone, never in rising water, with a flotation vest and out of cold water in time.")
    }
    actions: ActionButton {
        Layout.fillWidth: true
        text: qsTr("Book the vertical")
        enabled: root.flow.verticalReady && !root.app.readOnly
        onClicked: root.flow.bookVertical()
    }
}
