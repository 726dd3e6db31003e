// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// Flow: the tests and the flow to use; a test or the season opens its own page, beside the list on a wide window.
TwoPanes {
    id: root
    required property AppModel app
    readonly property FlowModel flow: app.flow
    readonly property bool inTest: flow.testName !== ""
    readonly property bool inSecond: inTest || app.season.open

    both: width >= Theme.twoPanes && inSecond
    secondWanted: inSecond
    share: 0.45
    first: FlowTestsPage {
        anchors.fill: parent
        app: root.app
    }
    second: Loader {
        anchors.fill: parent
        active: root.inSecond
        sourceComponent: !root.inTest ? season : root.flow.method === "velocity-area" ? gauging : root.flow.method === "container" ? container : run
    }
    Component {
        id: season
        SeasonPage { app: root.app }
    }
    Component {
        id: container
        ContainerPage { app: root.app }
    }
    Component {
        id: run
        FlowRunPage { app: root.app }
    }
    Component {
        id: gauging
        VelocityAreaPage { app: root.app }
    }
}
