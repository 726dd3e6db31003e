// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// Walk: the plan on top, the stations below; side by side on a wide window. A station opens its own page.
Item {
    id: root
    required property AppModel app
    readonly property WalkModel walk: app.walk
    readonly property bool wide: width >= Theme.twoPanes || width > 1.4 * height

    LogSheet {
        id: logSheet
        walk: root.walk
    }
    PlanView {
        id: plan
        visible: root.wide || root.walk.stationName === ""
        width: root.wide ? Math.round(parent.width * 0.55) : parent.width
        height: root.wide ? parent.height : Math.round(parent.height * 0.45)
        walk: root.walk
        metric: root.app.settings.metric
    }
    Item {
        x: root.wide ? plan.width : 0
        y: root.wide || root.walk.stationName !== "" ? 0 : plan.height
        width: parent.width - x
        height: parent.height - y
        StationList {
            anchors.fill: parent
            visible: root.walk.stationName === ""
            walk: root.walk
            readOnly: root.app.readOnly
            onLogAsked: logSheet.begin()
        }
        Loader {
            readonly property bool wanted: root.walk.stationName !== ""
            anchors.fill: parent
            function show() {
                if (wanted)
                    setSource("walk/StationPage.qml", { walk: root.walk, readOnly: root.app.readOnly })
                else
                    source = ""
            }
            onWantedChanged: show()
            Component.onCompleted: show()
        }
    }
}
