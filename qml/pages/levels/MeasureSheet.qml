// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Picks the way to measure a fall.
BottomSheet {
    id: root
    required property AppModel app
    resumeName: "measure"
    heading: qsTr("Measure a fall")

    NameField {
        id: name
        Layout.fillWidth: true
        label: qsTr("Name of the run")
        draft: "measure/name"
    }
    NameField {
        id: instrument
        Layout.fillWidth: true
        label: qsTr("Instrument of the run")
        draft: "measure/instrument"
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Level book")
        iconName: "levels"
        onClicked: {
            root.app.levels.newBook(name.text, instrument.text)
            root.finish("book")
        }
    }
    Repeater {
        model: root.app.heightRun.methods
        PlainButton {
            required property var modelData // Choice
            Layout.fillWidth: true
            text: modelData.label
            iconName: "levels"
            onClicked: {
                root.app.heightRun.newRun(modelData.id, name.text, instrument.text)
                root.finish("run")
            }
        }
    }
    function finish(view: string) {
        name.done()
        instrument.done()
        close()
        app.falls.view = view // takes this page away
    }
}
