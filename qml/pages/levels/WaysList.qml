// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Level books and runs of the other methods; a press opens one.
ScrollPage {
    id: root
    required property AppModel app
    readonly property FallsModel falls: app.falls

    EmptyState {
        visible: ways.count === 0
        headline: qsTr("No fall measured yet")
        advice: qsTr("A level book is the best where the ground allows it. A water tube needs two people and no instrument, a hose with a gauge suits steep and overgrown banks, a clinometer or hand level gives a first figure. All of them go into one network.")
    }
    Repeater {
        id: ways
        model: root.falls.falls
        PressArea {
            id: one
            required property var modelData // FallItem
            Layout.fillWidth: true
            text: qsTr("%1, %2, %3").arg(modelData.name).arg(modelData.method).arg(modelData.result)
            fill: Theme.card
            leftPadding: Theme.gap
            onClicked: {
                if (modelData.book)
                    root.app.levels.book = modelData.id
                else
                    root.app.heightRun.run = modelData.id
                root.falls.view = modelData.book ? "book" : "run"
            }
            contentItem: ColumnLayout {
                spacing: 0
                InkText {
                    Layout.fillWidth: true
                    text: one.modelData.name
                    font.bold: true
                    font.strikeout: one.modelData.struck
                    Accessible.ignored: true
                }
                InkText {
                    Layout.fillWidth: true
                    text: one.modelData.result
                    font.pixelSize: Theme.title
                    font.strikeout: one.modelData.struck
                    Accessible.ignored: true
                }
                InkText {
                    Layout.fillWidth: true
                    text: qsTr("%1, %2").arg(one.modelData.method).arg(one.modelData.when)
                    color: Theme.quietInk
                    font.pixelSize: Theme.small
                    Accessible.ignored: true
                }
            }
        }
    }
}
