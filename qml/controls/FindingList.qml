// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The findings of a result, worst first as the presenter gives them.
Column {
    id: root
    required property var findings // list of FindingText gadgets
    Layout.fillWidth: true
    spacing: Theme.space
    visible: repeater.count > 0
    Repeater {
        id: repeater
        model: root.findings
        FindingRow {
            required property var modelData // FindingText
            width: root.width
            sentence: modelData.sentence
            source: modelData.source
            severity: modelData.severity
        }
    }
}
