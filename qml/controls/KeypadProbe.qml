// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// Gives the keypad the roles of one row of the form; shows nothing.
Item {
    required property string label
    required property bool numeric
    required property string typed
    required property string understood
    required property string problem
    required property string asBefore
    required property list<string> unitKeys
    visible: false
}
