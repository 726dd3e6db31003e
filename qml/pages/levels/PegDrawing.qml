// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// Two pegs with their staves, and where the level stands for a set-up of the two-peg test.
Item {
    id: root
    required property int setup      // 1 or 2
    required property bool beyond    // the second set-up: behind peg B, else close to it
    readonly property real ground: height - 1.6 * Theme.small
    readonly property real line: 0.3 * ground // where the line of sight meets the staves
    readonly property real atA: 0.12 * width
    readonly property real atB: (setup === 2 && beyond ? 0.74 : 0.86) * width
    readonly property real atLevel: setup === 1 ? (atA + atB) / 2 : atB + (beyond ? 0.16 : -0.08) * width

    implicitHeight: 9 * Theme.small
    Accessible.role: Accessible.Graphic
    Accessible.name: setup === 1 ? qsTr("Drawing: the level midway between peg A and peg B")
                   : beyond ? qsTr("Drawing: the level behind peg B, in line with both pegs")
                   : qsTr("Drawing: the level close to peg B")

    component Staff: PolyLine {
        property real at
        anchors.fill: parent
        ink: Theme.ink
        thickness: 3 * Theme.stroke
        points: [Qt.point(at, 0.08 * root.ground), Qt.point(at, root.ground)]
    }
    component Name: Text {
        property real at
        x: Math.max(0, Math.min(root.width - width, at - width / 2))
        y: root.ground + Theme.stroke
        color: Theme.ink
        font.pixelSize: Theme.small
        Accessible.ignored: true
    }
    PolyLine {
        anchors.fill: parent
        ink: Theme.quietInk
        thickness: Theme.stroke
        points: [Qt.point(0, root.ground), Qt.point(root.width, root.ground)]
    }
    PolyLine { // the line of sight
        anchors.fill: parent
        ink: Theme.water
        thickness: Theme.stroke
        points: [Qt.point(root.atA, root.line), Qt.point(Math.max(root.atB, root.atLevel), root.line)]
    }
    PolyLine { // the legs
        anchors.fill: parent
        ink: Theme.action
        thickness: 2 * Theme.stroke
        points: [Qt.point(root.atLevel - 0.03 * root.width, root.ground), Qt.point(root.atLevel, root.line + Theme.small / 2),
                 Qt.point(root.atLevel + 0.03 * root.width, root.ground)]
    }
    Rectangle {
        x: root.atLevel - width / 2
        y: root.line - height / 2
        width: 2.4 * Theme.small
        height: 0.9 * Theme.small
        radius: 3
        color: Theme.action
    }
    Staff { at: root.atA }
    Staff { at: root.atB }
    Name {
        at: root.atA
        text: qsTr("A")
    }
    Name {
        at: root.atB
        text: qsTr("B")
    }
    Name {
        at: root.atLevel
        text: qsTr("level")
        visible: Math.abs(root.atLevel - root.atB) > 2 * width
    }
}
