// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The profile with error bars, the drop between any two stations, and what to measure next.
ScrollPage {
    id: root
    required property FallsModel falls
    required property bool narrow

    ChoiceRow {
        visible: root.narrow
        label: ""
        choices: [{ id: "ways", label: qsTr("Ways") }, { id: "evidence", label: qsTr("Evidence") }, { id: "profile", label: qsTr("Profile") }]
        chosen: "profile"
        onPicked: id => root.falls.view = id
    }
    HeightProfile {
        Layout.fillWidth: true
        Layout.preferredHeight: 300
        visible: root.falls.profile.length > 1
        points: root.falls.profile
        upper: root.falls.upper
        lower: root.falls.lower
        lengthUnit: root.falls.lengthUnit
        onTouched: id => root.falls.touchProfile(id)
    }
    EmptyState {
        visible: root.falls.profile.length < 2
        headline: qsTr("No profile yet")
        advice: qsTr("Two stations along the pipe with a position and a height make the first stretch of it.")
    }
    PickField {
        label: qsTr("From")
        choices: root.falls.stations
        chosen: root.falls.upper
        onPicked: id => root.falls.upper = id
    }
    PickField {
        label: qsTr("Down to")
        choices: root.falls.stations
        chosen: root.falls.lower
        onPicked: id => root.falls.lower = id
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.falls.drop
        font.pixelSize: Theme.readout
        font.bold: true
    }
    InkText {
        Layout.fillWidth: true
        text: root.falls.dropDetail
        color: Theme.quietInk
    }
    PanelCard {
        heading: qsTr("What to measure next")
        Repeater {
            id: next
            model: []
            InkText {
                required property string modelData
                Layout.fillWidth: true
                text: modelData
            }
        }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Find the reading that helps most")
            iconName: "levels"
            onClicked: next.model = root.falls.nextMeasurements()
        }
    }
}
