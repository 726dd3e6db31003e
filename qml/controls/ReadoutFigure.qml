// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// One figure of the strip, with its +/- below and a mark when it rests on too little.
PressArea {
    id: root
    required property string label
    required property var figure // FigureText
    required property bool thin

    Layout.fillWidth: true
    Layout.preferredWidth: 1
    topPadding: Theme.space / 2
    bottomPadding: Theme.space / 2
    text: figure.known ? (thin ? qsTr("%1 %2, rests on little").arg(label).arg(figure.text) : qsTr("%1 %2").arg(label).arg(figure.text))
                       : qsTr("%1 not known yet").arg(label)
    contentItem: Column {
        clip: true
        Row {
            spacing: Theme.space / 2
            Text {
                width: Math.min(implicitWidth, root.availableWidth - (root.thin ? 20 : 0))
                text: root.label
                elide: Text.ElideRight
                color: Theme.quietInk
                font.pixelSize: Theme.small
                Accessible.ignored: true
            }
            InkIcon {
                visible: root.thin
                size: 16
                name: "warning"
                ink: Theme.warning
                anchors.verticalCenter: parent.verticalCenter
            }
        }
        Text {
            width: parent.width
            text: root.figure.known ? root.figure.value + " " + root.figure.unit : "–"
            color: Theme.ink
            font.pixelSize: Theme.readout
            font.bold: true
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Theme.smallestFit
            Accessible.ignored: true
        }
        Text {
            width: parent.width
            text: root.figure.known ? root.figure.plusMinus : " "
            color: Theme.quietInk
            font.pixelSize: Theme.body
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Theme.smallestFit
            Accessible.ignored: true
        }
    }
}
