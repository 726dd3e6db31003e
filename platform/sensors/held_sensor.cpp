// SPDX-License-Identifier: GPL-3.0-or-later
#include "sensors/held_sensor.h"

#include <algorithm>
#include <cstdint>
#include <cstdlib>

namespace rillmark::platform {

namespace {

constexpr double kShortestRun_s = 0.1;
constexpr double kLongestRun_s = 3600.0;
constexpr double kMillisecondsPerSecond = 1000.0;
constexpr double kNanosecondsPerSecond = 1e9;

/// The default one, or the first that is real; empty where there is none.
QByteArray real_sensor(const QByteArray& type) {
    QList<QByteArray> candidates = QSensor::sensorsForType(type);
    candidates.prepend(QSensor::defaultSensorForType(type));
    for (const QByteArray& candidate : candidates)
        if (!candidate.isEmpty() && !candidate.startsWith("dummy."))
            return candidate;
    return {};
}

/// Sets the rate that is nearest to the one wanted; a sensor that names no rates keeps its own.
void ask_for_rate(QSensor& sensor, int wanted_hz) {
    int best_hz = 0;
    for (const qrange& range : sensor.availableDataRates()) {
        const int nearest_hz = std::clamp(wanted_hz, range.first, std::max(range.first, range.second));
        if (best_hz == 0 || std::abs(nearest_hz - wanted_hz) < std::abs(best_hz - wanted_hz))
            best_hz = nearest_hz;
    }
    if (best_hz > 0)
        sensor.setDataRate(best_hz);
}

Finding failure(int error) {
    return refusal("levels.sensor_failed", "", {{"error", static_cast<std::int64_t>(error)}});
}

} // namespace

HeldSensor::HeldSensor(QSensor* sensor, const char* missing, int rate_hz, QObject* parent)
    : QObject(parent), m_sensor(sensor), m_missing(missing), m_rate_hz(rate_hz) {
    m_sensor->setParent(this);
    m_end.setSingleShot(true);
    connect(m_sensor, &QSensor::readingChanged, this, &HeldSensor::reading);
    connect(m_sensor, &QSensor::sensorError, this, &HeldSensor::gave_up);
    connect(m_sensor, &QSensor::availableSensorsChanged, this, &HeldSensor::look);
    connect(&m_end, &QTimer::timeout, this, [this] {
        stop();
        emit finished();
    });
    look();
}

void HeldSensor::look() {
    const QByteArray name = real_sensor(m_sensor->type());
    if (!name.isEmpty() && !m_sensor->isConnectedToBackend()) {
        m_sensor->setIdentifier(name);
        if (m_sensor->connectToBackend())
            ask_for_rate(*m_sensor, m_rate_hz);
    }
    const bool available =
        m_sensor->isConnectedToBackend() && QSensor::sensorsForType(m_sensor->type()).contains(m_sensor->identifier());
    if (available == m_available)
        return;
    m_available = available;
    if (!available)
        stop();
    emit availableChanged(available);
}

Expected<void> HeldSensor::start(double longest_s) {
    stop();
    forget();
    if (!m_available)
        return refusal(m_missing);
    m_failed_at_once = false;
    if (!m_sensor->start() || !m_sensor->isActive() || m_failed_at_once) {
        m_sensor->stop();
        return failure(m_sensor->error());
    }
    m_running = true;
    m_since.start();
    const double bounded_s = longest_s >= kShortestRun_s ? std::min(longest_s, kLongestRun_s) : kShortestRun_s;
    m_end.start(static_cast<int>(bounded_s * kMillisecondsPerSecond));
    emit runningChanged(true);
    return {};
}

void HeldSensor::stop() {
    if (!m_running)
        return;
    m_running = false; // first, so that the sensor's own word of having stopped is no failure
    m_end.stop();
    m_sensor->stop();
    emit runningChanged(false);
}

void HeldSensor::reading() {
    if (!m_running)
        return; // sensors may deliver once more after they were stopped
    take(static_cast<double>(m_since.nsecsElapsed()) / kNanosecondsPerSecond);
    emit sampled();
}

void HeldSensor::gave_up(int error) {
    if (!m_running) {
        m_failed_at_once = true; // start() tells
        return;
    }
    stop();
    emit failed(failure(error));
}

} // namespace rillmark::platform
