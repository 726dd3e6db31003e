// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Takes what a section point or a high-water mark needs from a station of the levels: its height, and how far down it stands.
ColumnLayout {
    id: root
    required property FlowRunModel run
    required property bool readOnly
    Layout.fillWidth: true
    spacing: Theme.space

    InkText {
        Layout.fillWidth: true
        visible: root.run.heightStations.length === 0
        text: qsTr("No station has a height yet: level the flood marks in Levels, or type heights above any one datum here.")
        color: Theme.quietInk
    }
    PickField {
        visible: root.run.heightStations.length > 0
        label: qsTr("Take the height of a station")
        choices: root.run.heightStations
        chosen: ""
        onPicked: id => root.run.takeStation(id)
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.run.marksToTake > 0
        text: qsTr("Book the flood marks of the stations: %1").arg(root.run.marksToTake)
        iconName: "check"
        enabled: !root.readOnly
        onClicked: root.run.bookMarks()
    }
}
