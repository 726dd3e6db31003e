// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The clock of a trace read by hand, large enough to be read from the water: the seconds to the next reading. A tap takes the
/// moment into the reading; the time of a reading that is due is taken by itself.
ColumnLayout {
    id: root
    required property FlowRunModel run
    readonly property TraceClock clock: run.clock
    Layout.fillWidth: true
    spacing: Theme.space

    ChoiceRow {
        label: qsTr("Read every")
        choices: root.clock.intervals
        chosen: root.clock.interval
        onPicked: id => root.clock.interval = id
    }
    PressArea {
        id: pad
        readonly property bool isDue: root.clock.running && root.clock.left === 0
        Layout.fillWidth: true
        implicitHeight: 2 * Theme.place
        text: !root.clock.running ? qsTr("Start the clock as the salt goes in") : isDue ? qsTr("Read now") : qsTr("seconds to the next reading; tap to take this moment")
        fill: isDue ? Theme.water : Theme.card
        frame: Theme.water
        ink: isDue && !down ? Theme.paper : Theme.water
        onClicked: root.clock.running ? root.run.takeMoment() : root.clock.start()
        contentItem: Column {
            Text {
                width: parent.width
                text: root.clock.left
                color: pad.ink
                font.pixelSize: Theme.figure * 1.5
                font.bold: true
                horizontalAlignment: Text.AlignHCenter
                Accessible.ignored: true
            }
            Text {
                width: parent.width
                text: pad.text
                color: pad.ink
                font.pixelSize: Theme.body
                wrapMode: Text.Wrap
                horizontalAlignment: Text.AlignHCenter
                Accessible.ignored: true
            }
        }
    }
    RowLayout {
        Layout.fillWidth: true
        visible: root.clock.running
        InkText {
            Layout.fillWidth: true
            text: root.clock.elapsed
        }
        PlainButton {
            text: qsTr("Stop the clock")
            onClicked: root.clock.stop()
        }
    }
}
