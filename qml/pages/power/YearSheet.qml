// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The year by the season of the creek: energy, watts by month, and design flow against energy with its knee.
BottomSheet {
    id: root
    required property StudyModel study
    signal asked(string text) // how we know the energy
    signal seasonAsked
    // a long record takes its time: only while the sheet is seen
    readonly property var facts: visible ? study.year : []
    readonly property var lines: [{ name: qsTr("Energy of a year by design flow"), points: visible ? study.designCurve : [], ink: Theme.water, thickness: 3 }]
    resumeName: "year"
    heading: qsTr("The year")

    FindingList { findings: root.visible ? root.study.yearFindings : [] }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("To the season of this creek")
        iconName: "next"
        onClicked: {
            root.close()
            root.seasonAsked()
        }
    }
    FactList { facts: root.facts }
    PlainButton {
        Layout.fillWidth: true
        visible: root.facts.length > 0
        text: qsTr("How we know the energy")
        iconName: "chart"
        onClicked: root.asked(root.facts[0].value)
    }
    InkText {
        Layout.fillWidth: true
        visible: months.count > 0
        text: qsTr("Watts by month")
        font.bold: true
        Accessible.role: Accessible.Heading
    }
    InkText {
        Layout.fillWidth: true
        visible: months.count > 0
        color: Theme.quietInk
        font.pixelSize: Theme.small
        text: qsTr("Whole bar: what half of the days reach. Filled part: what 95 in 100 days reach.")
    }
    Repeater {
        id: months
        model: root.visible ? root.study.months : []
        MonthBar {}
    }
    LinesPlot {
        Layout.fillWidth: true
        visible: root.lines[0].points.length > 1
        name: qsTr("Design flow against energy")
        lines: root.lines
        marks: root.visible ? root.study.knee : []
        unitAlong: root.study.flowUnit
        unitUp: root.study.energyUnit
    }
    LineKey {
        visible: root.lines[0].points.length > 1
        lines: root.lines
    }
    InkText {
        Layout.fillWidth: true
        visible: root.facts.length > 0
        color: Theme.quietInk
        text: qsTr("The ± is of measuring; how the years differ stands apart. The dot is the knee: ours, no optimum, for that needs prices. What must stay in the creek the authority decides.")
    }
}
