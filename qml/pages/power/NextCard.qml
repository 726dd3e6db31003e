// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// What to do next, and whether first order can be trusted.
PanelCard {
    id: root
    required property StudyModel study
    visible: study.next.length > 0
    heading: qsTr("What to do next")
    onVisibleChanged: drawIfSeen()
    Component.onCompleted: drawIfSeen()
    function drawIfSeen() {
        if (visible)
            study.draw()
    }
    Connections {
        target: root.study
        function onChanged() { root.drawIfSeen() }
    }
    FindingList { findings: root.study.next }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.study.drawn
        color: Theme.quietInk
    }
    InkText {
        Layout.fillWidth: true
        visible: root.study.working
        text: qsTr("Drawing: %1 %").arg(Math.round(root.study.progress * 100))
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.study.working || root.study.drawn === ""
        text: root.study.working ? qsTr("Stop the draws") : qsTr("Check the ± by 100,000 draws")
        iconName: root.study.working ? "close" : "check"
        onClicked: root.study.working ? root.study.stop() : root.study.draw()
    }
}
