// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Rillmark.Ui

/// A sheet that rises over the place; on a wide window it stands in the middle. What is put in it scrolls.
T.Popup {
    id: root
    required property string heading
    property string resumeName: "" // a sheet with a name is opened again after a kill
    property string resumeWith: "open" // what resume() needs to know to show the same thing
    readonly property string leftOpen: resumeName === "" ? "" : Drafts.text("sheet/" + resumeName)

    /// Opens the sheet as it was when the program ended.
    function resume(given: string) {
        open()
    }
    function resumeIfLeft() {
        if (leftOpen !== "" && !visible)
            resume(leftOpen)
    }
    function keepOpen(how: string) {
        if (resumeName !== "")
            Drafts.keep("sheet/" + resumeName, how)
    }
    // a moment later: the page around it is then whole
    readonly property Timer soon: Timer {
        interval: 0
        onTriggered: root.resumeIfLeft()
    }
    onLeftOpenChanged: soon.start()
    Component.onCompleted: soon.start()
    onAboutToShow: keepOpen(resumeWith)
    onAboutToHide: keepOpen("")
    default property alias content: column.data

    parent: T.Overlay.overlay
    modal: true
    focus: true
    padding: Theme.edge
    width: parent ? Math.min(parent.width, Theme.readable) : 0
    x: parent ? (parent.width - width) / 2 : 0
    y: parent ? parent.height - height : 0
    height: parent ? Math.min(parent.height - Theme.space, column.implicitHeight + topBar.height + 3 * padding) : 0
    closePolicy: T.Popup.CloseOnEscape | T.Popup.CloseOnPressOutside

    T.Overlay.modal: Rectangle { color: Theme.shade }
    background: Rectangle {
        color: Theme.paper
        radius: Theme.radius
        border.color: Theme.rule
        border.width: Theme.hairline
    }
    contentItem: Item {
        RowLayout {
            id: topBar
            width: parent.width
            InkText {
                Layout.fillWidth: true
                text: root.heading
                font.pixelSize: Theme.title
                font.bold: true
                Accessible.role: Accessible.Heading
            }
            IconButton {
                text: qsTr("Close sheet")
                iconName: "close"
                onClicked: root.close()
            }
        }
        Flickable {
            anchors { left: parent.left; right: parent.right; top: topBar.bottom; topMargin: Theme.space; bottom: parent.bottom }
            contentHeight: column.implicitHeight
            clip: true
            boundsBehavior: Flickable.StopAtBounds
            ColumnLayout {
                id: column
                width: parent.width
                spacing: Theme.gap
            }
        }
    }
}
