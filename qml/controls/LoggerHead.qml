// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The lines of a file around its first reading, as they stand, and how the first readings are understood.
ColumnLayout {
    id: root
    required property var lines // list of strings
    required property int first
    required property var understood // list of strings
    Layout.fillWidth: true
    spacing: Theme.space / 2

    Flickable {
        Layout.fillWidth: true
        implicitHeight: column.implicitHeight
        contentWidth: column.implicitWidth
        clip: true
        flickableDirection: Flickable.HorizontalFlick
        boundsBehavior: Flickable.StopAtBounds
        Column {
            id: column
            Repeater {
                model: root.lines
                Text {
                    id: line
                    required property int index
                    required property string modelData
                    text: modelData
                    textFormat: Text.PlainText
                    color: index >= root.first ? Theme.ink : Theme.quietInk
                    font.family: "monospace"
                    font.pixelSize: Theme.small
                    font.bold: index === root.first
                    Accessible.role: Accessible.StaticText
                    Accessible.name: index === root.first ? qsTr("First reading, line %1").arg(modelData) : qsTr("Line %1").arg(modelData)
                }
            }
        }
    }
    InkText {
        Layout.fillWidth: true
        visible: root.understood.length > 0
        text: qsTr("Understood as")
        color: Theme.quietInk
        font.pixelSize: Theme.small
    }
    Repeater {
        model: root.understood
        InkText {
            required property string modelData
            Layout.fillWidth: true
            text: modelData
        }
    }
}
