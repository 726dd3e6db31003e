// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// What a logger brought, as a whole: the two ends are drawn to the part that belongs to the test, and that is taken.
ColumnLayout {
    id: root
    required property FlowRunModel run
    readonly property LoggedTrace logged: run.logged
    Layout.fillWidth: true
    spacing: Theme.space

    InkText {
        Layout.fillWidth: true
        text: root.logged.storing ? qsTr("Being written to the file…") : root.logged.summary
    }
    WavePlot {
        Layout.fillWidth: true
        Layout.preferredHeight: 260
        points: root.logged.points
        from: root.logged.from
        to: root.logged.to
        startName: qsTr("First reading to take")
        endName: qsTr("Last reading to take")
        enabled: !root.logged.storing
        onMoved: (from, to) => root.logged.setPart(from, to)
    }
    FindingList { findings: root.logged.findings }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Take these readings")
        iconName: "check"
        enabled: root.logged.fits && !root.logged.storing
        onClicked: root.logged.take(root.run.test, root.run.part)
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Put the logger's file away")
        iconName: "close"
        enabled: !root.logged.storing
        onClicked: root.logged.drop()
    }
}
