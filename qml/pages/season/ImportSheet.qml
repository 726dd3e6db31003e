// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Dialogs
import QtQuick.Layouts
import Rillmark.Ui

/// Reads in a record: the file, its columns as understood, and the reading itself with its progress.
BottomSheet {
    id: root
    required property SeriesImport series
    heading: qsTr("Read in a record")
    closePolicy: root.series.running ? BottomSheet.NoAutoClose : BottomSheet.CloseOnEscape | BottomSheet.CloseOnPressOutside

    FileDialog {
        id: chooser
        title: qsTr("File of the logger or of the gauge")
        nameFilters: [qsTr("Tables (*.csv *.txt *.dat *.tsv)"), qsTr("All files (*)")]
        onAccepted: root.series.look(selectedFile)
    }
    Connections {
        target: root.series
        function onDone() {
            gauge.done()
            root.close()
        }
    }
    ChoiceRow {
        label: qsTr("What it holds")
        choices: root.series.kinds
        chosen: root.series.kind
        onPicked: id => root.series.kind = id
    }
    PlainButton {
        Layout.fillWidth: true
        text: root.series.fileName === "" ? qsTr("Choose the file") : qsTr("File: %1").arg(root.series.fileName)
        iconName: "folder"
        enabled: !root.series.running
        onClicked: chooser.open()
    }
    FindingList { findings: root.series.findings }
    ColumnLayout {
        visible: root.series.fileName !== "" && !root.series.running
        Layout.fillWidth: true
        spacing: Theme.gap
        InkText {
            Layout.fillWidth: true
            text: root.series.preview
            color: Theme.quietInk
            font.pixelSize: Theme.small
            wrapMode: Text.WrapAnywhere
        }
        PickField {
            label: qsTr("Column of the date and time")
            choices: root.series.columns
            chosen: root.series.timeColumn
            onPicked: id => root.series.timeColumn = id
        }
        ChoiceRow {
            label: qsTr("Dates are written")
            choices: root.series.dateOrders
            chosen: root.series.dateOrder
            onPicked: id => root.series.dateOrder = id
        }
        ChoiceRow {
            visible: root.series.kind === "stage"
            label: qsTr("The logger's clock shows")
            choices: root.series.clocks
            chosen: root.series.clock
            onPicked: id => root.series.clock = id
        }
        PickField {
            label: root.series.kind === "stage" ? qsTr("Column of the stage") : qsTr("Column of the flow")
            choices: root.series.columns
            chosen: root.series.valueColumn
            onPicked: id => root.series.valueColumn = id
        }
        ChoiceRow {
            label: qsTr("Its unit")
            choices: root.series.units
            chosen: root.series.unit
            onPicked: id => root.series.unit = id
        }
        SwitchRow {
            text: qsTr("Leave out lines that cannot be read")
            on: root.series.leaveOutBad
            onToggled: root.series.leaveOutBad = !on
        }
        NameField {
            id: gauge
            Layout.fillWidth: true
            label: qsTr("Name of the gauge or creek")
            draft: "season-import/name"
        }
    }
    ColumnLayout {
        visible: root.series.running
        Layout.fillWidth: true
        Rectangle {
            Layout.fillWidth: true
            implicitHeight: Theme.gap
            color: Theme.card
            Rectangle {
                width: parent.width * root.series.progress
                height: parent.height
                color: Theme.water
            }
        }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Stop reading")
            iconName: "close"
            onClicked: root.series.cancel()
        }
    }
    PlainButton {
        Layout.fillWidth: true
        visible: !root.series.running
        text: qsTr("Read it in")
        iconName: "check"
        enabled: root.series.complete
        onClicked: root.series.start(gauge.text)
    }
}
