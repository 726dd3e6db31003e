// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The year: energy, months, and design flow against energy with its knee.
BottomSheet {
    id: root
    required property StudyModel study
    readonly property var lines: [{ name: qsTr("Energy of a year by design flow"), points: study.designCurve, ink: Theme.water, thickness: 3 }]
    resumeName: "year"
    heading: qsTr("The year")

    InkText {
        Layout.fillWidth: true
        visible: !root.study.seasonKnown
        text: qsTr("The season of this creek is not known yet: one day's flow says nothing about the year. Record its flow over the seasons; then the energy by month and the best design flow stand here.")
    }
    FactList { facts: root.study.year }
    LinesPlot {
        Layout.fillWidth: true
        visible: root.study.designCurve.length > 1
        name: qsTr("Design flow against energy")
        lines: root.lines
        marks: root.study.knee
        unitUp: qsTr("kWh")
    }
    LineKey {
        visible: root.study.designCurve.length > 1
        lines: root.lines
    }
    FindingList { findings: root.study.yearFindings }
    InkText {
        Layout.fillWidth: true
        visible: root.study.seasonKnown
        color: Theme.quietInk
        text: qsTr("The ± is of measuring; how the years differ stands apart. The knee is ours, no optimum: that needs prices. What must stay in the creek the authority decides.")
    }
}
