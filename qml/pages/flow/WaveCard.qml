// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Dialogs
import QtQuick.Layouts
import Rillmark.Ui

/// The wave of salt: conductivity over time, its start and end to be dragged; a logger's table can be read in.
PanelCard {
    id: root
    required property FlowRunModel run
    required property bool readOnly
    heading: qsTr("The wave of salt")

    FileDialog {
        id: chooser
        title: qsTr("Table of the logger")
        nameFilters: [qsTr("Tables (*.csv *.txt)")]
        onAccepted: root.run.importWave(selectedFile)
    }
    InkText {
        Layout.fillWidth: true
        visible: !root.run.hasWave
        text: qsTr("Read the conductivity at intervals, background first, or take in a logger's table with the columns time and conductivity (temperature may follow), units in the header: time_s, conductivity_uS_cm.")
    }
    WavePlot {
        Layout.fillWidth: true
        Layout.preferredHeight: 260
        visible: root.run.hasWave
        points: root.run.wave
        from: root.run.waveFrom
        to: root.run.waveTo
        enabled: !root.readOnly
        onMoved: (from, to) => root.run.setWave(from, to)
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Read a logger's table")
        iconName: "folder"
        enabled: !root.readOnly
        onClicked: chooser.open()
    }
}
