// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Head of the page of a run: back, name, live result, how it is done.
ColumnLayout {
    id: root
    required property AppModel app
    readonly property HeightRunModel run: app.heightRun
    Layout.fillWidth: true
    spacing: Theme.space

    RowLayout {
        Layout.fillWidth: true
        IconButton {
            text: qsTr("Back to all ways")
            iconName: "back"
            onClicked: root.app.falls.view = "ways"
        }
        NameField {
            Layout.fillWidth: true
            label: qsTr("Name of this run")
            draft: "height-run/name"
            settles: true
            text: root.run.name
            onCommitted: text => root.run.rename(text)
        }
        IconButton {
            text: qsTr("Strike this run out")
            iconName: "strike"
            enabled: !root.app.readOnly
            onClicked: strike.show(root.run.run, root.run.name, false)
        }
    }
    ReasonSheet {
        id: strike
        resumeName: "strike-height-run"
        onGiven: (id, why) => {
            root.run.strikeRun(why)
            root.app.falls.view = "ways"
        }
    }
    InkText {
        Layout.fillWidth: true
        text: root.run.methodName
        color: Theme.quietInk
    }
    InkText {
        Layout.fillWidth: true
        text: root.run.result === "" ? "–" : root.run.result
        font.pixelSize: Theme.readout
        font.bold: true
        Accessible.name: qsTr("Result %1").arg(root.run.result === "" ? qsTr("not known yet") : root.run.result)
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.run.resultDetail
        color: Theme.quietInk
    }
    PegGuideCard {
        visible: root.run.pegGuide.setup > 0
        guide: root.run.pegGuide
    }
    InkText {
        Layout.fillWidth: true
        visible: root.run.pegGuide.setup === 0
        text: root.run.advice
    }
    CautionRow {
        visible: text !== ""
        text: root.run.caution
    }
    PanelCard {
        visible: root.run.instrumentForm !== null
        heading: qsTr("Instrument")
        NameField {
            Layout.fillWidth: true
            label: qsTr("Name of the instrument")
            draft: "height-run/instrument"
            settles: true
            text: root.run.instrument
            onCommitted: text => root.run.setInstrument(text)
        }
        Loader {
            Layout.fillWidth: true
            active: root.run.instrumentForm !== null
            sourceComponent: EntryFields {
                form: root.run.instrumentForm
                doneText: qsTr("done")
            }
        }
        PlainButton {
            Layout.fillWidth: true
            text: qsTr("Use these for the run")
            iconName: "check"
            enabled: root.run.instrumentForm !== null && root.run.instrumentForm.complete && !root.app.readOnly
            onClicked: root.run.keepInstrument()
        }
    }
}
