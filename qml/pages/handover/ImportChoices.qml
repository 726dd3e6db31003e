// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// How a file is taken in: what its points, lines and areas become, and which of its columns hold what.
ColumnLayout {
    id: root
    required property ImportModel files
    property int turn: 0 // counts the changes, so that what was chosen is asked for anew
    spacing: Theme.gap

    function chosen(what: string, now: int): string {
        return root.files.chosen(what)
    }
    Connections {
        target: root.files
        function onChanged() {
            ++root.turn
        }
    }
    component FieldPick: PickField {
        required property string what
        visible: choices.length > 0
        choices: root.files.fields
        chosen: root.chosen(what, root.turn)
        onPicked: id => root.files.choose(what, id)
    }
    FieldPick {
        what: "longitude"
        label: qsTr("Column with the longitude")
        choices: root.files.columns
    }
    FieldPick {
        what: "latitude"
        label: qsTr("Column with the latitude")
        choices: root.files.columns
    }
    FieldPick {
        what: "point_kind"
        label: qsTr("Points of no kind of ours become")
        choices: root.files.pointKinds
        visible: root.files.ready
    }
    ChoiceRow {
        visible: root.files.ready
        label: qsTr("Lines become")
        choices: root.files.lineChoices
        chosen: root.chosen("lines", root.turn)
        onPicked: id => root.files.choose("lines", id)
    }
    SwitchRow {
        Layout.fillWidth: true
        visible: root.files.ready
        text: qsTr("Areas become corners of the boundary")
        on: root.chosen("areas", root.turn) === "boundary"
        onToggled: root.files.choose("areas", on ? "none" : "boundary")
    }
    FieldPick {
        what: "name"
        label: qsTr("Name")
    }
    FieldPick {
        what: "kind"
        label: qsTr("Kind of station")
    }
    FieldPick {
        what: "height"
        label: qsTr("Height in metres")
    }
}
