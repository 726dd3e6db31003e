// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The staff gauge at a test: what was read, and the field for it.
ColumnLayout {
    id: root
    required property FlowModel flow
    Layout.fillWidth: true
    spacing: Theme.space

    InkText {
        Layout.fillWidth: true
        text: root.flow.stageText !== "" ? root.flow.stageText : qsTr("Read the staff gauge before and after: with it this test becomes part of the rating.")
        color: Theme.quietInk
    }
    EntryFields {
        form: root.flow.stageForm
        doneText: qsTr("keep")
        onAsked: root.flow.keepStage()
    }
}
