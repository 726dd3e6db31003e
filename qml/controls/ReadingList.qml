// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The readings of a test or run; a press strikes one out or takes it back.
ColumnLayout {
    id: root
    required property var readings // list of ReadingItem
    property string resumeName: ""
    signal struckOut(string id, string why)
    signal takenBack(string id)
    Layout.fillWidth: true
    spacing: Theme.space

    ReasonSheet {
        id: reason
        resumeName: root.resumeName
        onGiven: (id, why) => root.struckOut(id, why)
        onTakenBack: id => root.takenBack(id)
    }
    Repeater {
        model: root.readings
        PressArea {
            id: one
            required property int index
            required property var modelData // ReadingItem
            Layout.fillWidth: true
            text: modelData.detail === "" ? qsTr("Reading %1: %2").arg(index + 1).arg(modelData.text)
                : qsTr("Reading %1: %2, %3").arg(index + 1).arg(modelData.text).arg(modelData.detail)
            fill: Theme.card
            leftPadding: Theme.gap
            onClicked: reason.show(modelData.id, modelData.text, modelData.struck)
            contentItem: ColumnLayout {
                spacing: 2
                RowLayout {
                    Layout.fillWidth: true
                    InkText {
                        Layout.fillWidth: true
                        text: one.modelData.text
                        font.strikeout: one.modelData.struck
                        Accessible.ignored: true
                    }
                    InkText {
                        Layout.alignment: Qt.AlignTop // centred, it stays where the row was before its text had a width
                        text: one.modelData.percent
                        wrapMode: Text.NoWrap
                        font.bold: true
                        Accessible.ignored: true
                    }
                }
                InkText {
                    Layout.fillWidth: true
                    visible: text !== ""
                    text: one.modelData.detail
                    color: Theme.quietInk
                    font.pixelSize: Theme.small
                    Accessible.ignored: true
                }
                Rectangle {
                    visible: one.modelData.share > 0
                    implicitHeight: 4
                    implicitWidth: one.availableWidth * one.modelData.share
                    color: Theme.water
                }
            }
        }
    }
}
