// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Staff gauge and rating: the visits, the curve with its interval, the reading at which the flow ceases.
PanelCard {
    id: root
    required property SeasonModel season
    required property bool readOnly
    heading: qsTr("Staff gauge and rating")

    ReasonSheet {
        id: aside
        heading: qsTr("Leave this test out")
        resumeName: "season-set-aside"
        onGiven: (id, why) => root.season.setAside(id, why)
    }
    FlowPlot {
        id: plot
        visible: root.season.gauged.length > 0
        name: qsTr("Rating: flow over the staff gauge reading")
        lines: [{ points: root.season.ratingLower, ink: Theme.rule }, { points: root.season.ratingUpper, ink: Theme.rule },
            { points: root.season.ratingCurve, ink: Theme.water }]
        dots: root.season.gauged
        unit: root.season.flowUnit
        acrossName: qsTr("staff gauge, %1").arg(root.season.lengthUnit)
        onTouched: across => told.text = root.season.ratingAt(across)
    }
    InkText {
        id: told
        Layout.fillWidth: true
        visible: root.season.ratingText !== ""
        text: qsTr("Touch the curve to read it. The grey lines hold about 95 of 100 visits.")
        color: Theme.quietInk
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.season.ratingText
    }
    FindingList { findings: root.season.ratingFindings }
    Repeater {
        model: root.season.visits
        PressArea {
            id: one
            required property var modelData // GaugeVisitItem
            Layout.fillWidth: true
            enabled: !root.readOnly
            text: modelData.counts ? qsTr("Leave out %1").arg(modelData.text) : qsTr("Take in again %1").arg(modelData.text)
            fill: Theme.paper
            leftPadding: Theme.gap
            onClicked: modelData.counts ? aside.show(modelData.id, modelData.text, false) : root.season.setAside(modelData.id, "")
            contentItem: ColumnLayout {
                spacing: 0
                InkText {
                    Layout.fillWidth: true
                    text: one.modelData.text
                    font.strikeout: !one.modelData.counts
                    Accessible.ignored: true
                }
                InkText {
                    Layout.fillWidth: true
                    text: one.modelData.detail
                    color: Theme.quietInk
                    font.pixelSize: Theme.small
                    Accessible.ignored: true
                }
            }
        }
    }
    EntryFields {
        form: root.season.zeroForm
        doneText: qsTr("done")
        onAsked: root.season.keepZero()
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Use this reading for no flow")
        iconName: "check"
        enabled: root.season.zeroForm.complete && !root.readOnly
        onClicked: root.season.keepZero()
    }
}
