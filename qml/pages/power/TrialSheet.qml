// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// What if: the watts for other values. Nothing of it is stored.
BottomSheet {
    id: root
    required property StudyModel study
    heading: qsTr("What if")
    onClosed: study.tryNothing()

    InkText {
        Layout.fillWidth: true
        text: root.study.trialWatts
        font.pixelSize: Theme.figure
        font.bold: true
        fontSizeMode: Text.HorizontalFit
        wrapMode: Text.NoWrap
        minimumPixelSize: Theme.title
    }
    InkText {
        Layout.fillWidth: true
        text: root.study.trialChange
    }
    Repeater {
        model: root.study.trials.length
        PartSlider {
            required property int index
            readonly property var trial: root.study.trials[index] // TrialItem
            label: trial.label
            value: trial.value
            part: trial.part
            onMoved: part => root.study.tryPart(trial.key, part)
        }
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Back to what is recorded")
        iconName: "undo"
        onClicked: root.study.tryNothing()
    }
    InkText {
        Layout.fillWidth: true
        color: Theme.quietInk
        text: qsTr("Half to one and a half of each value. The record is not touched.")
    }
}
