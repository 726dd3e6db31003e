// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// What concerns the whole site: its name, settings, closing it.
BottomSheet {
    id: root
    required property AppModel app
    resumeName: "site-menu"
    heading: qsTr("Site and settings")

    NameField {
        Layout.fillWidth: true
        label: qsTr("Site name")
        draft: "site/name"
        settles: true
        text: root.app.siteName
        enabled: !root.app.readOnly
        onCommitted: text => root.app.renameSite(text)
    }
    InkText {
        Layout.fillWidth: true
        text: root.app.fileName
        color: Theme.quietInk
        font.pixelSize: Theme.small
    }
    SettingsPanel {
        Layout.fillWidth: true
        settings: root.app.settings
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Close this site")
        iconName: "folder"
        onClicked: {
            root.close()
            root.app.closeSite()
        }
    }
}
