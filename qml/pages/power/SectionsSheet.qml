// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The pipe in sections from the intake down, and its bends, valves and contractions.
BottomSheet {
    id: root
    required property PlantModel plant
    property string pipe
    property string fitting
    resumeName: "sections"
    heading: qsTr("Sections and fittings")

    InkText {
        Layout.fillWidth: true
        text: root.plant.pipeSummary
    }
    InkText {
        Layout.fillWidth: true
        color: Theme.quietInk
        text: qsTr("Sections follow each other from the intake down. One without a length takes what is left of the route. Without sections the pipe is of one size.")
    }
    PartList {
        name: "section"
        parts: root.plant.sections
        onStruck: (id, reason) => root.plant.strikeSection(id, reason)
    }
    PickField {
        label: qsTr("Pipe of the new section")
        choices: root.plant.pipes
        chosen: root.pipe
        onPicked: id => root.pipe = id
    }
    EntryFields {
        form: root.plant.sectionForm
        doneText: qsTr("done")
    }
    PlainButton {
        Layout.fillWidth: true
        enabled: root.pipe !== ""
        text: qsTr("Add this section below the others")
        iconName: "add"
        onClicked: root.plant.addSection(root.pipe)
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Fittings")
        font.pixelSize: Theme.title
        font.bold: true
        Accessible.role: Accessible.Heading
    }
    InkText {
        Layout.fillWidth: true
        color: Theme.quietInk
        text: qsTr("While none is listed, K = 2 is taken for entrance, a valve and bends. Methods differ by 20 to 50 %.")
    }
    PartList {
        name: "fitting"
        parts: root.plant.fittings
        onStruck: (id, reason) => root.plant.strikeFitting(id, reason)
    }
    PickField {
        label: qsTr("Kind of fitting")
        choices: root.plant.fittingKinds
        chosen: root.fitting
        onPicked: id => root.fitting = id
    }
    EntryFields {
        form: root.plant.fittingForm
        doneText: qsTr("done")
    }
    PlainButton {
        Layout.fillWidth: true
        enabled: root.fitting !== ""
        text: qsTr("Add these fittings")
        iconName: "add"
        onClicked: root.plant.addFitting(root.fitting)
    }
}
