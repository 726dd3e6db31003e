// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The site for other programs: which format, and where it went.
PanelCard {
    id: root
    required property ExportModel files

    heading: qsTr("For other programs")
    ChoiceRow {
        label: qsTr("Format")
        choices: root.files.formats
        chosen: root.files.format
        onPicked: id => root.files.format = id
    }
    InkText {
        Layout.fillWidth: true
        text: root.files.formatDetail
        color: Theme.quietInk
    }
    SwitchRow {
        Layout.fillWidth: true
        visible: root.files.takesUtm
        text: qsTr("Metres of the UTM zone")
        on: root.files.utm
        onToggled: root.files.utm = !root.files.utm
    }
    PlainButton {
        Layout.fillWidth: true
        text: root.files.working ? qsTr("Working ...") : qsTr("Write the files")
        iconName: "handover"
        enabled: !root.files.working
        onClicked: root.files.write()
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.files.done
        color: Theme.action
        font.bold: true
        wrapMode: Text.WrapAnywhere
    }
    FindingList { findings: root.files.refusal }
}
