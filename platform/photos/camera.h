// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"

#include <QCamera>
#include <QImageCapture>
#include <QMediaCaptureSession>
#include <QMediaDevices>
#include <QObject>
#include <QTemporaryDir>

#include <memory>
#include <optional>
#include <vector>

namespace rillmark {

/// The device's camera: shows its picture in a video output and takes photos.
///
/// A photo is written by the system into a folder of ours first and read back, so that what comes out are the bytes as
/// the device encoded them, with its own EXIF block; nothing is encoded a second time on the UI thread.
class Camera : public QObject {
    Q_OBJECT
    Q_PROPERTY(State state READ state NOTIFY stateChanged)
    Q_PROPERTY(QObject* viewfinder READ viewfinder WRITE setViewfinder NOTIFY viewfinderChanged)
public:
    enum class State {
        NoCamera, // none on this device, or taken away
        Off,
        Starting,
        Ready,
        Busy, // a photo is being taken
        Error // see problem(); start() tries again
    };
    Q_ENUM(State)

    explicit Camera(QObject* parent = nullptr);
    ~Camera() override;

    [[nodiscard]] State state() const { return m_state; }
    /// Why the state is Error or NoCamera: `photo.no_camera`, `photo.camera_denied` or `photo.camera_failed`.
    [[nodiscard]] const std::optional<Finding>& problem() const { return m_problem; }

    /// The VideoOutput of the page.
    [[nodiscard]] QObject* viewfinder() const;
    void setViewfinder(QObject* output);

    /// Asks the person where the system wants that, then switches the camera on (the back one where there is a choice).
    Q_INVOKABLE void start();
    Q_INVOKABLE void stop();
    /// Takes a photo; captured() or captureFailed() follows. Not Ready: captureFailed() with `photo.camera_not_ready`.
    Q_INVOKABLE void takePhoto();

signals:
    void stateChanged();
    void viewfinderChanged();
    void captured(const std::vector<unsigned char>& picture);
    void captureFailed(const rillmark::Finding& finding);

private:
    void open();
    void close();
    void look_for_camera();
    void set_state(State state, std::optional<Finding> problem = {});
    void hand_out(const QString& file);

    State m_state = State::Off;
    std::optional<Finding> m_problem;
    QTemporaryDir m_folder;
    QMediaDevices m_devices;
    QMediaCaptureSession m_session;
    std::unique_ptr<QCamera> m_camera;
    QImageCapture m_capture;
};

} // namespace rillmark
