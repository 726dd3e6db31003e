// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// While another copy is taken in: the site is closed for that long.
ScrollPage {
    EmptyState {
        headline: qsTr("Taking in the other copy")
        advice: qsTr("The site opens again by itself. If the device stops now, the site is found either as it was or whole with the other copy, never between.")
    }
}
