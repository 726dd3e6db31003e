// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Rillmark.Ui

/// Our keypad: digits at least 64 dp, decimal mark, sign, the unit keys that fit the field, "as before", and "next" to walk
/// through the numbers of a row without closing it. A hardware keyboard types into the same field.
BottomSheet {
    id: root
    required property EntryForm form
    property string doneText: qsTr("Done")
    property int row: 0
    signal done

    function edit(which: int) {
        row = which
        open()
        fetch()
    }
    function fetch() {
        const spot = probe.itemAt(row) as KeypadProbe
        heading = spot.label
        field.text = spot.typed
        field.selectAll()
        field.forceActiveFocus()
    }
    function next() {
        for (let i = row + 1; i < form.count; ++i) {
            if ((probe.itemAt(i) as KeypadProbe).numeric) {
                row = i
                fetch()
                return
            }
        }
        close()
        done()
    }
    function put(text: string) {
        if (field.selectedText !== "")
            field.remove(field.selectionStart, field.selectionEnd)
        field.insert(field.cursorPosition, text)
        field.textEdited()
    }
    heading: ""
    onClosed: field.focus = false

    readonly property KeypadProbe at: probe.count > row ? probe.itemAt(row) as KeypadProbe : null
    readonly property bool lastNumber: {
        for (let i = row + 1; i < probe.count; ++i)
            if ((probe.itemAt(i) as KeypadProbe)?.numeric)
                return false
        return true
    }

    Repeater {
        id: probe
        model: root.form
        KeypadProbe {}
    }
    QuietInput { target: field }
    T.TextField {
        id: field
        Layout.fillWidth: true
        implicitHeight: Math.max(Theme.touch, contentHeight + 2 * Theme.space)
        padding: Theme.space
        font.pixelSize: Theme.figure
        font.bold: true
        color: Theme.ink
        selectionColor: Theme.action
        selectedTextColor: Theme.inkOnAction
        selectByMouse: true
        Accessible.role: Accessible.EditableText
        Accessible.name: qsTr("%1, typing").arg(root.heading)
        onTextEdited: root.form.setTyped(root.row, text)
        onAccepted: root.next()
        background: Rectangle {
            color: Theme.paper
            radius: Theme.radius
            border.width: Theme.stroke
            border.color: Theme.action
        }
    }
    InkText {
        Layout.fillWidth: true
        Layout.minimumHeight: Theme.body * 1.5
        text: root.at ? (root.at.problem !== "" ? root.at.problem : root.at.understood !== "" ? "= " + root.at.understood : "") : ""
        color: root.at && root.at.problem !== "" ? Theme.danger : Theme.quietInk
    }
    RowLayout {
        Layout.fillWidth: true
        spacing: Theme.space
        Repeater {
            model: root.at ? root.at.unitKeys : []
            KeypadKey {
                required property string modelData
                text: modelData
                onClicked: root.put(" " + modelData)
            }
        }
        KeypadKey {
            visible: root.at !== null && root.at.asBefore !== ""
            text: qsTr("as before")
            onClicked: {
                field.text = root.form.before(root.row)
                field.textEdited()
            }
        }
    }
    GridLayout {
        Layout.fillWidth: true
        columns: 4
        columnSpacing: Theme.space
        rowSpacing: Theme.space
        Repeater {
            model: ["7", "8", "9", "⌫", "4", "5", "6", "−", "1", "2", "3", ",", "0", "00", ".", "⏎"]
            KeypadKey {
                required property string modelData
                readonly property bool isNext: modelData === "⏎"
                text: modelData === "⌫" ? qsTr("erase") : isNext ? (root.lastNumber ? root.doneText : qsTr("next")) : modelData
                wide: isNext
                onClicked: {
                    if (isNext)
                        root.next()
                    else if (modelData === "⌫") {
                        if (field.selectedText !== "")
                            field.remove(field.selectionStart, field.selectionEnd)
                        else
                            field.remove(field.cursorPosition - 1, field.cursorPosition)
                        field.textEdited()
                    } else
                        root.put(modelData)
                }
            }
        }
    }
}
