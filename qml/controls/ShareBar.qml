// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// One input of a result with its share of the variance as a bar.
ColumnLayout {
    id: root
    required property string label
    required property string part
    required property double share
    required property string percent
    Layout.fillWidth: true
    spacing: 2
    RowLayout {
        Layout.fillWidth: true
        InkText {
            Layout.fillWidth: true
            text: root.label
        }
        InkText {
            Layout.alignment: Qt.AlignTop
            text: root.part
            wrapMode: Text.NoWrap
            color: Theme.quietInk
        }
        InkText {
            Layout.alignment: Qt.AlignTop
            text: root.percent
            wrapMode: Text.NoWrap
            font.bold: true
        }
    }
    Rectangle {
        Layout.fillWidth: true
        implicitHeight: Theme.space
        color: Theme.card
        Rectangle {
            width: parent.width * root.share
            height: parent.height
            color: Theme.water
        }
    }
}
