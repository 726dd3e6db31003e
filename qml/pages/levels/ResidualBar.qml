// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// A residual from the middle outwards; the ends are the limit for outliers.
Item {
    id: root
    required property double share // -1..1
    required property bool outlier
    implicitHeight: Theme.space
    Accessible.ignored: true
    Rectangle {
        anchors { left: parent.left; right: parent.right; verticalCenter: parent.verticalCenter }
        height: Theme.hairline
        color: Theme.rule
    }
    Rectangle {
        x: root.share < 0 ? parent.width / 2 * (1 + root.share) : parent.width / 2
        width: Math.max(2, parent.width / 2 * Math.abs(root.share))
        height: parent.height
        color: root.outlier ? Theme.danger : Theme.water
    }
}
