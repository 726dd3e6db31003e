// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Counting revolutions: what is counted, for how long, how often the meter signals, and the pad.
PanelCard {
    id: root
    required property GaugingModel gauging
    heading: qsTr("Count the revolutions")

    InkText {
        Layout.fillWidth: true
        text: root.gauging.counted
    }
    RevolutionPad {
        goal: root.gauging.goal
        onCounted: (count, seconds) => root.gauging.takeCount(count, seconds)
    }
    ChoiceRow {
        label: qsTr("Ends with the tap after")
        choices: root.gauging.goals
        chosen: root.gauging.goal
        onPicked: id => root.gauging.goal = id
    }
    ChoiceRow {
        label: qsTr("The meter signals")
        choices: root.gauging.signalChoices
        chosen: root.gauging.perSignal
        onPicked: id => root.gauging.perSignal = id
    }
}
