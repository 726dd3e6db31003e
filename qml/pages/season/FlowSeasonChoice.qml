// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Which part of the year the flow to use is for: a figure of the year, or the months whose visits count.
ColumnLayout {
    id: root
    required property SeasonModel season
    required property bool byFigure
    Layout.fillWidth: true
    spacing: Theme.space

    ChoiceRow {
        visible: root.byFigure
        label: qsTr("Which figure of the year")
        choices: root.season.figureChoices
        chosen: root.season.figure
        onPicked: id => root.season.figure = id
    }
    PickField {
        visible: !root.byFigure
        label: qsTr("Visits that count: from the month")
        choices: root.season.monthChoices
        chosen: root.season.fromMonth
        onPicked: id => root.season.fromMonth = id
    }
    PickField {
        visible: !root.byFigure && root.season.fromMonth !== "0"
        label: qsTr("to the month")
        choices: root.season.monthNames
        chosen: root.season.toMonth
        onPicked: id => root.season.toMonth = id
    }
}
