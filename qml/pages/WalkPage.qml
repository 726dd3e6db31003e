// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Walk: the plan on top, the stations below; side by side on a wide window. A station opens its own page.
Item {
    id: root
    required property AppModel app
    readonly property WalkModel walk: app.walk
    readonly property bool wide: width >= Theme.twoPanes

    LogSheet {
        id: logSheet
        walk: root.walk
    }
    GridLayout {
        anchors.fill: parent
        columns: root.wide ? 2 : 1
        rowSpacing: 0
        columnSpacing: 0
        PlanView {
            Layout.fillWidth: true
            Layout.fillHeight: true
            Layout.preferredWidth: 3
            Layout.preferredHeight: 5
            visible: root.wide || root.walk.stationName === ""
            walk: root.walk
            metric: root.app.settings.metric
        }
        Item {
            Layout.fillWidth: true
            Layout.fillHeight: true
            Layout.preferredWidth: 2
            Layout.preferredHeight: 6
            StationList {
                anchors.fill: parent
                visible: root.walk.stationName === ""
                walk: root.walk
                readOnly: root.app.readOnly
                onLogAsked: logSheet.begin()
            }
            Loader {
                anchors.fill: parent
                active: root.walk.stationName !== ""
                sourceComponent: StationPage {
                    walk: root.walk
                    readOnly: root.app.readOnly
                }
            }
        }
    }
}
