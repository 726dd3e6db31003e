// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// A stroke icon of ours, 24 x 24, drawn in the given ink.
Item {
    id: root
    property string name
    property color ink: Theme.ink
    property int size: 24

    implicitWidth: size
    implicitHeight: size
    Accessible.ignored: true

    StrokeIcon {
        width: root.size
        height: root.size
        name: root.name
        ink: root.ink
    }
}
