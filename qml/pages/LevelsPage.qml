// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// Levels: every way to measure a fall; a level book or a run of another method opens its own page.
Item {
    id: root
    required property AppModel app
    readonly property string view: app.falls.view

    Loader {
        anchors.fill: parent
        active: root.view === "book"
        sourceComponent: LevelBookPage { app: root.app }
    }
    Loader {
        anchors.fill: parent
        active: root.view === "run"
        sourceComponent: HeightRunPage { app: root.app }
    }
    Loader {
        anchors.fill: parent
        active: root.view !== "book" && root.view !== "run"
        sourceComponent: FallsPage { app: root.app }
    }
}
