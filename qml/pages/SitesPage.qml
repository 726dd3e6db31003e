// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Dialogs
import QtQuick.Layouts
import Rillmark.Ui

/// Before a site is open: make one, or open one.
ScrollPage {
    id: root
    required property AppModel app

    FileDialog {
        id: chooser
        title: qsTr("Open a site")
        nameFilters: [qsTr("Rillmark sites (*.gpkg)")]
        onAccepted: root.app.openUrl(selectedFile)
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Which creek?")
        font.pixelSize: Theme.figure
        font.bold: true
        Accessible.role: Accessible.Heading
    }
    PanelCard {
        heading: qsTr("A new site")
        NameField {
            id: name
            Layout.fillWidth: true
            label: qsTr("Name of the new site")
            draft: "new-site/name"
            onAccepted: make.clicked()
        }
        ActionButton {
            id: make
            Layout.fillWidth: true
            text: qsTr("Start the site")
            enabled: name.text.trim() !== ""
            onClicked: root.app.newSite(name.text)
        }
    }
    PanelCard {
        heading: qsTr("A site on this device")
        InkText {
            Layout.fillWidth: true
            visible: recent.count === 0
            text: qsTr("None opened yet.")
        }
        Repeater {
            id: recent
            model: root.app.recentFiles
            PlainButton {
                required property string modelData
                Layout.fillWidth: true
                text: modelData.substring(modelData.lastIndexOf("/") + 1)
                iconName: "folder"
                onClicked: root.app.openFile(modelData)
            }
        }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Open another file")
            iconName: "folder"
            onClicked: chooser.open()
        }
    }
    PanelCard {
        heading: qsTr("Settings")
        SettingsPanel {
            Layout.fillWidth: true
            settings: root.app.settings
        }
    }
    InkText {
        Layout.fillWidth: true
        color: Theme.quietInk
        text: qsTr("Rillmark advises; it does not licence. Structures in water, pressure pipe, electrical work and taking water are subject to local codes, permits and licensed practice.")
    }
}
