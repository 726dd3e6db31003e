// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The pipe: length and fittings, and what each size comes to.
BottomSheet {
    id: root
    required property PowerModel power
    required property StudyModel study
    signal sectionsAsked
    signal layingAsked

    function show() {
        power.load()
        open()
    }
    resumeName: "pipe"
    function resume(given: string) {
        open() // with what was half typed
    }
    heading: qsTr("Pipe")
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.power.pipeSource
        color: Theme.quietInk
        font.pixelSize: Theme.small
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Length empty: along the stations of the pipe line. Fittings empty: K = 2.")
    }
    EntryFields {
        form: root.power.pipeForm
        doneText: qsTr("done")
    }
    EntryFields {
        form: root.power.waterForm
        doneText: qsTr("done")
    }
    ActionButton {
        Layout.fillWidth: true
        text: qsTr("Use these values")
        enabled: root.power.pipeForm.complete && root.power.waterForm.complete
        onClicked: {
            if (root.power.store())
                root.close()
        }
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.study.greatest
        color: Theme.quietInk
    }
    FactList { facts: root.visible ? root.power.pipeFacts : [] }
    InkText {
        Layout.fillWidth: true
        visible: root.power.pipeFacts.length > 0
        color: Theme.quietInk
        font.pixelSize: Theme.small
        text: qsTr("Roughness grows evenly with the years (Colebrook and White 1937, from memory, unconfirmed), from the value of new to that of aged walls in 30 years (our own choice). Slime and lime are not in it. Some textbooks print Fanning's friction factor, a quarter of Darcy's, which is used here.")
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Sections and fittings")
        iconName: "next"
        onClicked: {
            root.close()
            root.sectionsAsked()
        }
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Laying and closing")
        iconName: "next"
        onClicked: {
            root.close()
            root.layingAsked()
        }
    }
    ChoiceRow {
        label: qsTr("Material")
        choices: root.power.materials
        chosen: root.power.material
        onPicked: id => root.power.material = id
    }
    Repeater {
        model: root.visible ? root.power.sizes : []
        PressArea {
            id: one
            required property var modelData // SizeItem
            Layout.fillWidth: true
            text: qsTr("%1: speed %2, loss %3, %4").arg(modelData.label).arg(modelData.speed).arg(modelData.loss).arg(modelData.watts)
            fill: Theme.card
            frame: modelData.chosen ? Theme.action : "transparent"
            leftPadding: Theme.gap
            onClicked: root.power.choosePipe(modelData.id)
            contentItem: ColumnLayout {
                spacing: 0
                RowLayout {
                    Layout.fillWidth: true
                    InkText {
                        Layout.fillWidth: true
                        text: (one.modelData.chosen ? "✓ " : "") + one.modelData.label
                        font.bold: one.modelData.chosen
                        Accessible.ignored: true
                    }
                    InkText {
                        Layout.alignment: Qt.AlignTop
                        text: one.modelData.watts
                        wrapMode: Text.NoWrap
                        font.bold: true
                        Accessible.ignored: true
                    }
                }
                InkText {
                    Layout.fillWidth: true
                    text: qsTr("speed %1, loss %2").arg(one.modelData.speed).arg(one.modelData.loss)
                    color: Theme.quietInk
                    font.pixelSize: Theme.small
                    Accessible.ignored: true
                }
                InkText {
                    Layout.fillWidth: true
                    visible: text !== ""
                    text: one.modelData.note
                    color: Theme.warning
                    font.pixelSize: Theme.small
                    Accessible.ignored: true
                }
            }
        }
    }
}
