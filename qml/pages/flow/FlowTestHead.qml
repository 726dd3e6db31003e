// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Head of a test page: back, name, live result, what speaks against it.
ColumnLayout {
    id: root
    required property FlowModel flow
    Layout.fillWidth: true
    spacing: Theme.space

    RowLayout {
        Layout.fillWidth: true
        IconButton {
            text: qsTr("Back to the flow tests")
            iconName: "back"
            onClicked: root.flow.test = ""
        }
        NameField {
            Layout.fillWidth: true
            label: qsTr("Name of this test")
            draft: "flow-test/name"
            settles: true
            text: root.flow.testName
            onCommitted: text => root.flow.renameTest(text)
        }
    }
    InkText {
        Layout.fillWidth: true
        text: root.flow.result.known ? root.flow.result.value + " " + root.flow.result.unit : "–"
        font.pixelSize: Theme.figure
        font.bold: true
        Accessible.name: qsTr("Result %1").arg(root.flow.result.known ? root.flow.result.text : qsTr("not known yet"))
    }
    InkText {
        Layout.fillWidth: true
        visible: root.flow.result.known
        text: root.flow.result.plusMinus
        font.pixelSize: Theme.title
        color: Theme.quietInk
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.flow.resultDetail
        color: Theme.quietInk
    }
    StageField { flow: root.flow }
}
