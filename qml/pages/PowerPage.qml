// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Power: water to wire as one column, link by link; the profile below, or beside it on a wide window.
Item {
    id: root
    required property AppModel app
    readonly property PowerModel power: app.power
    readonly property bool wide: width >= Theme.twoPanes
    readonly property bool profiled: power.ground.length > 1

    HowWeKnowSheet {
        id: howSheet
        readout: root.app.readout
    }
    LinkSheet {
        id: linkSheet
        power: root.power
    }
    PipeSheet {
        id: pipeSheet
        power: root.power
        study: root.app.study
        onSectionsAsked: sectionsSheet.open()
        onLayingAsked: plantSheet.show("laying")
    }
    PlantSheet {
        id: plantSheet
        plant: root.app.plant
    }
    SectionsSheet {
        id: sectionsSheet
        plant: root.app.plant
    }
    PressureSheet {
        id: pressureSheet
        pressure: root.app.pressure
    }
    CompareSheet {
        id: compareSheet
        power: root.power
        study: root.app.study
    }
    TrialSheet {
        id: trialSheet
        study: root.app.study
    }
    YearSheet {
        id: yearSheet
        study: root.app.study
        onAsked: text => howSheet.showBudget(qsTr("Energy of a mean year"), text, root.app.study.energyBars(), root.app.study.energyAdvice())
        onSeasonAsked: {
            root.app.season.open = true
            root.app.place = "flow"
        }
    }
    MoneySheet {
        id: moneySheet
        study: root.app.study
        onPricesAsked: plantSheet.show("prices")
    }
    AlternativeSheet {
        id: alternativeSheet
        power: root.power
    }
    TwoPanes {
        anchors.fill: parent
        both: root.wide && root.profiled
        first: ScrollPage {
            anchors.fill: parent
            RowLayout {
                Layout.fillWidth: true
                PickField {
                    label: qsTr("Alternative")
                    choices: root.power.alternatives
                    chosen: root.power.alternative
                    onPicked: id => root.power.alternative = id
                }
                IconButton {
                    text: qsTr("Alternatives: add, rename, strike out")
                    iconName: "more"
                    onClicked: alternativeSheet.open()
                }
            }
            LinkColumn {
                power: root.power
                onAsked: (key, label, value) => howSheet.showBudget(label, value, root.power.bars(key), root.power.advice(key))
                onPressed: key => {
                    if (key === "pipe")
                        pipeSheet.show()
                    else if (key === "intake" || key === "turbine" || key === "drive" || key === "generator")
                        plantSheet.show(key === "generator" ? "drive" : key)
                    else
                        linkSheet.show(key)
                }
            }
            FindingList { findings: root.power.findings }
            NextCard { study: root.app.study }
            StudyButtons {
                onAsked: page => ({ pressure: pressureSheet, compare: compareSheet, trial: trialSheet, year: yearSheet, money: moneySheet })[page].open()
            }
            Loader {
                Layout.fillWidth: true
                active: !root.wide && root.profiled
                visible: active
                sourceComponent: profile
            }
            InkText {
                Layout.fillWidth: true
                color: Theme.quietInk
                text: qsTr("A first estimate, not a design. Ampacity, protection and earthing are never computed here: the local code and a licensed electrician decide. Pressure pipe, structures in water and taking water need permits and qualified people.")
            }
        }
        second: Loader {
            anchors { fill: parent; margins: Theme.edge }
            active: root.wide && root.profiled
            sourceComponent: profile
        }
    }
    Component {
        id: profile
        ProfilePlot {
            ground: root.power.ground
            gradeLine: root.power.gradeLine
            lengthUnit: root.power.lengthUnit
        }
    }
}
