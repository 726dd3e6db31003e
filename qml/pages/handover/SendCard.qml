// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The site to a server and what others sent back: where, who, how far, what came of it.
PanelCard {
    id: root
    required property AppModel app
    readonly property SyncModel sync: app.sync

    heading: qsTr("Send and fetch")
    /// A tap on the button does not always end the typing in a field.
    function takeTyped() {
        root.sync.address = address.text
        root.sync.user = user.text
        takePassword()
    }
    function takePassword() {
        if (password.text !== "")
            root.sync.setPassword(password.text)
        password.clear()
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Keeps this site the same here and on a WebDAV server. Two people can book on it: what each of them found comes together, and nobody's is written over.")
        color: Theme.quietInk
    }
    NameField {
        id: address
        Layout.fillWidth: true
        label: qsTr("Server address, as https://cloud.example/dav/creeks")
        draft: "sync/address"
        settles: true
        text: root.sync.address
        inputMethodHints: Qt.ImhUrlCharactersOnly | Qt.ImhNoAutoUppercase // qmllint disable type property
        enabled: !root.sync.working
        onCommitted: text => root.sync.address = text
    }
    NameField {
        id: user
        Layout.fillWidth: true
        label: qsTr("User name")
        draft: "sync/user"
        settles: true
        text: root.sync.user
        inputMethodHints: Qt.ImhNoAutoUppercase | Qt.ImhNoPredictiveText // qmllint disable type property
        enabled: !root.sync.working
        onCommitted: text => root.sync.user = text
    }
    NameField { // without a draft: a password is never written to a file
        id: password
        Layout.fillWidth: true
        label: root.sync.passwordKnown ? qsTr("Password (known; type to change it)") : qsTr("Password")
        echoMode: TextInput.Password
        inputMethodHints: Qt.ImhSensitiveData | Qt.ImhHiddenText | Qt.ImhNoAutoUppercase | Qt.ImhNoPredictiveText // qmllint disable type property
        enabled: !root.sync.working
        onCommitted: root.takePassword()
    }
    SwitchRow {
        Layout.fillWidth: true
        text: qsTr("Keep the password in this device's key store")
        on: root.sync.keepPassword
        onToggled: root.sync.keepPassword = !root.sync.keepPassword
    }
    SwitchRow {
        Layout.fillWidth: true
        visible: root.sync.plainAllowed || root.sync.address.startsWith("http:")
        text: qsTr("Without encryption, on a network of my own")
        on: root.sync.plainAllowed
        onToggled: root.sync.plainAllowed = !root.sync.plainAllowed
    }
    PlainButton {
        Layout.fillWidth: true
        visible: !root.sync.working
        text: qsTr("Send and fetch now")
        iconName: "share"
        enabled: address.text !== "" && !root.app.readOnly && root.app.saved
        onClicked: {
            root.takeTyped()
            root.sync.sendAndFetch()
        }
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.sync.state
        font.bold: true
        Accessible.role: root.sync.working ? Accessible.ProgressBar : Accessible.StaticText
    }
    Rectangle {
        Layout.fillWidth: true
        visible: root.sync.working
        implicitHeight: Theme.space
        color: Theme.pressed
        radius: Theme.radius
        Rectangle {
            width: parent.width * root.sync.progress
            height: parent.height
            color: Theme.action
            radius: Theme.radius
        }
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.sync.working
        text: qsTr("Cancel sending")
        iconName: "close"
        onClicked: root.sync.cancel()
    }
    Repeater {
        model: root.sync.done
        InkText {
            required property string modelData
            Layout.fillWidth: true
            text: modelData
            color: Theme.action
            font.bold: true
        }
    }
    InkText {
        Layout.fillWidth: true
        visible: root.sync.conflicts > 0
        text: qsTr("Said differently: %1. Settle them under \"Two books of one site\".").arg(root.sync.conflicts)
        color: Theme.warning
        font.bold: true
    }
    FindingList { findings: root.sync.outcome }
    InkText {
        Layout.fillWidth: true
        visible: root.sync.offered !== ""
        text: qsTr("Fingerprint (SHA-256) of the certificate that the server showed: %1").arg(root.sync.offered)
        wrapMode: Text.WrapAnywhere
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.sync.offered !== ""
        text: qsTr("I compared it: trust this certificate")
        iconName: "lock"
        onClicked: root.sync.trustOffered()
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.sync.trusted !== "" && !root.sync.working
        text: qsTr("Trust the certificate no more")
        iconName: "close"
        onClicked: root.sync.trustNone()
    }
}
