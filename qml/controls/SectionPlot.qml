// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtCharts
import Rillmark.Ui

/// The gauged section: bed below the water line, the panel of each vertical with its share of the flow, its mean velocity.
// qmllint disable
ChartView {
    id: root
    required property var bed    // points: distance, minus depth
    required property var speeds // points: distance, velocity
    property var panels: []      // list of PanelItem

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
            depthAxis.max = 0 // the water's surface is the top, whatever looks nice
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
    Repeater {
        model: root.panels
        Rectangle {
            id: panel
            required property var modelData // PanelItem
            readonly property real across: root.plotArea.width / (acrossAxis.max - acrossAxis.min)
            x: root.plotArea.x + (modelData.from - acrossAxis.min) * across
            y: root.plotArea.y
            width: (modelData.to - modelData.from) * across
            height: modelData.depth / -depthAxis.min * root.plotArea.height
            color: Qt.alpha(Theme.water, Theme.night ? 0.25 : 0.12)
            border.color: modelData.weight > 0 ? Theme.water : Theme.rule
            border.width: modelData.weight > 1 ? 2 * Theme.stroke : modelData.weight > 0 ? Theme.stroke : Theme.hairline
            Text {
                anchors.centerIn: parent
                rotation: panel.width > implicitWidth ? 0 : -90 // upright along a narrow panel
                visible: panel.width > implicitHeight && panel.height > implicitWidth
                text: panel.modelData.share
                color: Theme.ink
                font.pixelSize: Theme.small
                font.bold: panel.modelData.weight > 1
                Accessible.ignored: true
            }
        }
    }
}
