// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The wave of salt: conductivity over time, its start and end to be dragged; a logger's file can be read in.
PanelCard {
    id: root
    required property FlowRunModel run
    required property bool readOnly
    heading: qsTr("The wave of salt")

    LoggerSheet {
        id: sheet
        file: root.run.logged.file
        resumeName: "logger-trace"
    }
    InkText {
        Layout.fillWidth: true
        visible: !root.run.hasWave && !root.run.logged.waiting
        text: qsTr("Read the conductivity at intervals by the clock, the background first, until it is back where it began; or take in the file of a logger.")
    }
    WavePlot {
        id: plot
        Layout.fillWidth: true
        Layout.preferredHeight: 260
        visible: root.run.hasWave
        points: root.run.wave
        leftOut: root.run.leftOut
        from: root.run.waveFrom
        to: root.run.waveTo
        enabled: !root.readOnly
        onDragged: (from, to) => live.text = root.run.flowIfWave(from, to)
        onMoved: (from, to) => {
            live.text = ""
            root.run.setWave(from, to)
        }
    }
    InkText {
        Layout.fillWidth: true
        visible: root.run.hasWave && root.run.leftOut.length > 0
        text: qsTr("Crosses mark readings that are left out.")
        color: Theme.quietInk
        font.pixelSize: Theme.small
    }
    InkText {
        id: live
        Layout.fillWidth: true
        visible: text !== ""
        font.pixelSize: Theme.title
    }
    LoggedTraceCard {
        visible: root.run.logged.waiting
        run: root.run
    }
    PlainButton {
        Layout.fillWidth: true
        visible: !root.run.logged.waiting
        text: qsTr("Read a logger's file")
        iconName: "folder"
        enabled: !root.readOnly
        onClicked: sheet.choose()
    }
}
