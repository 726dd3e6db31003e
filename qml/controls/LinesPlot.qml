// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import Rillmark.Ui

/// Lines over one pair of axes. Each is told apart by its thickness and its name below the plot, not by colour alone.
Item {
    id: root
    required property var lines // [{ name, points, ink, thickness }]
    required property string name
    property string unitAlong
    property string unitUp
    property var marks: [] // points
    implicitHeight: 260
    readonly property var all: {
        let points = []
        for (const line of lines)
            points = points.concat(Array.from(line.points))
        return points
    }
    readonly property real fromEdge: all.reduce((m, p) => Math.min(m, p.x), Infinity)
    readonly property real toEdge: all.reduce((m, p) => Math.max(m, p.x), -Infinity)
    readonly property real lowEdge: all.reduce((m, p) => Math.min(m, p.y), Infinity)
    readonly property real highEdge: all.reduce((m, p) => Math.max(m, p.y), -Infinity)
    readonly property real plotLeft: Math.max(highest.implicitWidth, lowest.implicitWidth) + Theme.space
    readonly property real plotBottom: Theme.small * 2
    function atX(x: real): real { return plotLeft + (width - plotLeft - Theme.gap) * (x - fromEdge) / Math.max(toEdge - fromEdge, 1e-9) }
    function atY(y: real): real { return Theme.space + (height - plotBottom - 2 * Theme.space) * (highEdge - y) / Math.max(highEdge - lowEdge, 1e-9) }
    function shown(v: real): string { return Number(v).toLocaleString(Qt.locale(), "f", Math.abs(v) < 10 ? 1 : 0) }

    Accessible.role: Accessible.Chart
    Accessible.name: name

    Rectangle {
        x: root.plotLeft
        width: parent.width - x
        height: parent.height - root.plotBottom
        color: Theme.card
    }
    InkText {
        id: highest
        visible: root.all.length > 0
        text: qsTr("%1 %2").arg(root.shown(root.highEdge)).arg(root.unitUp)
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    InkText {
        id: lowest
        visible: root.all.length > 0
        y: root.height - root.plotBottom - height
        text: qsTr("%1 %2").arg(root.shown(root.lowEdge)).arg(root.unitUp)
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    InkText {
        anchors { right: parent.right; bottom: parent.bottom }
        visible: root.all.length > 0
        text: qsTr("%1 to %2 %3").arg(root.shown(root.fromEdge)).arg(root.shown(root.toEdge)).arg(root.unitAlong)
        color: Theme.quietInk
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    Repeater {
        model: root.lines
        PolyLine {
            required property var modelData // { name, points, ink, thickness }
            anchors.fill: parent
            ink: modelData.ink
            thickness: modelData.thickness
            points: Array.from(modelData.points).map(p => Qt.point(root.atX(p.x), root.atY(p.y)))
        }
    }
    Repeater {
        model: root.marks
        Rectangle {
            required property var modelData // point
            x: root.atX(modelData.x) - width / 2
            y: root.atY(modelData.y) - height / 2
            width: 16
            height: width
            radius: width / 2
            color: Theme.action
        }
    }
}
