// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Starts a level book.
BottomSheet {
    id: root
    required property LevelsModel levels
    resumeName: "new-book"
    heading: qsTr("New level book")
    NameField {
        id: name
        Layout.fillWidth: true
        label: qsTr("Name of the book")
        draft: "new-book/name"
    }
    NameField {
        id: instrument
        Layout.fillWidth: true
        label: qsTr("Instrument")
        draft: "new-book/instrument"
    }
    ActionButton {
        Layout.fillWidth: true
        text: qsTr("Start the book")
        onClicked: {
            root.levels.newBook(name.text, instrument.text)
            name.done()
            instrument.done()
            root.close()
        }
    }
}
