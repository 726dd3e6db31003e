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
    AskList { app: root.app }
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
    SendCard { app: root.app }
    MergeCard { app: root.app }
    ExportCard { files: root.app.files }
    ImportCard { app: root.app }
    actions: ActionButton {
        Layout.fillWidth: true
        text: root.handover.canShare ? qsTr("Share the copy") : qsTr("Save the copy")
        enabled: !root.handover.working
        onClicked: root.handover.canShare ? root.handover.share() : root.handover.saveCopyHere()
    }
}
