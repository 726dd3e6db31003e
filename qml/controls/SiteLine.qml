// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Site name, position state, saved mark; undo and the menu of the site.
Rectangle {
    id: root
    required property AppModel app
    implicitHeight: row.implicitHeight
    color: Theme.paper

    SiteMenuSheet {
        id: menu
        app: root.app
    }
    RowLayout {
        id: row
        anchors { left: parent.left; right: parent.right; leftMargin: Theme.gap }
        spacing: 0
        ColumnLayout {
            Layout.fillWidth: true
            spacing: 0
            InkText {
                Layout.fillWidth: true
                text: root.app.siteName
                font.bold: true
                wrapMode: Text.NoWrap
                elide: Text.ElideRight
            }
            RowLayout {
                spacing: Theme.space
                InkIcon {
                    size: 16
                    name: root.app.saved ? "check" : "warning"
                    ink: root.app.saved ? Theme.quietInk : Theme.danger
                }
                InkText {
                    text: root.app.savedText
                    color: root.app.saved ? Theme.quietInk : Theme.danger
                    font.pixelSize: Theme.small
                }
                InkText {
                    Layout.fillWidth: true
                    text: root.app.walk.positionState
                    color: Theme.quietInk
                    font.pixelSize: Theme.small
                    wrapMode: Text.NoWrap
                    elide: Text.ElideRight
                }
            }
        }
        IconButton {
            text: root.app.undoText !== "" ? root.app.undoText : qsTr("Nothing to undo")
            enabled: root.app.undoText !== "" && !root.app.readOnly
            iconName: "undo"
            onClicked: root.app.undo()
        }
        IconButton {
            text: qsTr("Site and settings")
            iconName: "more"
            onClicked: menu.open()
        }
    }
    Rectangle {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        height: Theme.hairline
        color: Theme.rule
    }
}
