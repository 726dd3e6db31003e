// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Shapes
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

    Shape {
        width: 24
        height: 24
        scale: root.size / 24
        transformOrigin: Item.TopLeft
        ShapePath {
            strokeColor: root.ink
            strokeWidth: 2
            fillColor: "transparent"
            capStyle: ShapePath.RoundCap
            joinStyle: ShapePath.RoundJoin
            PathSvg { path: IconPaths.path(root.name) }
        }
    }
}
