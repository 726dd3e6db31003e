// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Flow: the tests and the flow to use; a test opens its own page.
Item {
    id: root
    required property AppModel app
    readonly property FlowModel flow: app.flow
    readonly property bool inTest: flow.testName !== ""
    readonly property bool wide: width >= Theme.twoPanes

    RowLayout {
        anchors.fill: parent
        spacing: 0
        FlowTestsPage {
            Layout.fillWidth: true
            Layout.fillHeight: true
            Layout.preferredWidth: 1
            visible: root.wide || !root.inTest
            app: root.app
        }
        Rectangle {
            Layout.fillHeight: true
            visible: root.wide && root.inTest
            implicitWidth: Theme.hairline
            color: Theme.rule
        }
        Loader {
            Layout.fillWidth: true
            Layout.fillHeight: true
            Layout.preferredWidth: 1
            active: root.inTest
            visible: active
            sourceComponent: root.flow.method === "velocity-area" ? gauging : container
        }
    }
    Component {
        id: container
        ContainerPage {
            app: root.app
        }
    }
    Component {
        id: gauging
        VelocityAreaPage {
            app: root.app
        }
    }
}
