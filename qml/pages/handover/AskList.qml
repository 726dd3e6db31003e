// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// What the designer will ask for, each done, thin or missing; a tap leads to where it is mended or asks for the answer.
ColumnLayout {
    id: root
    required property AppModel app
    readonly property HandoverModel handover: app.handover
    spacing: Theme.gap

    AskSheet {
        id: sheet
        handover: root.handover
        onPlaceAsked: place => root.app.place = place
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("Ready for the designer?")
        font.pixelSize: Theme.title
        font.bold: true
        Accessible.role: Accessible.Heading
    }
    InkText {
        Layout.fillWidth: true
        text: root.handover.tally
    }
    Repeater {
        model: root.handover.asks
        RowLayout {
            id: one
            required property var modelData // AskItem
            readonly property string stateWord: [qsTr("done"), qsTr("thin"), qsTr("missing"), qsTr("not needed")][modelData.state]
            readonly property color stateInk: [Theme.action, Theme.warning, Theme.danger, Theme.quietInk][modelData.state]
            readonly property string detail: modelData.why !== "" ? modelData.why : modelData.answer
            Layout.fillWidth: true
            spacing: Theme.space
            PressArea {
                Layout.fillWidth: true
                text: qsTr("%1: %2. %3").arg(one.modelData.label).arg(one.stateWord).arg(one.detail)
                fill: Theme.card
                leftPadding: Theme.gap
                rightPadding: Theme.gap
                onClicked: {
                    if (one.modelData.place === "handover" || one.modelData.state === 3)
                        sheet.show(one.modelData.key)
                    else
                        root.app.place = one.modelData.place
                }
                contentItem: RowLayout {
                    spacing: Theme.gap
                    InkIcon {
                        name: ["done", "thin", "missing", "strike"][one.modelData.state]
                        ink: one.stateInk
                    }
                    ColumnLayout {
                        Layout.fillWidth: true
                        spacing: 0
                        InkText {
                            Layout.fillWidth: true
                            text: one.modelData.label
                            font.bold: true
                            font.strikeout: one.modelData.state === 3
                            Accessible.ignored: true
                        }
                        InkText {
                            Layout.fillWidth: true
                            visible: text !== ""
                            text: one.detail
                            color: Theme.quietInk
                            font.pixelSize: Theme.small
                            Accessible.ignored: true
                        }
                    }
                    InkText {
                        text: one.stateWord
                        color: one.stateInk
                        font.bold: true
                        Accessible.ignored: true
                    }
                }
            }
            IconButton {
                text: qsTr("Answer or strike out: %1").arg(one.modelData.label)
                iconName: "edit"
                enabled: !root.app.readOnly
                onClicked: sheet.show(one.modelData.key)
            }
        }
    }
}
