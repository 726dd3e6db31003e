// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// An icon alone; `text` is its accessible name.
PressArea {
    id: root
    required property string iconName
    contentItem: Item {
        implicitWidth: 24
        implicitHeight: 24
        InkIcon {
            anchors.centerIn: parent
            name: root.iconName
            ink: root.ink
        }
    }
}
