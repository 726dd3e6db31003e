// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Pressure along the pipe: ground, standing water, hydraulic grade line, surge; where a class must end.
BottomSheet {
    id: root
    required property PressureModel pressure
    readonly property var lines: [
        { name: qsTr("Pipe"), points: pressure.pipe, ink: Theme.ink, thickness: 4 },
        { name: qsTr("Standing water"), points: pressure.standing, ink: Theme.quietInk, thickness: 1 },
        { name: qsTr("At design flow"), points: pressure.gradeLine, ink: Theme.water, thickness: 3 },
        { name: qsTr("Surge, highest"), points: pressure.highest, ink: Theme.danger, thickness: 2 },
        { name: qsTr("Surge, lowest"), points: pressure.lowest, ink: Theme.warning, thickness: 2 }
    ]
    resumeName: "pressure"
    heading: qsTr("Pressure along the pipe")

    CautionRow {
        text: qsTr("Water under pressure bursts pipes and kills. This is a first look, not a design: the pipe's maker and a licensed engineer decide on class, valves, vents and blocks, by the local code. Fill and close slowly.")
    }
    LinesPlot {
        Layout.fillWidth: true
        visible: root.pressure.known
        name: qsTr("Pressure along the pipe")
        lines: root.lines
        unitAlong: root.pressure.lengthUnit
        unitUp: root.pressure.lengthUnit
    }
    LineKey {
        visible: root.pressure.known
        lines: root.lines
    }
    InkText {
        Layout.fillWidth: true
        visible: root.pressure.known
        color: Theme.quietInk
        font.pixelSize: Theme.small
        text: qsTr("Levels against the water at the intake. The height of a line above the pipe is its pressure there.")
    }
    FactList { facts: root.pressure.sections }
    FactList { facts: root.pressure.facts }
    FindingList { findings: root.pressure.findings }
}
