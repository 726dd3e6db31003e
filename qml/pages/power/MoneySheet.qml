// SPDX-License-Identifier: GPL-3.0-or-later
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Money, if it is wanted: what each priced size of pipe costs to build and in energy lost.
BottomSheet {
    id: root
    required property StudyModel study
    property string pipe
    signal pricesAsked
    resumeName: "money"
    heading: qsTr("The economic pipe")

    InkText {
        Layout.fillWidth: true
        text: qsTr("Prices are those that you were told, in any one currency. Nothing is looked up.")
    }
    PlainButton {
        Layout.fillWidth: true
        text: qsTr("Currency, price of energy, years, interest")
        iconName: "next"
        onClicked: {
            root.close()
            root.pricesAsked()
        }
    }
    PickField {
        label: qsTr("Size of pipe")
        choices: root.study.priceable
        chosen: root.pipe
        onPicked: id => root.pipe = id
    }
    EntryFields {
        form: root.study.priceForm
        doneText: qsTr("done")
    }
    PlainButton {
        Layout.fillWidth: true
        enabled: root.pipe !== "" && root.study.priceForm.complete
        text: qsTr("Keep this price")
        iconName: "add"
        onClicked: root.study.addPrice(root.pipe)
    }
    FactList { facts: root.visible ? root.study.totals : [] }
    InkText {
        Layout.fillWidth: true
        visible: sizes.count > 0
        text: qsTr("The economic diameter")
        font.bold: true
        Accessible.role: Accessible.Heading
    }
    Repeater {
        id: sizes
        model: root.visible ? root.study.money : []
        ColumnLayout {
            id: one
            required property var modelData // PriceItem
            Layout.fillWidth: true
            spacing: 0
            InkText {
                Layout.fillWidth: true
                text: one.modelData.cheapest ? qsTr("✓ %1: cheapest together").arg(one.modelData.label) : one.modelData.label
                font.bold: one.modelData.cheapest
            }
            InkText {
                Layout.fillWidth: true
                text: one.modelData.detail
                color: Theme.quietInk
            }
        }
    }
    FindingList { findings: root.visible ? root.study.moneyFindings : [] }
    InkText {
        Layout.fillWidth: true
        color: Theme.quietInk
        text: qsTr("Cost of pipe and trench, and the present worth of the energy that the pipe loses. Left out: repair, pressure class, anchors, and what a larger turbine would bring.")
    }
}
