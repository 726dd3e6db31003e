// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The stations in the order of logging; the main action logs the next one.
Item {
    id: root
    required property WalkModel walk
    required property bool readOnly
    signal logAsked

    EmptyState {
        anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.edge }
        visible: root.walk.stations.length === 0
        headline: qsTr("No station yet")
        advice: qsTr("Stand at the intake, wait for a position, and log it. Then walk down: every bend, high point and crossing of the pipe, the powerhouse, the tailwater, and the way to the house.")
    }
    ListView {
        id: list
        anchors { left: parent.left; right: parent.right; top: parent.top; bottom: bar.top }
        clip: true
        model: root.walk.stations
        delegate: PressArea {
            id: one
            required property var modelData // StationItem
            width: list.width
            leftPadding: Theme.edge
            text: qsTr("Station %1, %2").arg(modelData.name).arg(modelData.detail)
            onClicked: root.walk.station = modelData.id
            contentItem: ColumnLayout {
                spacing: 0
                InkText {
                    Layout.fillWidth: true
                    text: one.modelData.name
                    font.bold: true
                    font.strikeout: one.modelData.struck
                    Accessible.ignored: true
                }
                InkText {
                    Layout.fillWidth: true
                    text: one.modelData.detail
                    color: Theme.quietInk
                    font.pixelSize: Theme.small
                    Accessible.ignored: true
                }
            }
            Rectangle {
                anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
                height: Theme.hairline
                color: Theme.rule
            }
        }
    }
    GridLayout {
        id: bar
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; margins: Theme.space }
        columns: width > 330 * Theme.textScale ? 2 : 1
        columnSpacing: Theme.space
        rowSpacing: Theme.space
        PlainButton {
            text: root.walk.tracking ? qsTr("Stop the track") : qsTr("Record the track")
            enabled: !root.readOnly
            Layout.fillWidth: bar.columns === 1
            Layout.preferredHeight: Theme.mainAction
            onClicked: root.walk.tracking = !root.walk.tracking
        }
        ActionButton {
            Layout.fillWidth: true
            text: qsTr("Log a station")
            enabled: !root.readOnly
            onClicked: root.logAsked()
        }
    }
}
