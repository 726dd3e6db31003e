// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Rillmark.Ui

/// The frame: readout strip, site line, the place, and the five places.
T.ApplicationWindow {
    id: root
    required property AppModel app
    property bool selfTest: false
    readonly property bool sideBar: width >= Theme.twoPanes

    width: Math.min(1280, Screen.width > 0 ? Screen.width : 412)
    height: Math.min(892, Screen.height > 0 ? Screen.height : 892)
    visible: true
    title: app.open ? qsTr("%1 - Rillmark").arg(app.siteName) : qsTr("Rillmark")
    color: Theme.paper

    Binding {
        target: Theme
        property: "night"
        value: root.app.settings.night
    }
    Binding {
        target: Theme
        property: "textScale"
        value: root.app.settings.textPercent / 100
    }

    Loader {
        anchors.fill: parent
        active: !root.app.open
        sourceComponent: SitesPage { app: root.app }
    }
    Loader {
        anchors.fill: parent
        active: root.app.open
        sourceComponent: GridLayout {
            columns: root.sideBar ? 2 : 1
            columnSpacing: 0
            rowSpacing: 0
            ReadoutStrip {
                Layout.fillWidth: true
                Layout.columnSpan: root.sideBar ? 2 : 1
                readout: root.app.readout
            }
            SiteLine {
                Layout.fillWidth: true
                Layout.columnSpan: root.sideBar ? 2 : 1
                app: root.app
            }
            PlacesBar {
                Layout.row: root.sideBar ? 2 : 3
                Layout.column: 0
                Layout.fillHeight: root.sideBar
                Layout.fillWidth: !root.sideBar
                app: root.app
                vertical: root.sideBar
            }
            PlaceView {
                Layout.row: 2
                Layout.column: root.sideBar ? 1 : 0
                Layout.fillWidth: true
                Layout.fillHeight: true
                app: root.app
                selfTest: root.selfTest
            }
        }
    }
    ToldBar {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; margins: Theme.edge; bottomMargin: Theme.place + Theme.gap }
        app: root.app
    }
    Timer {
        running: root.selfTest
        interval: 2000
        onTriggered: Qt.quit()
    }
}
