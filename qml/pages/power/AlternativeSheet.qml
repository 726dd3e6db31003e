// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Alternatives over one survey: name the one in hand, add a copy of it, strike it out.
BottomSheet {
    id: root
    required property PowerModel power
    resumeName: "alternatives"
    heading: qsTr("Alternatives")

    NameField {
        Layout.fillWidth: true
        label: qsTr("Name of this alternative")
        draft: "alternative/name"
        settles: true
        text: root.power.name
        onCommitted: text => root.power.rename(text)
    }
    NameField {
        id: name
        Layout.fillWidth: true
        label: qsTr("Name of the new one")
        draft: "alternative/new-name"
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Add an alternative like this one")
        iconName: "add"
        onClicked: {
            root.power.addAlternative(name.text)
            name.done()
            root.close()
        }
    }
    NameField {
        id: reason
        Layout.fillWidth: true
        label: qsTr("Reason for striking this one out")
        draft: "alternative/reason"
    }
    PlainButton {
        Layout.fillWidth: true
        enabled: reason.text.trim() !== ""
        text: qsTr("Strike this alternative out")
        iconName: "strike"
        onClicked: {
            root.power.strikeAlternative(reason.text.trim())
            reason.done()
            root.close()
        }
    }
}
