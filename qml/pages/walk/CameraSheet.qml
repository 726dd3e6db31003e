// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import Rillmark.Ui

/// Takes a photo of the station in hand. The camera is only loaded while the sheet is open.
BottomSheet {
    id: root
    required property WalkModel walk

    function begin() {
        viewfinder.active = true
        open()
    }
    heading: qsTr("Take a photo")
    onClosed: viewfinder.active = false
    Loader {
        id: viewfinder
        Layout.fillWidth: true
        active: false
        source: "CameraView.qml"
        onLoaded: {
            const view = item as CameraView
            view.walk = root.walk
            view.begin()
        }
    }
}
