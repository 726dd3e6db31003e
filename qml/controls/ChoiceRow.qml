// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// A few alternatives with a caption; wraps where the row is narrow.
ColumnLayout {
    id: root
    required property string label
    required property var choices // [{ id, label }]
    required property string chosen
    signal picked(string id)
    Layout.fillWidth: true
    spacing: Theme.space / 2

    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.label
        color: Theme.quietInk
        font.pixelSize: Theme.small
    }
    Flow {
        Layout.fillWidth: true
        spacing: Theme.space
        Repeater {
            model: root.choices
            ChoiceChip {
                required property var modelData // { id, label }
                text: modelData.label
                chosen: root.chosen === modelData.id
                onClicked: root.picked(modelData.id)
            }
        }
    }
}
