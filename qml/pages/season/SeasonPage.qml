// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// The creek through the year: staff gauge and rating, record of flows, how it comes to the site, low flows, months.
ScrollPage {
    id: root
    required property AppModel app
    readonly property SeasonModel season: app.season

    RowLayout {
        Layout.fillWidth: true
        IconButton {
            text: qsTr("Back to the flow tests")
            iconName: "back"
            onClicked: root.season.open = false
        }
        InkText {
            Layout.fillWidth: true
            text: qsTr("The season")
            font.pixelSize: Theme.title
            font.bold: true
            Accessible.role: Accessible.Heading
        }
    }
    YearCard { season: root.season }
    LeaveCard {
        flow: root.app.flow
        readOnly: root.app.readOnly
    }
    RatingCard {
        season: root.season
        readOnly: root.app.readOnly
    }
    RecordCard {
        season: root.season
        series: root.app.seriesImport
        readOnly: root.app.readOnly
    }
    TransferCard {
        season: root.season
        readOnly: root.app.readOnly
    }
}
