// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// One of many by name: shows the chosen one, a press lists them all in a sheet.
PressArea {
    id: root
    required property string label
    required property var choices // list of Choice
    required property string chosen
    signal picked(string id)
    readonly property string chosenLabel: {
        for (const one of choices)
            if (one.id === chosen)
                return one.label
        return ""
    }

    Layout.fillWidth: true
    text: chosenLabel === "" ? label : qsTr("%1: %2").arg(label).arg(chosenLabel)
    fill: Theme.paper
    frame: Theme.rule
    leftPadding: Theme.gap
    Accessible.role: Accessible.ComboBox
    onClicked: sheet.open()
    contentItem: RowLayout {
        ColumnLayout {
            Layout.fillWidth: true
            spacing: 0
            Text {
                Layout.fillWidth: true
                text: root.label
                color: Theme.quietInk
                font.pixelSize: Theme.small
                elide: Text.ElideRight
                Accessible.ignored: true
            }
            Text {
                Layout.fillWidth: true
                text: root.chosenLabel === "" ? qsTr("not chosen") : root.chosenLabel
                color: Theme.ink
                font.pixelSize: Theme.body
                wrapMode: Text.Wrap
                Accessible.ignored: true
            }
        }
        InkIcon { name: "down" }
    }
    BottomSheet {
        id: sheet
        heading: root.label
        Repeater {
            model: sheet.visible ? root.choices : []
            PlainButton {
                required property var modelData // Choice
                Layout.fillWidth: true
                text: modelData.label
                iconName: modelData.id === root.chosen ? "check" : ""
                onClicked: {
                    sheet.close()
                    root.picked(modelData.id)
                }
            }
        }
    }
}
