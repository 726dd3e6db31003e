// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// How a logger's file is laid out: which column is what, its units, marks and dates. Each choice shows at once above.
ColumnLayout {
    id: root
    required property LoggerImport file
    Layout.fillWidth: true
    spacing: Theme.space

    Repeater {
        model: root.file.fields
        ColumnLayout {
            id: one
            required property int index
            required property var modelData // LoggerFieldItem
            Layout.fillWidth: true
            spacing: Theme.space
            PickField {
                label: qsTr("Column of: %1").arg(one.modelData.label)
                choices: one.modelData.columns
                chosen: one.modelData.column
                onPicked: id => root.file.choose("field/" + one.index, id)
            }
            ChoiceRow {
                visible: one.modelData.column !== ""
                label: qsTr("%1 is in").arg(one.modelData.label)
                choices: one.modelData.units
                chosen: one.modelData.unit
                onPicked: id => root.file.choose("unit/" + one.index, id)
            }
        }
    }
    PickField {
        label: qsTr("Column of the time")
        choices: root.file.columns
        chosen: root.file.timeColumn
        onPicked: id => root.file.choose("time", id)
    }
    ChoiceRow {
        label: qsTr("The time is a")
        choices: root.file.timeKinds
        chosen: root.file.timeKind
        onPicked: id => root.file.choose("time-kind", id)
    }
    PickField {
        visible: root.file.timeKind === ""
        label: qsTr("Column of the date")
        choices: root.file.dateColumns
        chosen: root.file.dateColumn
        onPicked: id => root.file.choose("date", id)
    }
    ChoiceRow {
        visible: root.file.timeKind === ""
        label: qsTr("The date is written")
        choices: root.file.dateOrders
        chosen: root.file.dateOrder
        onPicked: id => root.file.choose("date-order", id)
    }
    ChoiceRow {
        label: qsTr("Cells are divided by")
        choices: root.file.separators
        chosen: root.file.separator
        onPicked: id => root.file.choose("separator", id)
    }
    ChoiceRow {
        label: qsTr("Decimal mark")
        choices: root.file.decimals
        chosen: root.file.decimal
        onPicked: id => root.file.choose("decimal", id)
    }
    NameField {
        label: qsTr("First line of readings")
        settles: true
        text: root.file.firstLine
        onCommitted: text => root.file.setFirstLine(text)
    }
    PickField {
        label: qsTr("Letters")
        choices: root.file.encodings
        chosen: root.file.encoding
        onPicked: id => root.file.choose("encoding", id)
    }
    SwitchRow {
        text: qsTr("Leave out lines that cannot be read")
        Layout.fillWidth: true
        on: root.file.leaveOut
        onToggled: root.file.setLeaveOut(!root.file.leaveOut)
    }
}
