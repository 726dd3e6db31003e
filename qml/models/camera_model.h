// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "photos/camera.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <vector>

/// The device's camera for the camera page.
class CameraModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(bool ready READ ready NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(QObject* viewfinder READ viewfinder WRITE setViewfinder NOTIFY changed)
public:
    explicit CameraModel(QObject* parent = nullptr);

    [[nodiscard]] bool ready() const { return m_camera.state() == rillmark::Camera::State::Ready; }
    /// Why there is no picture, in words; empty when there is one.
    [[nodiscard]] QString problem() const;
    [[nodiscard]] QObject* viewfinder() const { return m_camera.viewfinder(); }
    void setViewfinder(QObject* output) { m_camera.setViewfinder(output); }
    [[nodiscard]] const std::vector<unsigned char>& picture() const { return m_picture; }

    Q_INVOKABLE void start() { m_camera.start(); }
    Q_INVOKABLE void take() { m_camera.takePhoto(); }

signals:
    void changed();
    void taken();

private:
    rillmark::Camera m_camera;
    std::vector<unsigned char> m_picture;
    QString m_failure;
};
