// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import Rillmark.Ui

/// A trace over time with two handles, start and end; moved() when one is let go.
Item {
    id: root
    required property var points // list of points: seconds, conductivity
    required property real from
    required property real to
    property var leftOut: [] // points that do not count, marked by crosses
    property string startName: qsTr("Start of the wave")
    property string endName: qsTr("End of the wave")
    signal moved(real from, real to)
    signal dragged(real from, real to) // while a handle is still held

    readonly property real first: points.length > 0 ? points[0].x : 0
    readonly property real last: points.length > 0 ? Math.max(points[points.length - 1].x, first + 1) : 1
    readonly property real lowest: points.reduce((low, p) => Math.min(low, p.y), Infinity)
    readonly property real highest: points.reduce((high, p) => Math.max(high, p.y), -Infinity)
    readonly property real plotBottom: height - Theme.small * 2
    function atX(time: real): real { return width * (time - first) / (last - first) }
    function atY(value: real): real { return Theme.space + (plotBottom - 2 * Theme.space) * (highest - value) / Math.max(highest - lowest, 0.001) }
    function timeAt(x: real): real { return first + (last - first) * Math.max(0, Math.min(1, x / width)) }

    Accessible.role: Accessible.Chart
    Accessible.name: qsTr("Conductivity over time, wave from %1 s to %2 s").arg(Math.round(from)).arg(Math.round(to))

    Rectangle {
        width: parent.width
        height: root.plotBottom
        color: Theme.paper
    }
    Rectangle { // what is counted
        x: root.atX(root.from)
        width: Math.max(0, root.atX(root.to) - x)
        height: root.plotBottom
        color: Theme.pressed
    }
    Repeater {
        model: root.leftOut
        InkIcon {
            required property var modelData // point
            x: root.atX(modelData.x) - width / 2
            y: Math.max(0, Math.min(root.plotBottom - height, root.atY(modelData.y) - height / 2))
            size: 16
            name: "close"
            ink: Theme.danger
        }
    }
    PolyLine {
        anchors.fill: parent
        ink: Theme.water
        thickness: Theme.stroke
        points: root.points.map(p => Qt.point(root.atX(p.x), root.atY(p.y)))
    }
    Text {
        text: qsTr("%1 µS/cm").arg(Math.round(root.highest))
        color: Theme.ink
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    Text {
        anchors.bottom: parent.bottom
        text: qsTr("%1 s").arg(Math.round(root.first))
        color: Theme.ink
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    Text {
        anchors { bottom: parent.bottom; right: parent.right }
        text: qsTr("%1 s").arg(Math.round(root.last))
        color: Theme.ink
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }

    component Handle: Item {
        id: handle
        required property bool isStart
        readonly property real place: isStart ? root.from : root.to
        x: root.atX(place) - width / 2
        width: Theme.touch
        height: root.plotBottom
        Accessible.role: Accessible.Slider
        Accessible.name: isStart ? root.startName : root.endName
        readonly property real heldTime: root.timeAt(x + width / 2 + drag.translation.x)
        Rectangle {
            x: (parent.width - width) / 2 + drag.translation.x
            width: Theme.stroke
            height: parent.height
            color: Theme.action
        }
        Rectangle {
            x: (parent.width - width) / 2 + drag.translation.x
            anchors.bottom: parent.bottom
            width: 24
            height: 24
            radius: 12
            color: Theme.action
        }
        DragHandler {
            id: drag
            target: null
            enabled: root.enabled
            onActiveChanged: {
                if (!active)
                    root.moved(handle.isStart ? handle.heldTime : root.from, handle.isStart ? root.to : handle.heldTime)
            }
            onTranslationChanged: {
                if (active)
                    root.dragged(handle.isStart ? handle.heldTime : root.from, handle.isStart ? root.to : handle.heldTime)
            }
        }
    }
    Handle { isStart: true }
    Handle { isStart: false }
}
