// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import QtCharts
import Rillmark.Ui

/// The long profile: ground along the pipe and the hydraulic grade line, below the intake water level.
ColumnLayout {
    id: root
    required property var ground    // points: chainage, minus the fall below the intake
    required property var gradeLine // points, likewise
    required property string lengthUnit
    spacing: 0

    // qmllint disable
    ChartView {
        id: chart
        Layout.fillWidth: true
        Layout.fillHeight: true
        Layout.minimumHeight: 280
        antialiasing: true
        backgroundColor: "transparent"
        plotAreaColor: Theme.card
        legend.labelColor: Theme.ink
        legend.font.pixelSize: Theme.small
        margins { left: 0; right: 0; top: 0; bottom: 0 }
        Accessible.role: Accessible.Chart
        Accessible.name: qsTr("Profile along the pipe")
        ValueAxis {
            id: along
            labelsColor: Theme.ink
            labelsFont.pixelSize: Theme.small
            gridLineColor: Theme.rule
            labelFormat: "%.0f"
        }
        ValueAxis {
            id: below
            labelsColor: Theme.ink
            labelsFont.pixelSize: Theme.small
            gridLineColor: Theme.rule
            labelFormat: "%.0f"
        }
        PlotSeries {
            id: groundLine
            name: qsTr("Ground")
            axisX: along
            axisY: below
            color: Theme.ink
            width: 3
        }
        PlotSeries {
            id: grade
            name: qsTr("Hydraulic grade line")
            axisX: along
            axisY: below
            color: Theme.water
            width: 3
            style: Qt.DashLine
        }
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Across: chainage along the pipe, %1. Up: height against the intake water level, %1.").arg(root.lengthUnit)
        color: Theme.quietInk
        font.pixelSize: Theme.small
    }

    function redraw() {
        groundLine.replacePoints(ground)
        grade.replacePoints(gradeLine)
        if (ground.length < 2)
            return
        let lowest = 0
        let highest = 0
        for (const p of ground) {
            lowest = Math.min(lowest, p.y)
            highest = Math.max(highest, p.y)
        }
        along.min = 0
        along.max = ground[ground.length - 1].x
        below.min = lowest
        below.max = highest
        along.applyNiceNumbers()
        below.applyNiceNumbers()
    }
    onGroundChanged: redraw()
    onGradeLineChanged: redraw()
    Component.onCompleted: redraw()
}
