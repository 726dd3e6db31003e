// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// All flow tests with their results, and the flow to use.
ScrollPage {
    id: root
    required property AppModel app
    readonly property FlowModel flow: app.flow

    NewFlowTestSheet {
        id: newTest
        flow: root.flow
    }
    PanelCard {
        heading: qsTr("Flow to use")
        visible: root.flow.tests.length > 0
        InkText {
            Layout.fillWidth: true
            text: root.flow.toUse.known ? root.flow.toUse.text : qsTr("Not known yet")
            font.pixelSize: Theme.readout
            font.bold: true
        }
        ChoiceRow {
            label: qsTr("Taken from")
            choices: [{ id: "lowest-visit", label: qsTr("Lowest visit") }, { id: "weighted-mean", label: qsTr("Mean of visits") },
                { id: "chosen-test", label: qsTr("One test") }, { id: "season", label: qsTr("The year's flow") }]
            chosen: root.flow.choice
            onPicked: id => root.flow.choice = id
        }
        FlowSeasonChoice {
            season: root.app.season
            byFigure: root.flow.choice === "season"
        }
        InkText {
            Layout.fillWidth: true
            visible: text !== ""
            text: root.flow.leaveText
        }
        FindingList { findings: root.flow.findings }
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("The season, and the flow to leave")
        iconName: "flow"
        onClicked: root.app.season.open = true
    }
    EmptyState {
        visible: root.flow.tests.length === 0
        headline: qsTr("No flow test yet")
        advice: qsTr("Measure at low water and on more than one day: the creek of today is not the creek of the year. A container suits a few litres a second that fall freely; a current meter suits a straight, even reach deeper than a hand.")
    }
    Repeater {
        model: root.flow.tests
        PressArea {
            id: one
            required property var modelData // FlowTestItem
            Layout.fillWidth: true
            text: qsTr("%1, %2, %3").arg(modelData.name).arg(modelData.method).arg(modelData.result)
            fill: Theme.card
            leftPadding: Theme.gap
            onClicked: root.flow.test = modelData.id
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
                    text: one.modelData.result
                    font.pixelSize: Theme.title
                    font.strikeout: one.modelData.struck
                    Accessible.ignored: true
                }
                InkText {
                    Layout.fillWidth: true
                    text: qsTr("%1, %2").arg(one.modelData.method).arg(one.modelData.when) + (one.modelData.counts ? "" : qsTr(", set aside"))
                    color: Theme.quietInk
                    font.pixelSize: Theme.small
                    Accessible.ignored: true
                }
            }
        }
    }
    actions: ActionButton {
        Layout.fillWidth: true
        text: qsTr("Test the flow")
        enabled: !root.app.readOnly
        onClicked: newTest.open()
    }
}
