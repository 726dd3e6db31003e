// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// How the record comes to the site.
PanelCard {
    id: root
    required property SeasonModel season
    required property bool readOnly
    heading: qsTr("From the gauge to this site")

    ChoiceRow {
        label: qsTr("How its flows are brought here")
        choices: root.season.transfers
        chosen: root.season.transfer
        onPicked: id => root.season.transfer = id
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.season.transferText
    }
    Repeater {
        model: root.season.transferForm !== null ? [root.season.transferForm] : []
        EntryFields {
            required property var modelData // EntryForm
            form: modelData
            doneText: qsTr("done")
        }
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.season.transferForm !== null
        text: qsTr("Bring the flows over with these")
        iconName: "check"
        enabled: root.season.transferForm !== null && root.season.transferForm.complete && !root.readOnly
        onClicked: root.season.keepTransfer()
    }
}
