// SPDX-License-Identifier: GPL-3.0-or-later
#include "photos/camera.h"

#include <QCameraDevice>
#include <QCoreApplication>
#include <QFile>

#if QT_VERSION >= QT_VERSION_CHECK(6, 5, 0)
#include <QPermissions>
#endif

namespace rillmark {

namespace {

QCameraDevice best_camera() {
    const auto cameras = QMediaDevices::videoInputs();
    for (const QCameraDevice& camera : cameras)
        if (camera.position() == QCameraDevice::BackFace)
            return camera;
    return QMediaDevices::defaultVideoInput();
}

} // namespace

Camera::Camera(QObject* parent) : QObject(parent) {
    m_session.setImageCapture(&m_capture);
    connect(&m_devices, &QMediaDevices::videoInputsChanged, this, &Camera::look_for_camera);
    connect(&m_capture, &QImageCapture::imageSaved, this, [this](int, const QString& file) { hand_out(file); });
    connect(&m_capture, &QImageCapture::errorOccurred, this, [this](int, QImageCapture::Error, const QString& why) {
        if (m_state == State::Busy)
            set_state(State::Ready);
        emit captureFailed(refusal("photo.camera_failed", {}, {{"why", why.toStdString()}}));
    });
    connect(&m_capture, &QImageCapture::readyForCaptureChanged, this, [this](bool ready) {
        if (ready && m_state == State::Starting)
            set_state(State::Ready);
    });
    look_for_camera();
}

Camera::~Camera() {
    close();
}

QObject* Camera::viewfinder() const {
    return m_session.videoOutput();
}

void Camera::setViewfinder(QObject* output) {
    if (output == viewfinder())
        return;
    m_session.setVideoOutput(output);
    emit viewfinderChanged();
}

void Camera::start() {
    if (m_camera)
        return;
#if QT_VERSION >= QT_VERSION_CHECK(6, 5, 0)
    set_state(State::Starting);
    qApp->requestPermission(QCameraPermission{}, this, [this](const QPermission& answer) {
        if (answer.status() == Qt::PermissionStatus::Granted)
            open();
        else
            set_state(State::Error, refusal("photo.camera_denied"));
    });
#else
    open();
#endif
}

void Camera::stop() {
    close();
    look_for_camera();
}

void Camera::takePhoto() {
    if (m_state != State::Ready || !m_folder.isValid()) {
        emit captureFailed(m_problem.value_or(refusal("photo.camera_not_ready")));
        return;
    }
    set_state(State::Busy);
    m_capture.captureToFile(m_folder.filePath(QStringLiteral("photo.jpg")));
}

void Camera::open() {
    const QCameraDevice device = best_camera();
    if (device.isNull()) {
        set_state(State::NoCamera, refusal("photo.no_camera"));
        return;
    }
    m_camera = std::make_unique<QCamera>(device);
    connect(m_camera.get(), &QCamera::errorOccurred, this, [this](QCamera::Error error, const QString& why) {
        if (error == QCamera::NoError)
            return;
        set_state(State::Error, refusal("photo.camera_failed", {}, {{"why", why.toStdString()}}));
        // Not from within the camera's own signal.
        QMetaObject::invokeMethod(this, &Camera::close, Qt::QueuedConnection);
    });
    m_session.setCamera(m_camera.get());
    m_capture.setFileFormat(QImageCapture::JPEG);
    m_capture.setQuality(QImageCapture::HighQuality);
    set_state(State::Starting);
    m_camera->start();
    if (m_capture.isReadyForCapture())
        set_state(State::Ready);
}

void Camera::close() {
    if (!m_camera)
        return;
    m_camera->disconnect(this);
    m_camera->stop();
    m_session.setCamera(nullptr);
    m_camera.reset();
}

void Camera::look_for_camera() {
    if (m_camera && QMediaDevices::videoInputs().contains(m_camera->cameraDevice()))
        return;
    close();
    if (best_camera().isNull())
        set_state(State::NoCamera, refusal("photo.no_camera"));
    else
        set_state(State::Off);
}

void Camera::set_state(State state, std::optional<Finding> problem) {
    m_problem = std::move(problem);
    if (state == m_state)
        return;
    m_state = state;
    emit stateChanged();
}

void Camera::hand_out(const QString& file) {
    if (m_state == State::Busy)
        set_state(State::Ready);
    QFile saved(file);
    if (!saved.open(QIODevice::ReadOnly)) {
        emit captureFailed(refusal("photo.camera_failed", {}, {{"why", saved.errorString().toStdString()}}));
        return;
    }
    const QByteArray bytes = saved.readAll();
    saved.remove();
    emit captured({bytes.begin(), bytes.end()});
}

} // namespace rillmark
