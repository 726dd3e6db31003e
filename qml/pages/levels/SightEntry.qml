// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Rillmark.Ui

/// The entry of the next sight beside the page, on a wide window.
ScrollPage {
    id: root
    required property LevelsModel levels
    SightFields { levels: root.levels }
    FindingList { findings: root.levels.findings }
}
