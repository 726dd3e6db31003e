// SPDX-License-Identifier: GPL-3.0-or-later
pragma Singleton
import QtQuick

/// The one source of colours, sizes and type. Ink on paper by day, paper on ink by night; text at least 7:1.
QtObject {
    // set once by Main.qml from the settings
    property bool night: false
    property real textScale: 1.0

    readonly property color paper: night ? "#101418" : "#fbfaf6"
    readonly property color card: night ? "#1b2127" : "#f1efe7"
    readonly property color pressed: night ? "#2a323a" : "#e2dfd3"
    readonly property color ink: night ? "#f4f1e8" : "#15181c"
    readonly property color quietInk: night ? "#c9cbcc" : "#40454b"
    readonly property color rule: night ? "#59626b" : "#8a8779"
    readonly property color action: night ? "#8fe0b8" : "#0a4a38"
    readonly property color inkOnAction: night ? "#0a1c15" : "#ffffff"
    readonly property color water: night ? "#9ccbf5" : "#0a4370"
    readonly property color warning: night ? "#ffc27a" : "#713600"
    readonly property color danger: night ? "#ffb4b4" : "#861022"
    readonly property color shade: night ? "#b0000000" : "#80000000"

    // spacing and sizes in device-independent pixels
    readonly property int space: 8
    readonly property int gap: 12
    readonly property int edge: 16
    readonly property int touch: 56
    readonly property int mainAction: 64
    readonly property int key: 64
    readonly property int place: 72
    readonly property int radius: 6
    readonly property int hairline: 1
    readonly property int stroke: 2
    readonly property int readable: 720 // widest column of text and fields

    // window widths at which the layout changes
    readonly property int twoPanes: 840
    readonly property int lowWindow: 560 // height
    readonly property int sideBar: 112

    // type, in pixels; follows the chosen text size
    readonly property int small: Math.round(14 * textScale)
    readonly property int smallestFit: 14 // of figures that shrink to fit their place
    readonly property int body: Math.round(16 * textScale)
    readonly property int label: Math.round(16 * textScale)
    readonly property int title: Math.round(20 * textScale)
    readonly property int readout: Math.round(22 * textScale)
    readonly property int figure: Math.round(40 * textScale)
}
