// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// One key of the keypad sheet.
PressArea {
    id: root
    property bool wide: false // the key that goes on
    Layout.fillWidth: true
    Layout.preferredWidth: 1
    implicitHeight: Theme.key
    implicitWidth: Theme.key
    fill: wide ? Theme.action : Theme.card
    ink: wide && !down ? Theme.inkOnAction : Theme.ink
    focusPolicy: Qt.NoFocus
    contentItem: Text {
        text: root.text
        color: root.ink
        font.pixelSize: Theme.title
        font.bold: true
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: Theme.small
        horizontalAlignment: Text.AlignHCenter
        verticalAlignment: Text.AlignVCenter
        Accessible.ignored: true
    }
}
