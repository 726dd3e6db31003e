// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The counter of a current meter: a tap anywhere in the big pad for every signal. It counts as the finger comes down, so
/// that a glove that slides or stays is no lost count.
ColumnLayout {
    id: root
    required property string goal
    signal counted(int count, double seconds)
    Layout.fillWidth: true
    spacing: Theme.space

    TapCounter {
        id: counter
        goal: root.goal
        onFinished: (count, seconds) => root.counted(count, seconds)
    }
    PressArea {
        id: pad
        Layout.fillWidth: true
        implicitHeight: 3 * Theme.place
        text: counter.running ? qsTr("Tap at every signal") : qsTr("Tap at a signal to start at 0")
        fill: counter.running ? Theme.water : Theme.card
        frame: Theme.water
        ink: counter.running && !down ? Theme.paper : Theme.water
        onPressed: counter.tap()
        Accessible.name: qsTr("%1. Count %2, %3").arg(text).arg(counter.count).arg(counter.time)
        Accessible.onPressAction: counter.tap()
        Keys.onReturnPressed: counter.tap()
        Keys.onEnterPressed: counter.tap()
        contentItem: Column {
            Text {
                width: parent.width
                text: counter.count
                color: pad.ink
                font.pixelSize: 2 * Theme.figure
                font.bold: true
                horizontalAlignment: Text.AlignHCenter
                Accessible.ignored: true
            }
            Text {
                width: parent.width
                text: counter.time
                color: pad.ink
                font.pixelSize: Theme.figure
                horizontalAlignment: Text.AlignHCenter
                Accessible.ignored: true
            }
            Text {
                width: parent.width
                text: pad.text
                color: pad.ink
                font.pixelSize: Theme.title
                horizontalAlignment: Text.AlignHCenter
                wrapMode: Text.Wrap
                Accessible.ignored: true
            }
        }
    }
    PlainButton {
        Layout.fillWidth: true
        visible: counter.running
        text: qsTr("Stop here: the rotor stands, or it is enough")
        iconName: "check"
        onClicked: counter.stop()
    }
}
