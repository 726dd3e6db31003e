// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Dialogs
import QtQuick.Layouts
import Rillmark.Ui

/// Handover: what the designer will ask for, the check, the copy.
ScrollPage {
    id: root
    required property AppModel app
    readonly property HandoverModel handover: app.handover

    FileDialog {
        id: target
        title: qsTr("Save a copy")
        fileMode: FileDialog.SaveFile
        defaultSuffix: "gpkg"
        nameFilters: [qsTr("Rillmark sites (*.gpkg)")]
        onAccepted: root.handover.saveCopy(selectedFile)
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Ready for the designer?")
        font.pixelSize: Theme.title
        font.bold: true
        Accessible.role: Accessible.Heading
    }
    InkText {
        Layout.fillWidth: true
        text: root.handover.tally
    }
    Repeater {
        model: root.handover.asks
        PressArea {
            id: one
            required property var modelData // AskItem
            readonly property string stateWord: modelData.state === 0 ? qsTr("done") : modelData.state === 1 ? qsTr("thin") : qsTr("missing")
            readonly property color stateInk: modelData.state === 0 ? Theme.action : modelData.state === 1 ? Theme.warning : Theme.danger
            Layout.fillWidth: true
            text: qsTr("%1: %2. %3").arg(modelData.label).arg(stateWord).arg(modelData.why)
            fill: Theme.card
            leftPadding: Theme.gap
            onClicked: root.app.place = modelData.place
            contentItem: RowLayout {
                spacing: Theme.gap
                InkIcon {
                    name: one.modelData.state === 0 ? "check" : "warning"
                    ink: one.stateInk
                }
                ColumnLayout {
                    Layout.fillWidth: true
                    spacing: 0
                    InkText {
                        Layout.fillWidth: true
                        text: one.modelData.label
                        font.bold: true
                        Accessible.ignored: true
                    }
                    InkText {
                        Layout.fillWidth: true
                        visible: text !== ""
                        text: one.modelData.why
                        color: Theme.quietInk
                        font.pixelSize: Theme.small
                        Accessible.ignored: true
                    }
                }
                InkText {
                    text: one.stateWord
                    color: one.stateInk
                    font.bold: true
                    Accessible.ignored: true
                }
            }
        }
    }
    ReportCard { report: root.app.report }
    PanelCard {
        heading: qsTr("The project file")
        InkText {
            Layout.fillWidth: true
            text: qsTr("The file you work in is the file you hand over: a GeoPackage that any GIS opens, photos included. A copy is closed, checked and complete.")
        }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Check the file")
            iconName: "check"
            enabled: !root.handover.working
            onClicked: root.handover.check()
        }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Save a copy elsewhere")
            iconName: "folder"
            enabled: !root.handover.working
            onClicked: target.open()
        }
        InkText {
            Layout.fillWidth: true
            visible: root.handover.working
            text: qsTr("Working ...")
        }
        InkText {
            Layout.fillWidth: true
            visible: text !== ""
            text: root.handover.done
            color: Theme.action
            font.bold: true
        }
        FindingList { findings: root.handover.outcome }
    }
    MergeCard { app: root.app }
    ExportCard { files: root.app.files }
    actions: ActionButton {
        Layout.fillWidth: true
        text: qsTr("Save the copy")
        enabled: !root.handover.working
        onClicked: root.handover.saveCopyHere()
    }
}
