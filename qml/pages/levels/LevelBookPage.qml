// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// A level book: the book as a page, the set-up in hand at the thumb.
Item {
    id: root
    required property AppModel app
    readonly property LevelsModel levels: app.levels
    readonly property bool wide: width >= Theme.twoPanes || width > 1.4 * height

    NewBookSheet {
        id: newBook
        levels: root.levels
    }
    BookSheet {
        id: bookSheet
        levels: root.levels
    }
    StrikeSheet {
        id: strikeSheet
        levels: root.levels
    }

    ScrollPage {
        anchors.fill: parent
        visible: root.levels.book === "0"
        EmptyState {
            headline: qsTr("No level book yet")
            advice: qsTr("A level book carries the height from the intake to the powerhouse, sight by sight. Start at a point that you can find again, and close the line back on it: that is the only check there is.")
        }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Measure it another way")
            iconName: "levels"
            onClicked: root.app.falls.view = "ways"
        }
        actions: ActionButton {
            Layout.fillWidth: true
            text: qsTr("Start a level book")
            enabled: !root.app.readOnly
            onClicked: newBook.open()
        }
    }
    TwoPanes {
        anchors.fill: parent
        visible: root.levels.book !== "0"
        both: root.wide
        share: 0.6
        first: ColumnLayout {
            anchors.fill: parent
            spacing: 0
            RowLayout {
                Layout.fillWidth: true
                spacing: 0
                IconButton {
                    text: qsTr("All ways to measure a fall")
                    iconName: "back"
                    onClicked: root.app.falls.view = "ways"
                }
                ColumnLayout {
                    Layout.fillWidth: true
                    spacing: 0
                    InkText {
                        Layout.fillWidth: true
                        text: root.levels.bookName
                        font.pixelSize: Theme.title
                        font.bold: true
                        wrapMode: Text.NoWrap
                        elide: Text.ElideRight
                        Accessible.role: Accessible.Heading
                    }
                    InkText {
                        Layout.fillWidth: true
                        visible: text !== ""
                        text: root.levels.instrument
                        color: Theme.quietInk
                        font.pixelSize: Theme.small
                        wrapMode: Text.NoWrap
                        elide: Text.ElideRight
                    }
                }
                IconButton {
                    text: qsTr("Books and heights")
                    iconName: "more"
                    onClicked: bookSheet.open()
                }
                IconButton {
                    text: qsTr("New level book")
                    iconName: "add"
                    enabled: !root.app.readOnly
                    onClicked: newBook.open()
                }
            }
            BookPage {
                Layout.fillWidth: true
                Layout.fillHeight: true
                page: root.levels.page
                showSteps: root.width >= Theme.twoPanes
                onLinePressed: line => strikeSheet.show(line)
            }
            ClosureBar {
                Layout.fillWidth: true
                Layout.margins: Theme.space
                visible: root.levels.closes
                text: root.levels.closure
                share: root.levels.closureShare
            }
            ActionButton {
                Layout.fillWidth: true
                Layout.margins: Theme.space
                Layout.topMargin: 0
                visible: !root.wide // there the entry stands beside the page
                text: qsTr("Read the staff")
                enabled: !root.app.readOnly
                onClicked: sightSheet.open()
            }
        }
        second: SightEntry {
            anchors.fill: parent
            visible: root.wide
            levels: root.levels
        }
    }
    BottomSheet {
        id: sightSheet
        resumeName: "sight"
        heading: root.levels.bookName
        SightFields {
            levels: root.levels
        }
    }
}
