// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Picks the method of a new test, with what each suits.
BottomSheet {
    id: root
    required property FlowModel flow
    resumeName: "new-flow-test"
    heading: qsTr("New flow test")

    NameField {
        id: name
        Layout.fillWidth: true
        label: qsTr("Name of the test")
        draft: "new-flow-test/name"
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Container: up to about 5 L/s (80 gpm) that fall freely, all of it caught, three fills of ten seconds or more. Current meter: a straight reach, even bed, depth of 15 cm (6 in) or more. Salt: rough, turbulent water, where the others fail. Float: a first figure, or high water from the bank. Weir and flume: where one stands, or can be set. Slope-area: the flood that left its marks; never a flow to build on.")
        color: Theme.quietInk
    }
    Repeater {
        model: root.flow.methods
        PlainButton {
            required property var modelData // Choice
            Layout.fillWidth: true
            text: modelData.label
            iconName: "flow"
            onClicked: {
                root.flow.newTest(modelData.id, name.text)
                name.done()
                root.close()
            }
        }
    }
    CautionRow {
        text: qsTr("Wade only where depth times speed is well below 0.9 m²/s (10 ft²/s), never alone, never in rising water, with a flotation vest and out of cold water in time.")
    }
}
