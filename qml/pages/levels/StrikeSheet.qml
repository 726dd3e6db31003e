// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The readings of one line: strike one out with a reason, take a strike-out back, or read it again in its place.
BottomSheet {
    id: root
    required property LevelsModel levels
    property int line: 0

    function show(which: int) {
        line = which
        resumeWith = String(which)
        readings.model = levels.sightsOfLine(which)
        open()
    }
    resumeName: "strike-line"
    function resume(given: string) {
        show(Number(given))
    }
    heading: qsTr("Line %1").arg(line + 1)
    Repeater {
        id: readings
        PanelCard {
            id: one
            required property var modelData // Choice
            readonly property bool struck: root.levels.isStruck(modelData.id)
            InkText {
                Layout.fillWidth: true
                text: one.modelData.label
                font.strikeout: one.struck
            }
            NameField {
                id: reason
                Layout.fillWidth: true
                visible: !one.struck
                label: qsTr("Reason for striking it out")
                draft: "strike-line/" + one.modelData.id
            }
            PlainButton {
                Layout.fillWidth: true
                visible: !one.struck
                enabled: reason.text.trim() !== ""
                text: qsTr("Strike out")
                iconName: "strike"
                onClicked: {
                    root.levels.strike(one.modelData.id, reason.text.trim())
                    reason.done()
                    root.close()
                }
            }
            PlainButton {
                Layout.fillWidth: true
                visible: one.struck
                text: qsTr("Read it again in this place")
                iconName: "levels"
                onClicked: {
                    root.levels.repeat(one.modelData.id)
                    root.close()
                }
            }
            PlainButton {
                Layout.fillWidth: true
                visible: one.struck
                text: qsTr("Take the strike-out back")
                iconName: "undo"
                onClicked: {
                    root.levels.restore(one.modelData.id)
                    root.close()
                }
            }
        }
    }
}
