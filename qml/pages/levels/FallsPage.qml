// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// What was measured, how it fits together, and the profile that follows; two of them side by side on a wide window.
Item {
    id: root
    required property AppModel app
    readonly property FallsModel falls: app.falls

    MeasureSheet {
        id: measure
        app: root.app
    }
    TwoPanes {
        anchors { left: parent.left; right: parent.right; top: parent.top; bottom: bar.top }
        both: root.width >= Theme.twoPanes
        secondWanted: root.falls.view === "profile"
        share: 0.45
        first: ColumnLayout {
            anchors.fill: parent
            spacing: 0
            ChoiceRow {
                Layout.margins: Theme.edge
                Layout.bottomMargin: 0
                label: ""
                choices: root.width >= Theme.twoPanes
                    ? [{ id: "ways", label: qsTr("Ways") }, { id: "evidence", label: qsTr("Evidence") }]
                    : [{ id: "ways", label: qsTr("Ways") }, { id: "evidence", label: qsTr("Evidence") }, { id: "profile", label: qsTr("Profile") }]
                chosen: root.falls.view === "evidence" ? "evidence" : "ways"
                onPicked: id => root.falls.view = id
            }
            WaysList {
                Layout.fillWidth: true
                Layout.fillHeight: true
                visible: root.falls.view !== "evidence"
                app: root.app
            }
            EvidenceList {
                Layout.fillWidth: true
                Layout.fillHeight: true
                visible: root.falls.view === "evidence"
                app: root.app
            }
        }
        second: FallProfile {
            anchors.fill: parent
            falls: root.falls
            narrow: root.width < Theme.twoPanes
        }
    }
    ActionButton {
        id: bar
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; leftMargin: Theme.edge; rightMargin: Theme.edge; bottomMargin: Theme.space }
        text: qsTr("Measure a fall")
        enabled: !root.app.readOnly
        onClicked: measure.open()
    }
}
