// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// The place that is chosen. Pages are made when first shown and kept, so that coming back finds them as they were.
Item {
    id: root
    required property AppModel app
    property bool selfTest: false

    component Place: Loader {
        required property string name
        readonly property bool here: root.app.place === name
        property bool visited: root.selfTest
        anchors.fill: parent
        onHereChanged: if (here) visited = true
        Component.onCompleted: if (here) visited = true
        active: visited
        visible: here
    }
    Place {
        name: "walk"
        sourceComponent: WalkPage { app: root.app }
    }
    Place {
        name: "levels"
        sourceComponent: LevelsPage { app: root.app }
    }
    Place {
        name: "flow"
        sourceComponent: FlowPage { app: root.app }
    }
    Place {
        name: "power"
        sourceComponent: PowerPage { app: root.app }
    }
    Place {
        name: "handover"
        sourceComponent: HandoverPage { app: root.app }
    }
}
