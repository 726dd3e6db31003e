// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// All books, what is allowed for this one, and the heights that all evidence gives together.
BottomSheet {
    id: root
    required property LevelsModel levels
    resumeName: "book"
    heading: qsTr("Books and heights")

    PickField {
        label: qsTr("Book shown")
        choices: root.levels.books
        chosen: root.levels.book
        onPicked: id => root.levels.book = id
    }
    NameField {
        Layout.fillWidth: true
        label: qsTr("Name of this book")
        draft: "book/name"
        settles: true
        text: root.levels.bookName
        onCommitted: text => root.levels.renameBook(text)
    }
    NameField {
        Layout.fillWidth: true
        label: qsTr("Instrument used")
        draft: "book/instrument"
        settles: true
        text: root.levels.instrument
        onCommitted: text => root.levels.setInstrument(text)
    }
    PickField {
        label: qsTr("Allowed closing error")
        choices: root.levels.allowances
        chosen: root.levels.allowance
        onPicked: id => root.levels.allowance = id
    }
    EntryFields {
        form: root.levels.lineForm
        doneText: qsTr("Keep")
        onAsked: root.levels.keepLength()
    }
    PickField {
        label: qsTr("Closing error shared out")
        choices: root.levels.shareOuts
        chosen: root.levels.shareOut
        onPicked: id => root.levels.shareOut = id
    }
    SwitchRow {
        Layout.fillWidth: true
        text: qsTr("Read three wires")
        on: root.levels.threeWires
        onToggled: root.levels.threeWires = !root.levels.threeWires
    }
    FindingList { findings: root.levels.findings }
    PanelCard {
        heading: qsTr("Heights, adjusted together")
        InkText {
            Layout.fillWidth: true
            visible: heights.count === 0
            text: qsTr("No station has a height yet.")
        }
        Repeater {
            id: heights
            model: root.levels.heights
            RowLayout {
                id: line
                required property var modelData // HeightItem
                Layout.fillWidth: true
                InkText {
                    Layout.fillWidth: true
                    text: line.modelData.name
                }
                ColumnLayout {
                    spacing: 0
                    InkText {
                        Layout.alignment: Qt.AlignRight
                        text: line.modelData.height
                        font.bold: true
                        wrapMode: Text.NoWrap
                    }
                    InkText {
                        Layout.alignment: Qt.AlignRight
                        visible: line.modelData.fall !== ""
                        text: line.modelData.fall
                        color: Theme.quietInk
                        font.pixelSize: Theme.small
                        wrapMode: Text.NoWrap
                    }
                }
            }
        }
    }
}
