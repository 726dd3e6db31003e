// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// All evidence of height, by method, each with its residual as a bar against the limit for outliers.
ScrollPage {
    id: root
    required property AppModel app
    readonly property FallsModel falls: app.falls

    InkText {
        Layout.fillWidth: true
        text: root.falls.fit
        font.bold: true
    }
    FindingList { findings: root.falls.findings }
    Repeater {
        model: root.visible ? root.falls.evidence : []
        ColumnLayout {
            id: line
            required property var modelData // EvidenceItem
            Layout.fillWidth: true
            spacing: Theme.space
            InkText {
                Layout.fillWidth: true
                visible: line.modelData.group !== ""
                text: line.modelData.group
                font.pixelSize: Theme.title
                font.bold: true
                Accessible.role: Accessible.Heading
            }
            PressArea {
                id: one
                Layout.fillWidth: true
                text: qsTr("%1, residual %2").arg(line.modelData.text).arg(line.modelData.residual)
                fill: Theme.card
                frame: line.modelData.outlier ? Theme.danger : "transparent"
                leftPadding: Theme.gap
                rightPadding: Theme.gap
                onClicked: {
                    if (line.modelData.id === "") {
                        root.app.place = "walk"
                        return
                    }
                    if (line.modelData.book)
                        root.app.levels.book = line.modelData.id
                    else
                        root.app.heightRun.run = line.modelData.id
                    root.falls.view = line.modelData.book ? "book" : "run"
                }
                contentItem: Column {
                    spacing: 2
                    RowLayout {
                        width: parent.width
                        InkText {
                            Layout.fillWidth: true
                            text: line.modelData.text
                            font.strikeout: line.modelData.struck
                            Accessible.ignored: true
                        }
                        InkText {
                            Layout.alignment: Qt.AlignTop
                            text: line.modelData.residual
                            font.bold: true
                            wrapMode: Text.NoWrap
                            Accessible.ignored: true
                        }
                    }
                    ResidualBar {
                        width: parent.width
                        visible: !line.modelData.struck
                        share: line.modelData.bar
                        outlier: line.modelData.outlier
                    }
                    InkText {
                        width: parent.width
                        text: line.modelData.detail
                        color: line.modelData.outlier ? Theme.danger : Theme.quietInk
                        font.pixelSize: Theme.small
                        Accessible.ignored: true
                    }
                }
            }
        }
    }
}
