// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Head, flow and watts at the house, on top of every screen; a tap unfolds how we know the figure.
Rectangle {
    id: root
    required property ReadoutModel readout
    signal readingsAsked(string place)
    implicitHeight: row.implicitHeight
    implicitWidth: row.implicitWidth
    color: Theme.card

    HowWeKnowSheet {
        id: sheet
        readout: root.readout
        onReadingsAsked: place => root.readingsAsked(place)
    }
    RowLayout {
        id: row
        anchors { left: parent.left; right: parent.right }
        spacing: 0
        ReadoutFigure {
            label: qsTr("Head")
            figure: root.readout.head
            thin: root.readout.headThin
            onClicked: sheet.show(ReadoutModel.Head, label, figure.text)
        }
        ReadoutFigure {
            label: qsTr("Flow")
            figure: root.readout.flow
            thin: root.readout.flowThin
            onClicked: sheet.show(ReadoutModel.Flow, label, figure.text)
        }
        ReadoutFigure {
            label: qsTr("At the house")
            figure: root.readout.power
            thin: root.readout.powerThin
            onClicked: sheet.show(ReadoutModel.Power, label, figure.text)
        }
    }
    Rectangle {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        height: Theme.hairline
        color: Theme.rule
    }
}
