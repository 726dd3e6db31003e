// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// The stopwatch: the largest thing on its page, answers to a tap anywhere in it.
PressArea {
    id: root
    signal stopped(double seconds)
    readonly property alias running: watch.running

    implicitHeight: 2 * Theme.place
    text: running ? qsTr("Stop the watch") : qsTr("Start the watch")
    fill: running ? Theme.water : Theme.card
    frame: Theme.water
    ink: running && !down ? Theme.paper : Theme.water
    onClicked: watch.press()
    Stopwatch {
        id: watch
        onStopped: seconds => root.stopped(seconds)
    }
    contentItem: Column {
        Text {
            width: parent.width
            text: watch.text
            color: root.ink
            font.pixelSize: Theme.figure
            font.bold: true
            horizontalAlignment: Text.AlignHCenter
            Accessible.ignored: true
        }
        Text {
            width: parent.width
            text: root.text
            color: root.ink
            font.pixelSize: Theme.title
            horizontalAlignment: Text.AlignHCenter
            Accessible.ignored: true
        }
    }
}
