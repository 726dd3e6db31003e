// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// Two panes side by side where there is room for both, else the one that is wanted.
Item {
    id: root
    property bool both: false
    property bool secondWanted: false // which one shows where there is room for one
    property real share: 0.5          // of the width that the first takes beside the second
    property alias first: firstSlot.data
    property alias second: secondSlot.data

    Item {
        id: firstSlot
        visible: root.both || !root.secondWanted
        width: root.both ? Math.round(root.width * root.share) : root.width
        height: root.height
    }
    Rectangle {
        visible: root.both
        x: firstSlot.width
        width: Theme.hairline
        height: root.height
        color: Theme.rule
    }
    Item {
        id: secondSlot
        visible: root.both || root.secondWanted
        x: root.both ? firstSlot.width + Theme.hairline : 0
        width: root.width - x
        height: root.height
    }
}
