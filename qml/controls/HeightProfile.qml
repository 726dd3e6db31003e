// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import Rillmark.Ui

/// Heights over chainage with their error bars; a touch chooses the nearest station.
Item {
    id: root
    required property var points // list of ProfileItem
    required property string upper
    required property string lower
    required property string lengthUnit
    signal touched(string id)

    readonly property real farthest: points.length > 0 ? Math.max(points[points.length - 1].along, 0.001) : 1
    readonly property real lowest: points.reduce((low, p) => Math.min(low, p.height - p.plusMinus), Infinity)
    readonly property real highest: points.reduce((high, p) => Math.max(high, p.height + p.plusMinus), -Infinity)
    readonly property real plotLeft: axisText.implicitWidth + Theme.space
    readonly property real plotBottom: Theme.small * 3
    function atX(along: real): real { return plotLeft + (width - plotLeft - Theme.gap) * along / farthest }
    readonly property real labelHeight: 2 * Theme.small
    function atY(height: real): real { return labelHeight + (root.height - plotBottom - 2 * labelHeight) * (highest - height) / Math.max(highest - lowest, 0.001) }

    Accessible.role: Accessible.Chart
    Accessible.name: qsTr("Profile of heights")

    Rectangle {
        x: root.plotLeft
        width: parent.width - x
        height: parent.height - root.plotBottom + Theme.space
        color: Theme.card
    }
    Text {
        id: axisText
        text: Math.round(root.highest * 10) / 10 + " " + root.lengthUnit
        color: Theme.ink
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    Text {
        y: root.atY(root.lowest) - height
        text: Math.round(root.lowest * 10) / 10 + " " + root.lengthUnit
        color: Theme.ink
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    Text {
        anchors { right: parent.right; bottom: parent.bottom }
        text: qsTr("along the line, up to %1 %2; bars are ±").arg(Math.round(root.farthest)).arg(root.lengthUnit)
        color: Theme.quietInk
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    PolyLine {
        anchors.fill: parent
        ink: Theme.ink
        thickness: Theme.stroke
        points: root.points.map(p => Qt.point(root.atX(p.along), root.atY(p.height)))
    }
    Repeater {
        model: root.points
        Item {
            id: station
            required property var modelData // ProfileItem
            readonly property bool chosen: modelData.id === root.upper || modelData.id === root.lower
            x: root.atX(modelData.along)
            y: root.atY(modelData.height)
            Rectangle { // the error bar
                x: -1
                y: root.atY(station.modelData.height + station.modelData.plusMinus) - station.y
                width: 2
                height: Math.max(2, root.atY(station.modelData.height - station.modelData.plusMinus) - root.atY(station.modelData.height + station.modelData.plusMinus))
                color: Theme.water
            }
            Rectangle {
                x: -width / 2
                y: -height / 2
                width: station.chosen ? 16 : 8
                height: width
                radius: width / 2
                color: station.chosen ? Theme.action : Theme.ink
            }
            Text {
                visible: station.chosen
                x: Math.max(-station.x, Math.min(root.width - station.x - width, -width / 2))
                y: station.modelData.id === root.upper ? -height - Theme.space : Theme.space // apart, however near the two are
                width: Math.min(implicitWidth, root.width / 2)
                elide: Text.ElideRight
                text: station.modelData.name
                color: Theme.ink
                font.pixelSize: Theme.small
                Accessible.ignored: true
            }
        }
    }
    MouseArea {
        anchors.fill: parent
        onClicked: mouse => {
            let nearest = null
            for (const p of root.points)
                if (nearest === null || Math.abs(root.atX(p.along) - mouse.x) < Math.abs(root.atX(nearest.along) - mouse.x))
                    nearest = p
            if (nearest !== null)
                root.touched(nearest.id)
        }
    }
}
