// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
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

    Binding {
        target: Drafts
        property: "state"
        value: root.app.resume
    }

    Loader {
        anchors.fill: parent
        active: !root.app.open
        onActiveChanged: show()
        Component.onCompleted: show()
        function show() {
            if (active)
                setSource(root.app.merge.working ? "pages/handover/MergingPage.qml" : "pages/SitesPage.qml",
                          root.app.merge.working ? {} : { app: root.app })
        }
    }
    Loader {
        anchors.fill: parent
        active: root.app.open
        sourceComponent: Item {
            Rectangle {
                id: head
                // a low window has the strip and the site line side by side
                readonly property bool low: root.sideBar && root.height < Theme.lowWindow
                width: parent.width
                height: low ? Math.max(strip.height, line.height) : strip.height + line.height
                color: Theme.paper
                ReadoutStrip {
                    id: strip
                    width: head.low ? Math.round(parent.width * 0.62) : parent.width
                    readout: root.app.readout
                    onReadingsAsked: place => root.app.place = place
                }
                SiteLine {
                    id: line
                    x: head.low ? strip.width : 0
                    y: head.low ? Math.round((head.height - height) / 2) : strip.height
                    width: parent.width - x
                    app: root.app
                }
            }
            PlacesBar {
                id: places
                y: root.sideBar ? head.height : parent.height - height
                width: root.sideBar ? Theme.sideBar : parent.width
                height: root.sideBar ? parent.height - head.height : Theme.place
                app: root.app
                vertical: root.sideBar
            }
            PlaceView {
                x: root.sideBar ? places.width : 0
                y: head.height
                width: parent.width - x
                height: parent.height - y - (root.sideBar ? 0 : places.height)
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
