// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// A run of any way to measure a fall but the level book: result and readings, and the entry of the next one.
Item {
    id: root
    required property AppModel app
    readonly property HeightRunModel run: app.heightRun

    TwoPanes {
        anchors.fill: parent
        both: root.width >= Theme.twoPanes || root.width > 1.4 * root.height
        share: 0.5
        first: ScrollPage {
            anchors.fill: parent
            HeightRunHead { app: root.app }
            ColumnLayout {
                Layout.fillWidth: true
                visible: !twoPanes.visible
                spacing: Theme.gap
                HeightReadingEntry {
                    visible: parent.visible
                    app: root.app
                }
            }
            FindingList { findings: root.run.findings }
            ReadingList {
                readings: root.run.readings
                resumeName: "strike-height-reading"
                onStruckOut: (id, why) => root.run.strikeReading(id, why)
                onTakenBack: id => root.run.restoreReading(id)
            }
        }
        second: ScrollPage {
            id: twoPanes
            anchors.fill: parent
            visible: root.width >= Theme.twoPanes || root.width > 1.4 * root.height
            HeightReadingEntry {
                visible: twoPanes.visible
                app: root.app
            }
        }
    }
}
