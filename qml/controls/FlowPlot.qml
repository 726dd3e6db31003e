// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Flow over something else: lines, dots, a level to hold them against. Axes carry their figures; a touch gives the place.
Item {
    id: root
    required property string name
    required property var lines // [{ points, ink }]
    property var dots: []       // points
    property real level: 0      // a flow to mark; 0: none
    property string levelName: ""
    required property string unit
    required property string acrossName
    property bool logarithmic: false
    signal touched(real across)

    readonly property var everything: lines.reduce((all, line) => all.concat(Array.from(line.points)), Array.from(dots))
    readonly property real leftmost: everything.reduce((least, p) => Math.min(least, p.x), Infinity)
    readonly property real rightmost: everything.reduce((most, p) => Math.max(most, p.x), -Infinity)
    readonly property real lowest: {
        const above = everything.filter(p => p.y > 0)
        const least = above.reduce((low, p) => Math.min(low, p.y), level > 0 ? level : Infinity)
        return logarithmic ? Math.pow(10, Math.floor(Math.log10(least))) : 0
    }
    readonly property real highest: {
        const most = everything.reduce((high, p) => Math.max(high, p.y), level)
        return logarithmic ? Math.pow(10, Math.ceil(Math.log10(most))) : step(most) * Math.ceil(most / step(most))
    }
    readonly property var marks: { // figures up the side
        const list = []
        if (!isFinite(lowest) || !(highest > lowest))
            return list
        if (logarithmic)
            for (let mark = lowest; mark <= highest * 1.001; mark *= 10)
                list.push(mark)
        else
            for (let mark = 0; mark <= highest * 1.001; mark += step(highest))
                list.push(mark)
        return list
    }
    readonly property var acrossMarks: {
        const list = []
        const size = step(rightmost - leftmost)
        if (isFinite(size) && size > 0)
            for (let mark = Math.ceil(leftmost / size) * size; mark <= rightmost + size / 1000; mark += size)
                list.push(mark)
        return list
    }
    readonly property real plotLeft: Theme.small * 3.5
    readonly property real plotBottom: height - Theme.small * 3
    /// A round step that divides a range in about four.
    function step(range: real): real {
        const size = Math.pow(10, Math.floor(Math.log10(range / 4)))
        const part = range / 4 / size
        return size * (part < 1.5 ? 1 : part < 3.5 ? 2 : part < 7.5 ? 5 : 10)
    }
    function figure(value: real): string { return Number(value.toPrecision(4)).toLocaleString(Qt.locale("C"), "g", 4) }
    function atX(x: real): real { return plotLeft + (width - plotLeft - Theme.space) * (x - leftmost) / Math.max(rightmost - leftmost, 1e-9) }
    function atY(y: real): real {
        const part = logarithmic ? Math.log(Math.max(y, lowest) / lowest) / Math.log(highest / lowest) : y / highest
        return plotBottom - (plotBottom - Theme.gap) * part
    }

    Layout.fillWidth: true
    implicitHeight: 280
    Accessible.role: Accessible.Chart
    Accessible.name: name

    Rectangle {
        x: root.plotLeft
        width: parent.width - x
        height: root.plotBottom
        color: Theme.paper
    }
    Repeater {
        model: root.marks
        Item {
            id: mark
            required property real modelData
            y: root.atY(modelData)
            width: root.width
            Rectangle {
                x: root.plotLeft
                width: parent.width - x
                height: Theme.hairline
                color: Theme.rule
                opacity: 0.5
            }
            Text {
                width: root.plotLeft - Theme.space / 2
                y: -height / 2
                horizontalAlignment: Text.AlignRight
                text: root.figure(mark.modelData)
                color: Theme.ink
                font.pixelSize: Theme.small
                Accessible.ignored: true
            }
        }
    }
    Repeater {
        model: root.acrossMarks
        Text {
            required property real modelData
            x: Math.min(root.width - width, root.atX(modelData) - width / 2)
            y: root.plotBottom
            text: root.figure(modelData)
            color: Theme.ink
            font.pixelSize: Theme.small
            Accessible.ignored: true
        }
    }
    Text {
        x: root.plotLeft + Theme.space / 2
        text: root.unit
        color: Theme.ink
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    Text {
        anchors { bottom: parent.bottom; right: parent.right }
        width: root.width
        horizontalAlignment: Text.AlignRight
        elide: Text.ElideRight
        text: root.acrossName
        color: Theme.quietInk
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    Repeater {
        model: root.lines
        PolyLine {
            required property var modelData // { points, ink }
            anchors.fill: parent
            ink: modelData.ink
            thickness: Theme.stroke
            points: Array.from(modelData.points).map(p => Qt.point(root.atX(p.x), root.atY(p.y)))
        }
    }
    Repeater {
        model: root.dots
        Rectangle {
            required property var modelData // point
            x: root.atX(modelData.x) - width / 2
            y: root.atY(modelData.y) - height / 2
            width: Theme.space
            height: Theme.space
            radius: width / 2
            color: Theme.warning
        }
    }
    Item {
        visible: root.level > 0
        y: root.atY(root.level)
        width: root.width
        Rectangle {
            x: root.plotLeft
            width: parent.width - x
            height: Theme.stroke
            color: Theme.action
        }
        Text {
            anchors { right: parent.right; rightMargin: Theme.space; bottom: parent.top }
            text: root.levelName
            color: Theme.action
            font.pixelSize: Theme.small
            Accessible.ignored: true
        }
    }
    Rectangle { // where it was touched
        id: cursor
        visible: false
        width: Theme.hairline
        height: root.plotBottom
        color: Theme.ink
    }
    MouseArea {
        anchors.fill: parent
        onClicked: mouse => {
            const across = root.leftmost + (root.rightmost - root.leftmost) * Math.max(0, Math.min(1, (mouse.x - root.plotLeft) / (root.width - root.plotLeft - Theme.space)))
            cursor.x = root.atX(across)
            cursor.visible = true
            root.touched(across)
        }
    }
}
