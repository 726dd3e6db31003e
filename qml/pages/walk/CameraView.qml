// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Layouts
import QtMultimedia
import Rillmark.Ui

/// The viewfinder and the shutter.
ColumnLayout {
    id: root
    property WalkModel walk

    function begin() {
        camera.viewfinder = picture
        camera.start()
    }
    CameraModel {
        id: camera
        onTaken: root.walk.addPictureFrom(camera)
    }
    VideoOutput {
        id: picture
        Layout.fillWidth: true
        Layout.preferredHeight: width * 0.75
        visible: camera.ready
        Accessible.role: Accessible.Graphic
        Accessible.name: qsTr("Picture of the camera")
    }
    InkText {
        Layout.fillWidth: true
        visible: text !== ""
        text: camera.problem
        color: Theme.danger
    }
    ActionButton {
        Layout.fillWidth: true
        text: qsTr("Release the shutter")
        enabled: camera.ready
        onClicked: camera.take()
    }
}
