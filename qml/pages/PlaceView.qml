// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// The place that is chosen. Pages are made when first shown and kept, so that coming back finds them as they were; by
/// file, so that the start does not wait for what only another place needs (charts, dialogs).
Item {
    id: root
    required property AppModel app
    property bool selfTest: false

    component Place: Loader {
        required property string name
        required property string file
        readonly property bool here: root.app.place === name
        anchors.fill: parent
        visible: here
        function visit() {
            if ((here || root.selfTest) && status === Loader.Null)
                setSource(Qt.resolvedUrl(file), { app: root.app })
        }
        onHereChanged: visit()
        Component.onCompleted: visit()
    }
    Place {
        name: "walk"
        file: "WalkPage.qml"
    }
    Place {
        name: "levels"
        file: "LevelsPage.qml"
    }
    Place {
        name: "flow"
        file: "FlowPage.qml"
    }
    Place {
        name: "power"
        file: "PowerPage.qml"
    }
    Place {
        name: "handover"
        file: "HandoverPage.qml"
    }
}
