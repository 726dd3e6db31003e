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
    readonly property GaugingModel gauging: app.gauging

    MeterSheet {
        id: meterSheet
        gauging: root.gauging
    }
    FlowTestHead { flow: root.flow }
    SectionPlot {
        Layout.fillWidth: true
        visible: root.gauging.bed.length > 1
        bed: root.gauging.bed
        speeds: root.gauging.speeds
        panels: root.gauging.panels
    }
    InkText {
        Layout.fillWidth: true
        visible: root.gauging.bed.length > 1
        text: qsTr("Across: distance, %1. Left: depth, %1. Right: velocity, %2. Columns: the share of each vertical in the flow; framed above 5 %, framed heavily above 10 %.").arg(root.gauging.lengthUnit).arg(root.gauging.velocityUnit)
        color: Theme.quietInk
        font.pixelSize: Theme.small
    }
    PanelCard {
        heading: qsTr("Next vertical")
        ChoiceRow {
            label: qsTr("Where it stands")
            choices: [{ id: "", label: qsTr("In the water") }, { id: "water-edge", label: qsTr("Water's edge") },
                { id: "vertical-bank", label: qsTr("Vertical bank") }]
            chosen: root.gauging.edge
            onPicked: id => root.gauging.edge = id
        }
        InkText {
            Layout.fillWidth: true
            visible: root.gauging.edge !== ""
            text: qsTr("Book both banks in this way. An island, or ice down to the bed, has two edges more, one on each side of it: between them nothing flows.")
            color: Theme.quietInk
        }
        EntryFields {
            form: root.gauging.verticalForm
            doneText: qsTr("done")
        }
        ChoiceRow {
            visible: root.gauging.edge === ""
            label: qsTr("Velocity at shares of the depth, from the surface")
            choices: root.gauging.points
            chosen: root.gauging.point
            onPicked: id => root.gauging.point = id
        }
        Repeater {
            model: root.gauging.velocityForms // qmllint disable type
            EntryFields {
                required property var modelData // EntryForm
                form: modelData
                doneText: qsTr("done")
            }
        }
        InkText {
            Layout.fillWidth: true
            visible: text !== ""
            text: root.gauging.preview
            font.bold: true
        }
        FindingList { findings: root.gauging.previewFindings }
    }
    CountCard {
        visible: root.gauging.counting && root.gauging.edge === ""
        gauging: root.gauging
    }
    FindingList { findings: root.flow.testFindings }
    SurenessCard {
        visible: root.gauging.comparison.length > 0
        gauging: root.gauging
    }
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
    FlowSetupCard {
        run: root.app.flowRun
        readOnly: root.app.readOnly
    }
    CautionRow {
        text: qsTr("Wade only where depth times speed is well below 0.9 m²/s (10 ft²/s), never alone, never in rising water, with a flotation vest and out of cold water in time. Keep clear of weirs, racks and nets below you: the water holds you against them.")
    }
    actions: ActionButton {
        Layout.fillWidth: true
        text: qsTr("Book the vertical")
        enabled: root.gauging.ready && !root.app.readOnly
        onClicked: root.gauging.bookVertical()
    }
}
