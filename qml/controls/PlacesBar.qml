// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The five places: along the bottom, or along the side of a wide window.
Rectangle {
    id: root
    required property AppModel app
    property bool vertical: false
    readonly property var places: [ // name of the place, its label
        { place: "walk", label: qsTr("Walk") }, { place: "levels", label: qsTr("Levels") },
        { place: "flow", label: qsTr("Flow") }, { place: "power", label: qsTr("Power") },
        { place: "handover", label: qsTr("Handover") }
    ]
    // a low window leaves less than the usual height, but never less than can be touched
    readonly property int placeHeight: vertical ? Math.max(Theme.touch, Math.min(Theme.place, height / places.length)) : height
    color: Theme.card

    Grid {
        width: parent.width
        columns: root.vertical ? 1 : root.places.length
        Repeater {
            model: root.places
            PressArea {
                id: one
                required property var modelData // entry of `places`
                readonly property bool here: root.app.place === modelData.place
                width: root.vertical ? root.width : root.width / root.places.length
                height: root.placeHeight
                padding: 2
                text: modelData.label
                Accessible.role: Accessible.PageTab
                Accessible.selected: here
                onClicked: root.app.place = modelData.place
                contentItem: ColumnLayout {
                    spacing: 2
                    Item { Layout.fillHeight: true }
                    InkIcon {
                        Layout.alignment: Qt.AlignHCenter
                        name: one.modelData.place
                        ink: one.here ? Theme.action : Theme.quietInk
                    }
                    Text {
                        Layout.fillWidth: true
                        text: one.text
                        color: one.here ? Theme.action : Theme.quietInk
                        // the longest name takes some five and a half times its size
                        font.pixelSize: Math.min(Theme.small, Math.floor(one.width / 5.6))
                        font.bold: one.here
                        horizontalAlignment: Text.AlignHCenter
                        Accessible.ignored: true
                    }
                    Item { Layout.fillHeight: true }
                }
                Rectangle {
                    visible: one.here
                    color: Theme.action
                    width: root.vertical ? 4 : parent.width
                    height: root.vertical ? parent.height : 4
                }
            }
        }
    }
}
