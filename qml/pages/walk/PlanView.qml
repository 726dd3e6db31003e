// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import Rillmark.Ui

/// The plan with its names, scale bar, north mark and what moves it: a finger, two fingers, or the buttons.
Rectangle {
    id: root
    required property WalkModel walk
    required property bool metric
    color: Theme.paper
    clip: true

    PlanItem {
        id: plan
        anchors.fill: parent
        metric: root.metric
        inks: [Theme.ink, Theme.rule, Theme.action, Theme.water, Theme.warning, Theme.danger]
        Accessible.role: Accessible.Graphic
        Accessible.name: qsTr("Plan of the site, stations: %1").arg(root.walk.stations.length)
        Component.onCompleted: root.walk.showOn(plan)

        DragHandler {
            target: null
            property vector2d last
            onActiveChanged: last = Qt.vector2d(0, 0)
            onTranslationChanged: {
                plan.panBy(translation.x - last.x, translation.y - last.y)
                last = Qt.vector2d(translation.x, translation.y)
            }
        }
        PinchHandler {
            target: null
            property real last: 1
            onActiveChanged: last = 1
            onActiveScaleChanged: {
                plan.zoomBy(activeScale / last, centroid.position.x, centroid.position.y)
                last = activeScale
            }
        }
        WheelHandler {
            onWheel: event => plan.zoomBy(event.angleDelta.y > 0 ? 1.25 : 0.8, point.position.x, point.position.y)
        }
        TapHandler {
            onTapped: point => {
                const hit = plan.stationAt(point.position.x, point.position.y)
                if (hit !== "")
                    root.walk.station = hit
            }
        }
    }
    Item {
        x: plan.offset.x
        y: plan.offset.y
        Repeater {
            model: plan.labels
            Text {
                required property var modelData // PlanLabel
                x: modelData.x + 10
                y: modelData.y - implicitHeight - 2
                text: modelData.text
                color: Theme.ink
                style: Text.Outline
                styleColor: Theme.paper
                font.pixelSize: Theme.small
                Accessible.ignored: true
            }
        }
    }
    Column {
        anchors { left: parent.left; bottom: parent.bottom; margins: Theme.gap }
        spacing: 2
        InkText {
            text: root.walk.lengthText(plan.barMetres)
            font.pixelSize: Theme.small
            style: Text.Outline
            styleColor: Theme.paper
            Accessible.name: qsTr("Scale bar %1").arg(text)
        }
        Rectangle {
            width: plan.barLength
            height: 4
            color: Theme.ink
        }
    }
    InkText {
        anchors { left: parent.left; top: parent.top; margins: Theme.gap }
        text: "↑ " + qsTr("N")
        font.bold: true
        Accessible.name: qsTr("North is up")
    }
    Column {
        anchors { right: parent.right; top: parent.top; margins: Theme.space }
        spacing: Theme.space
        IconButton {
            text: qsTr("Closer")
            iconName: "add"
            fill: Theme.card
            onClicked: plan.zoomBy(1.5, plan.width / 2, plan.height / 2)
        }
        IconButton {
            text: qsTr("Further away")
            iconName: "minus"
            fill: Theme.card
            onClicked: plan.zoomBy(0.67, plan.width / 2, plan.height / 2)
        }
        IconButton {
            text: qsTr("Show the whole site")
            iconName: "plan"
            fill: Theme.card
            onClicked: plan.showAll()
        }
    }
}
