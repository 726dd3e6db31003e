// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// One line of the book; crossed through when struck out.
PressArea {
    id: root
    required property string point
    required property string backsight
    required property string intermediate
    required property string foresight
    required property string rise
    required property string fall
    required property string level
    required property string remark
    required property string spoken
    property bool struck: false
    property bool header: false
    property bool showSteps: false

    component Cell: Text {
        Layout.fillWidth: true
        Layout.preferredWidth: 3
        horizontalAlignment: Text.AlignRight
        color: root.struck || root.header ? Theme.quietInk : Theme.ink
        font.pixelSize: root.header ? Theme.small : Theme.body
        font.strikeout: root.struck
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: 11
        Accessible.ignored: true
    }
    text: spoken
    enabled: !header
    opacity: 1
    implicitHeight: header ? Theme.touch / 2 : Math.max(Theme.touch, implicitContentHeight + topPadding + bottomPadding)
    padding: 4
    leftPadding: Theme.gap
    rightPadding: Theme.gap
    contentItem: ColumnLayout {
        spacing: 0
        RowLayout {
            Layout.fillWidth: true
            spacing: Theme.space
            Cell {
                Layout.preferredWidth: 4
                horizontalAlignment: Text.AlignLeft
                fontSizeMode: Text.FixedSize
                text: root.point
                elide: Text.ElideRight
                font.bold: !root.header
            }
            Cell { text: root.backsight }
            Cell { text: root.intermediate }
            Cell { text: root.foresight }
            Cell { visible: root.showSteps; text: root.rise }
            Cell { visible: root.showSteps; text: root.fall }
            Cell { Layout.preferredWidth: 4; text: root.level; font.bold: !root.header && !root.struck }
        }
        Text {
            Layout.fillWidth: true
            visible: root.remark !== ""
            text: root.remark
            color: Theme.quietInk
            font.pixelSize: Theme.small
            wrapMode: Text.Wrap
            Accessible.ignored: true
        }
    }
    Rectangle {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        height: Theme.hairline
        color: Theme.rule
    }
}
