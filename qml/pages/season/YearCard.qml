// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The year at the site: its figures, the duration curve with the design flow, the months.
PanelCard {
    id: root
    required property SeasonModel season
    heading: qsTr("The year at this site")

    InkText {
        Layout.fillWidth: true
        visible: root.season.figures.length === 0
        text: qsTr("Not known yet. Read in the daily flows of a gauge on this creek or on one like it, or a log of this creek's staff gauge; without either, a mean flow can be had from the catchment.")
    }
    Repeater {
        model: root.season.figures
        RowLayout {
            id: figure
            required property var modelData // YearFigureItem
            Layout.fillWidth: true
            InkText {
                Layout.fillWidth: true
                text: figure.modelData.label
                color: Theme.quietInk
            }
            InkText {
                Layout.alignment: Qt.AlignTop
                text: figure.modelData.text
                wrapMode: Text.NoWrap
                font.bold: true
            }
        }
    }
    FindingList { findings: root.season.findings }
    InkText {
        Layout.fillWidth: true
        visible: root.season.duration.length > 1
        text: qsTr("Flow-duration curve")
        font.bold: true
        Accessible.role: Accessible.Heading
    }
    FlowPlot {
        id: curve
        visible: root.season.duration.length > 1
        name: qsTr("Flow-duration curve")
        lines: [{ points: root.season.duration, ink: Theme.water }]
        level: root.season.designFlow
        levelName: qsTr("flow that is used")
        unit: root.season.flowUnit
        acrossName: qsTr("part of the time that a flow is reached or passed, %")
        logarithmic: true
        onTouched: across => told.text = root.season.durationAt(across)
    }
    InkText {
        id: told
        Layout.fillWidth: true
        visible: curve.visible
        text: qsTr("Touch the curve to read it.")
        color: Theme.quietInk
    }
    ChoiceRow {
        visible: root.season.duration.length > 1
        label: qsTr("How a rank becomes a part of the time")
        choices: root.season.durationRules
        chosen: root.season.durationRule
        onPicked: id => root.season.durationRule = id
    }
    InkText {
        Layout.fillWidth: true
        visible: root.season.months.length > 0
        text: qsTr("Month by month: what flows on half of the days (whole bar), and on 95 of 100 (filled part)")
        font.bold: true
    }
    Repeater {
        model: root.season.months
        MonthBar {}
    }
    PickField {
        visible: root.season.months.length > 0
        label: qsTr("A year begins in (choose the wettest month, so that no low water is cut in two)")
        choices: root.season.monthNames
        chosen: root.season.yearBegins
        onPicked: id => root.season.yearBegins = id
    }
}
