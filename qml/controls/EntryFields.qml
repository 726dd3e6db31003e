// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The fields of an entry form: numbers open the keypad sheet, text is typed in place. `asked` when the last is done.
GridLayout {
    id: root
    required property EntryForm form
    property string doneText: qsTr("Done")
    signal asked

    Layout.fillWidth: true
    columns: width > 560 ? 2 : 1
    columnSpacing: Theme.space
    rowSpacing: Theme.space

    KeypadSheet {
        id: keypad
        form: root.form
        doneText: root.doneText
        onDone: root.asked()
    }
    Repeater {
        model: root.form
        Loader {
            id: field
            required property int index
            required property string label
            required property bool numeric
            required property string typed
            required property string understood
            required property string problem
            required property bool required
            Layout.fillWidth: true
            Layout.preferredWidth: 1
            Layout.alignment: Qt.AlignTop
            sourceComponent: numeric ? numberField : textField
            Component {
                id: numberField
                NumberBox {
                    label: field.label
                    typed: field.typed
                    understood: field.understood
                    problem: field.problem
                    optional: !field.required
                    onClicked: keypad.edit(field.index)
                }
            }
            Component {
                id: textField
                NameField {
                    label: field.label
                    text: field.typed
                    onTextEdited: root.form.setTyped(field.index, text)
                    onAccepted: root.asked()
                }
            }
        }
    }
}
