// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// What to do first where there is nothing yet.
ColumnLayout {
    id: root
    required property string headline
    required property string advice
    Layout.fillWidth: true
    Layout.margins: Theme.edge
    spacing: Theme.space
    InkText {
        Layout.fillWidth: true
        text: root.headline
        font.pixelSize: Theme.title
        font.bold: true
    }
    InkText {
        Layout.fillWidth: true
        text: root.advice
    }
}
