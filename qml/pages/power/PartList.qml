// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Sections or fittings, each to be struck out with a reason.
ColumnLayout {
    id: root
    required property var parts // list of PartItem
    required property string name // for what was half typed
    signal struck(string id, string reason)
    Layout.fillWidth: true
    visible: repeater.count > 0
    spacing: Theme.space
    ReasonSheet {
        id: reasonSheet
        resumeName: "strike-" + root.name
        onGiven: (id, why) => root.struck(id, why)
    }
    Repeater {
        id: repeater
        model: root.parts
        RowLayout {
            id: one
            required property var modelData // PartItem
            Layout.fillWidth: true
            ColumnLayout {
                Layout.fillWidth: true
                spacing: 0
                InkText {
                    Layout.fillWidth: true
                    text: one.modelData.label
                    font.bold: true
                }
                InkText {
                    Layout.fillWidth: true
                    text: one.modelData.detail
                    color: Theme.quietInk
                    font.pixelSize: Theme.small
                }
            }
            IconButton {
                text: qsTr("Strike out %1").arg(one.modelData.label)
                iconName: "strike"
                onClicked: reasonSheet.show(one.modelData.id, one.modelData.label, false)
            }
        }
    }
}
