// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The record that the year's flow is taken from: a stage log of this creek, or the daily flows of a gauge.
PanelCard {
    id: root
    required property SeasonModel season
    required property SeriesImport series
    required property bool readOnly
    heading: qsTr("Record of the gauge")

    ImportSheet {
        id: sheet
        series: root.series
    }
    ReasonSheet {
        id: strike
        resumeName: "season-strike-series"
        onGiven: (id, why) => root.season.strikeSeries(why)
    }
    PickField {
        visible: root.season.series.length > 1
        label: qsTr("Record that the year is taken from")
        choices: root.season.series
        chosen: root.season.chosenSeries
        onPicked: id => root.season.chosenSeries = id
    }
    InkText {
        Layout.fillWidth: true
        visible: root.season.series.length === 1
        text: visible ? root.season.series[0].label : ""
        font.bold: true
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.season.seriesText
        color: Theme.quietInk
    }
    FlowPlot {
        visible: root.season.days.length > 1
        name: qsTr("Daily flows at the gauge")
        lines: [{ points: root.season.days, ink: Theme.water }]
        dots: root.season.daysOutside
        unit: root.season.flowUnit
        acrossName: root.season.daysOutside.length > 0 ? qsTr("year; dots: the stage was not gauged") : qsTr("year")
        logarithmic: true
    }
    EntryFields {
        visible: root.season.neighbour
        form: root.season.seriesForm
        doneText: qsTr("done")
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.season.neighbour
        text: qsTr("Use these of the gauge")
        iconName: "check"
        enabled: root.season.seriesForm.complete && !root.readOnly
        onClicked: root.season.keepSeries()
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Read in a record")
        iconName: "folder"
        enabled: !root.readOnly
        onClicked: sheet.open()
    }
    FindingList { findings: sheet.visible ? [] : root.series.findings }
    PlainButton {
        Layout.fillWidth: true
        visible: root.season.series.length > 0
        text: qsTr("Strike this record out")
        iconName: "strike"
        enabled: !root.readOnly
        onClicked: strike.show(root.season.chosenSeries, root.season.seriesText, false)
    }
}
