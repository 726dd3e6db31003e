// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Dialogs
import QtQuick.Layouts
import Rillmark.Ui

/// One station: name, kind, position, notes, photos.
ScrollPage {
    id: root
    required property WalkModel walk
    required property bool readOnly

    FileDialog {
        id: chooser
        title: qsTr("Choose a picture")
        nameFilters: [qsTr("Pictures (*.jpg *.jpeg *.png)")]
        onAccepted: root.walk.addPhoto(selectedFile)
    }
    CameraSheet {
        id: camera
        walk: root.walk
    }
    ReasonSheet {
        id: strikeStation
        resumeName: "strike-station"
        onGiven: (id, why) => root.walk.strikeStation(why)
    }
    ReasonSheet {
        id: strikeNote
        resumeName: "strike-note"
        onGiven: (id, why) => root.walk.strikeMemo("note", id, why)
    }
    BottomSheet {
        id: again
        heading: qsTr("Average the position again")
        onClosed: if (root.walk.logging) root.walk.cancelLogging()
        AveragingPanel { walk: root.walk }
        ActionButton {
            Layout.fillWidth: true
            text: qsTr("Book this stay")
            enabled: root.walk.scatter.length > 0
            onClicked: {
                root.walk.logAgain()
                again.close()
            }
        }
    }
    RowLayout {
        Layout.fillWidth: true
        IconButton {
            text: qsTr("Back to the stations")
            iconName: "back"
            onClicked: root.walk.station = ""
        }
        NameField {
            Layout.fillWidth: true
            label: qsTr("Name of this station")
            draft: "station/name"
            settles: true
            text: root.walk.stationName
            onCommitted: text => root.walk.renameStation(text)
        }
    }
    PickField {
        label: qsTr("Kind of station")
        choices: root.walk.kinds
        chosen: root.walk.stationKind
        onPicked: id => root.walk.setKind(id)
    }
    InkText {
        Layout.fillWidth: true
        text: root.walk.stationPosition
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Average the position again")
        iconName: "position"
        enabled: !root.readOnly
        onClicked: {
            root.walk.startLogging()
            again.open()
        }
    }
    PanelCard {
        heading: qsTr("Photos")
        Flow {
            Layout.fillWidth: true
            spacing: Theme.space
            Repeater {
                model: root.walk.photos
                Image {
                    required property var modelData // MemoItem
                    width: 150
                    height: 112
                    fillMode: Image.PreserveAspectCrop
                    asynchronous: true
                    source: root.walk.thumbnailUrl(modelData.id)
                    Accessible.role: Accessible.Graphic
                    Accessible.name: qsTr("Photo %1, %2").arg(modelData.text).arg(modelData.when)
                }
            }
        }
        InkText {
            Layout.fillWidth: true
            visible: root.walk.photosInWork > 0
            text: qsTr("Photos being stored: %1").arg(root.walk.photosInWork)
        }
        RowLayout {
            Layout.fillWidth: true
            PlainButton {
                Layout.fillWidth: true
                text: qsTr("Take a photo")
                iconName: "camera"
                enabled: !root.readOnly
                onClicked: camera.begin()
            }
            PlainButton {
                Layout.fillWidth: true
                text: qsTr("Choose a picture")
                iconName: "photo"
                enabled: !root.readOnly
                onClicked: chooser.open()
            }
        }
    }
    PanelCard {
        heading: qsTr("Notes")
        Repeater {
            model: root.walk.notes
            PressArea {
                id: one
                required property var modelData // MemoItem
                Layout.fillWidth: true
                text: qsTr("Note: %1").arg(modelData.text)
                leftPadding: 0
                onClicked: if (!modelData.struck) strikeNote.show(modelData.id, modelData.text, false)
                contentItem: InkText {
                    text: one.modelData.text
                    font.strikeout: one.modelData.struck
                    Accessible.ignored: true
                }
            }
        }
        NameField {
            id: note
            Layout.fillWidth: true
            label: qsTr("New note")
            text: root.walk.noteDraft
            enabled: !root.readOnly
            onTextEdited: root.walk.noteDraft = text
            onAccepted: addNote.clicked()
        }
        PlainButton {
            id: addNote
            Layout.fillWidth: true
            text: qsTr("Add the note")
            iconName: "note"
            enabled: note.text.trim() !== "" && !root.readOnly
            onClicked: root.walk.addNote(note.text)
        }
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Strike this station out")
        iconName: "strike"
        enabled: !root.readOnly
        onClicked: strikeStation.show(root.walk.station, root.walk.stationName, false)
    }
}
