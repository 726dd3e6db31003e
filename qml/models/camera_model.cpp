// SPDX-License-Identifier: GPL-3.0-or-later
#include "camera_model.h"

#include "formatter.h"

using rillmark::Camera;

CameraModel::CameraModel(QObject* parent) : QObject(parent) {
    connect(&m_camera, &Camera::stateChanged, this, &CameraModel::changed);
    connect(&m_camera, &Camera::captured, this, [this](const std::vector<unsigned char>& picture) {
        m_picture = picture;
        m_failure.clear();
        emit taken();
    });
    connect(&m_camera, &Camera::captureFailed, this, [this](const rillmark::Finding& why) {
        m_failure = Formatter().finding(why).sentence;
        emit changed();
    });
}

QString CameraModel::problem() const {
    if (!m_failure.isEmpty())
        return m_failure;
    return m_camera.problem() ? Formatter().finding(*m_camera.problem()).sentence : QString();
}
