// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Logs a station: kind and name, while the position is averaged and its scatter drawn.
BottomSheet {
    id: root
    required property WalkModel walk
    property string kind: "intake"

    function begin() {
        name.text = walk.proposedName(kind)
        walk.startLogging()
        open()
    }
    resumeName: "log-station"
    resumeWith: kind
    function resume(given: string) {
        kind = given
        walk.startLogging()
        open()
    }
    onKindChanged: if (visible) keepOpen(kind)
    heading: qsTr("Log a station")
    onClosed: if (walk.logging) walk.cancelLogging()

    AveragingPanel { walk: root.walk }
    ChoiceRow {
        label: qsTr("Kind")
        choices: root.walk.kinds
        chosen: root.kind
        onPicked: id => {
            const untouched = name.text === "" || name.text === root.walk.proposedName(root.kind)
            root.kind = id
            if (untouched)
                name.text = root.walk.proposedName(id)
        }
    }
    NameField {
        id: name
        Layout.fillWidth: true
        label: qsTr("Name of the station")
        draft: "log-station/name"
    }
    CautionRow {
        text: qsTr("Look where you stand: wet stones and undercut banks. The position needs open sky, not the edge.")
    }
    ActionButton {
        Layout.fillWidth: true
        text: root.walk.scatter.length > 0 ? qsTr("Log the station here") : qsTr("Log it without a position")
        onClicked: {
            root.walk.logStation(root.kind, name.text)
            name.done()
            root.close()
        }
    }
}
