// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Starts a level book.
BottomSheet {
    id: root
    required property LevelsModel levels
    heading: qsTr("New level book")
    NameField {
        id: name
        Layout.fillWidth: true
        label: qsTr("Name of the book")
    }
    NameField {
        id: instrument
        Layout.fillWidth: true
        label: qsTr("Instrument")
    }
    ActionButton {
        Layout.fillWidth: true
        text: qsTr("Start the book")
        onClicked: {
            root.levels.newBook(name.text, instrument.text)
            name.clear()
            root.close()
        }
    }
}
