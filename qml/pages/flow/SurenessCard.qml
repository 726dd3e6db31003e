// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// How sure a gauging is: both sections, both ways to judge the doubt, and what would lessen it most.
PanelCard {
    id: root
    required property GaugingModel gauging
    heading: qsTr("How sure is it?")

    Repeater {
        model: root.gauging.comparison
        InkText {
            required property string modelData
            Layout.fillWidth: true
            text: modelData
        }
    }
    InkText {
        Layout.fillWidth: true
        visible: root.gauging.improvements.length > 0
        text: qsTr("What would make it surer, the most helpful first:")
        font.bold: true
    }
    FindingList { findings: root.gauging.improvements }
}
