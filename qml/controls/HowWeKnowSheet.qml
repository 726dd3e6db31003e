// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// How we know a figure of the strip: what it is, what weakens it, the readings behind it as bars of the variance.
BottomSheet {
    id: root
    required property ReadoutModel readout
    signal readingsAsked(string place)
    property int figure: ReadoutModel.Head
    property bool ofStrip: true // else the figure of a page, whose readings stand on it
    property string figureText

    function show(which: int, label: string, text: string) {
        figure = which
        ofStrip = true
        heading = label
        figureText = text
        statement.text = readout.statement(which)
        doubts.findings = readout.doubts(which)
        bars.model = readout.bars(which)
        advice.text = readout.advice(which)
        open()
    }
    /// Any other figure, with its bars and what to repeat.
    function showBudget(label: string, text: string, shares: var, repeat: string) {
        ofStrip = false
        heading = label
        figureText = text
        statement.text = ""
        doubts.findings = []
        bars.model = shares
        advice.text = repeat
        open()
    }
    heading: ""

    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: root.figureText
        font.pixelSize: Theme.figure
        font.bold: true
        fontSizeMode: Text.HorizontalFit
        wrapMode: Text.NoWrap
        minimumPixelSize: Theme.title
    }
    InkText {
        id: statement
        Layout.fillWidth: true
        visible: text !== ""
    }
    FindingList {
        id: doubts
        findings: []
    }
    InkText {
        Layout.fillWidth: true
        visible: bars.count > 0
        text: qsTr("What the ± is made of")
        font.bold: true
        Accessible.role: Accessible.Heading
    }
    Repeater {
        id: bars
        ShareBar {
            required property var modelData // BudgetBar
            label: modelData.label
            part: modelData.part
            share: modelData.share
            percent: modelData.percent
        }
    }
    InkText {
        id: advice
        Layout.fillWidth: true
        visible: text !== ""
        color: Theme.action
        font.bold: true
    }
    PlainButton {
        Layout.fillWidth: true
        visible: root.ofStrip
        text: qsTr("Show the readings behind it")
        iconName: "next"
        onClicked: {
            root.close()
            root.readingsAsked(root.figure === ReadoutModel.Head ? "levels" : root.figure === ReadoutModel.Flow ? "flow" : "power")
        }
    }
    InkText {
        Layout.fillWidth: true
        text: qsTr("± is two standard uncertainties: about 95 in 100 such results lie within it (JCGM 100:2008).")
        color: Theme.quietInk
        font.pixelSize: Theme.small
    }
}
