// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The pages behind the chain.
GridLayout {
    id: root
    signal asked(string page)
    Layout.fillWidth: true
    columns: width > 560 ? 2 : 1
    columnSpacing: Theme.space
    rowSpacing: Theme.space
    Repeater {
        model: [{ id: "pressure", label: qsTr("Pressure along the pipe") }, { id: "compare", label: qsTr("Alternatives side by side") },
            { id: "trial", label: qsTr("What if") }, { id: "year", label: qsTr("The year") }, { id: "money", label: qsTr("The economic pipe") }]
        PlainButton {
            required property var modelData // { id, label }
            Layout.fillWidth: true
            text: modelData.label
            iconName: "next"
            onClicked: root.asked(modelData.id)
        }
    }
}
