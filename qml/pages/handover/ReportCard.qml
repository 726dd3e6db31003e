// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The PDF report: how it is made, how far it is, where it went.
PanelCard {
    id: root
    required property ReportModel report
    heading: qsTr("The report")

    InkText {
        Layout.fillWidth: true
        text: qsTr("A PDF: page one for the owner, the rest for the designer.")
    }
    ChoiceRow {
        label: qsTr("Paper")
        choices: root.report.papers
        chosen: root.report.paper
        onPicked: id => root.report.paper = id
    }
    ChoiceRow {
        label: qsTr("Units in the report")
        choices: root.report.units
        chosen: root.report.unit
        onPicked: id => root.report.unit = id
    }
    SwitchRow {
        Layout.fillWidth: true
        text: qsTr("Every alternative, not the chosen one alone")
        on: root.report.allAlternatives
        onToggled: root.report.allAlternatives = !root.report.allAlternatives
    }
    SwitchRow {
        Layout.fillWidth: true
        text: qsTr("Save the copy that it belongs to beside it")
        on: root.report.withCopy
        onToggled: root.report.withCopy = !root.report.withCopy
    }
    PlainButton {
        Layout.fillWidth: true
        visible: !root.report.working
        text: qsTr("Make the report")
        iconName: "report"
        onClicked: root.report.make()
    }
    InkText {
        Layout.fillWidth: true
        visible: root.report.working
        text: root.report.progressText
        Accessible.role: Accessible.ProgressBar
    }
    Rectangle {
        Layout.fillWidth: true
        visible: root.report.working
        implicitHeight: Theme.space
        color: Theme.pressed
        radius: Theme.radius
        Rectangle {
            width: parent.width * root.report.progress
            height: parent.height
            color: Theme.action
            radius: Theme.radius
        }
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.report.working
        text: qsTr("Cancel the report")
        iconName: "close"
        onClicked: root.report.cancel()
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.report.done
        color: Theme.action
        font.bold: true
    }
    FindingList { findings: root.report.outcome }
}
