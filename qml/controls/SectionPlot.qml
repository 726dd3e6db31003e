// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtCharts
import Rillmark.Ui

/// The gauged section: bed below the water line, mean velocity of each vertical above it.
// qmllint disable
ChartView {
    id: root
    required property var bed    // points: distance, minus depth
    required property var speeds // points: distance, velocity

    implicitHeight: 260
    antialiasing: true
    backgroundColor: "transparent"
    plotAreaColor: Theme.card
    legend.labelColor: Theme.ink
    legend.font.pixelSize: Theme.small
    margins { left: 0; right: 0; top: 0; bottom: 0 }
    Accessible.role: Accessible.Chart
    Accessible.name: qsTr("Cross-section with depths and velocities")

    function redraw() {
        bedLine.replacePoints(bed)
        speedLine.replacePoints(speeds)
        let deepest = 0
        let fastest = 0
        for (const p of bed)
            deepest = Math.min(deepest, p.y)
        for (const p of speeds)
            fastest = Math.max(fastest, p.y)
        acrossAxis.min = bed.length > 0 ? bed[0].x : 0
        acrossAxis.max = bed.length > 0 ? bed[bed.length - 1].x : 1
        depthAxis.min = deepest
        speedAxis.max = fastest
        if (deepest < 0 && fastest > 0) {
            depthAxis.applyNiceNumbers()
            speedAxis.applyNiceNumbers()
        }
    }
    onBedChanged: redraw()
    Component.onCompleted: redraw()

    ValueAxis {
        id: acrossAxis
        labelsColor: Theme.ink
        labelsFont.pixelSize: Theme.small
        gridLineColor: Theme.rule
    }
    ValueAxis {
        id: depthAxis
        max: 0
        labelsColor: Theme.ink
        labelsFont.pixelSize: Theme.small
        gridLineColor: Theme.rule
    }
    ValueAxis {
        id: speedAxis
        min: 0
        labelsColor: Theme.water
        labelsFont.pixelSize: Theme.small
        gridVisible: false
    }
    PlotSeries {
        id: bedLine
        name: qsTr("Bed")
        axisX: acrossAxis
        axisY: depthAxis
        color: Theme.ink
        width: 3
    }
    PlotSeries {
        id: speedLine
        name: qsTr("Velocity")
        axisX: acrossAxis
        axisYRight: speedAxis
        color: Theme.water
        width: 3
    }
}
