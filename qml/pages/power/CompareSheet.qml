// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Alternatives in columns; lines in which they differ are marked, and one is chosen.
BottomSheet {
    id: root
    required property PowerModel power
    required property StudyModel study
    resumeName: "compare"
    heading: qsTr("Alternatives side by side")

    InkText {
        Layout.fillWidth: true
        visible: root.study.columns.length < 2
        text: qsTr("There is one alternative. Add another in the list of alternatives, and change in it what could be different.")
    }
    ChoiceRow {
        label: qsTr("The one to build on")
        choices: root.power.alternatives
        chosen: root.power.alternative
        onPicked: id => root.power.alternative = id
    }
    InkText {
        Layout.fillWidth: true
        color: Theme.quietInk
        font.pixelSize: Theme.small
        text: qsTr("≠ marks a line in which they differ.")
    }
    Flickable {
        Layout.fillWidth: true
        implicitHeight: table.implicitHeight
        contentWidth: Math.max(width, table.implicitWidth)
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        Column {
            id: table
            spacing: Theme.space
            Row {
                spacing: Theme.gap
                InkText {
                    width: 112
                    text: " "
                }
                Repeater {
                    model: root.study.columns
                    InkText {
                        required property string modelData
                        width: 136
                        text: modelData
                        font.bold: true
                    }
                }
            }
            Repeater {
                model: root.visible ? root.study.comparison : []
                Row {
                    id: line
                    required property var modelData // CompareItem
                    spacing: Theme.gap
                    InkText {
                        width: 112
                        text: line.modelData.differs ? qsTr("≠ %1").arg(line.modelData.label) : line.modelData.label
                        color: line.modelData.differs ? Theme.ink : Theme.quietInk
                        font.bold: line.modelData.differs
                        font.pixelSize: Theme.small
                    }
                    Repeater {
                        model: line.modelData.values
                        InkText {
                            required property string modelData
                            width: 136
                            text: modelData
                            font.pixelSize: Theme.small
                            font.bold: line.modelData.differs
                        }
                    }
                }
            }
        }
    }
}
