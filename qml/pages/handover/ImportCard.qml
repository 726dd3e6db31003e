// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Dialogs
import QtQuick.Layouts
import Rillmark.Ui

/// A file of another program: what is in it, what it becomes, and the taking in.
PanelCard {
    id: root
    required property AppModel app
    readonly property ImportModel files: app.imports
    readonly property bool inHand: files.fileName !== ""

    heading: qsTr("From other programs")
    FileDialog {
        id: picker
        title: qsTr("A file of another program, or photos")
        fileMode: FileDialog.OpenFiles
        nameFilters: [qsTr("Maps, tables and photos (*.gpx *.kml *.geojson *.json *.csv *.gpkg *.jpg *.jpeg)"), qsTr("All files (*)")]
        onAccepted: root.files.look(selectedFiles)
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Stations, lines and areas of GPX, KML, GeoJSON, CSV or a GeoPackage, and photos with the position that they bear. You see what would come in before it does.")
        color: Theme.quietInk
    }
    PlainButton {
        Layout.fillWidth: true
        text: root.files.working ? qsTr("Reading ...") : qsTr("Choose a file")
        iconName: "folder"
        enabled: !root.app.readOnly && !root.files.working
        onClicked: picker.open()
    }
    InkText {
        Layout.fillWidth: true
        visible: root.inHand
        text: root.files.fileName
        font.bold: true
        wrapMode: Text.WrapAnywhere
    }
    PickField {
        visible: root.files.layers.length > 0
        label: qsTr("Layer")
        choices: root.files.layers
        chosen: root.files.layer
        onPicked: id => root.files.layer = id
    }
    ImportChoices {
        Layout.fillWidth: true
        visible: root.inHand
        files: root.files
    }
    Repeater {
        model: root.files.preview
        RowLayout {
            id: one
            required property var modelData // ImportItem
            Layout.fillWidth: true
            spacing: Theme.gap
            InkText {
                Layout.fillWidth: true
                text: one.modelData.name
                font.strikeout: one.modelData.leftOut
            }
            InkText {
                Layout.maximumWidth: root.width / 2
                text: one.modelData.becomes
                color: Theme.quietInk
            }
        }
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.files.summary
        font.bold: true
    }
    FindingList { findings: root.files.findings }
    PlainButton {
        Layout.fillWidth: true
        visible: root.files.ready
        text: qsTr("Take it in")
        iconName: "add"
        onClicked: root.files.takeIn()
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.inHand && !root.files.working
        text: qsTr("Put the file away")
        iconName: "close"
        onClicked: root.files.putAway()
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.files.done
        color: Theme.action
        font.bold: true
    }
}
