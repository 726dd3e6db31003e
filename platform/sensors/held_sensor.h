// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <QElapsedTimer>
#include <QObject>
#include <QSensor>
#include <QTimer>

namespace rillmark::platform {

/// A sensor of the device that runs only while a reading is held, for the sake of the battery: from start() to stop(),
/// or until the time given to start() has passed. Nothing is polled; the sensor reports, and sampled() says so.
///
/// A sensor that only plays one is none: Qt's stand-in for a desk computer ("dummy.accelerometer") would otherwise lie
/// flat and still forever.
class HeldSensor : public QObject {
    Q_OBJECT
    Q_PROPERTY(bool available READ available NOTIFY availableChanged)
    Q_PROPERTY(bool running READ running NOTIFY runningChanged)
public:
    /// Whether the device has the sensor.
    [[nodiscard]] bool available() const { return m_available; }
    [[nodiscard]] bool running() const { return m_running; }

    /// Forgets the samples before and collects anew for at most `longest_s` (0.1 to 3600, clamped), then stops.
    /// Refuses where there is no sensor (`levels.no_tilt_sensor`, `levels.no_pressure_sensor`) or where it does not
    /// start (`levels.sensor_failed`). Starting while running begins again.
    Expected<void> start(double longest_s);
    /// Keeps the samples.
    void stop();

signals:
    void availableChanged(bool available);
    void runningChanged(bool running);
    /// One more sample was taken.
    void sampled();
    /// The time given to start() has passed; the sensor is stopped. Comes too where it fell silent, of which Qt says
    /// nothing: the samples tell.
    void finished();
    /// The sensor gave up; it is stopped and the samples so far are kept.
    void failed(const rillmark::Finding& why);

protected:
    /// `sensor` becomes a child. `missing` is the code of the refusal where there is none; `rate_hz` is asked for where
    /// the sensor can.
    HeldSensor(QSensor* sensor, const char* missing, int rate_hz, QObject* parent);

    /// Stores what the sensor reads now.
    virtual void take(double seconds_since_start) = 0;
    virtual void forget() = 0;

private:
    void look();
    void reading();
    void gave_up(int error);

    QSensor* m_sensor; // owned as a child
    const char* m_missing;
    int m_rate_hz;
    bool m_available = false;
    bool m_running = false;
    bool m_failed_at_once = false;
    QElapsedTimer m_since;
    QTimer m_end;
};

} // namespace rillmark::platform
