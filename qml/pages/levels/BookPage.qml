// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The page of a level book: station, backsight, intermediate, foresight, rise, fall, reduced level.
Item {
    id: root
    required property LevelPageModel page
    property bool showSteps: false // rise and fall as well: needs a wide page
    signal linePressed(int line)

    BookLine {
        id: head
        width: parent.width
        header: true
        showSteps: root.showSteps
        point: qsTr("Point")
        backsight: qsTr("BS")
        intermediate: qsTr("IS")
        foresight: qsTr("FS")
        rise: qsTr("Rise")
        fall: qsTr("Fall")
        level: qsTr("Level")
        remark: ""
        spoken: qsTr("Columns: point, backsight, intermediate sight, foresight, reduced level")
    }
    ListView {
        id: list
        anchors { top: head.bottom; left: parent.left; right: parent.right; bottom: parent.bottom }
        clip: true
        model: root.page
        onCountChanged: positionViewAtEnd()
        delegate: BookLine {
            required property int index
            width: list.width
            showSteps: root.showSteps
            onClicked: root.linePressed(index)
        }
    }
}
