// SPDX-License-Identifier: GPL-3.0-or-later
#include "sensors/tilt_source.h"

namespace rillmark::platform {

namespace {

// Well above the tremor of a hand (8 to 12 Hz, from memory) and below the 200 Hz for which Android wants a permission.
constexpr int kRate_hz = 50;

} // namespace

SightAxis long_edge(Qt::ScreenOrientation native_orientation) {
    const bool landscape =
        native_orientation == Qt::LandscapeOrientation || native_orientation == Qt::InvertedLandscapeOrientation;
    return landscape ? SightAxis::TowardsRight : SightAxis::TowardsTop;
}

TiltSource::TiltSource(SightAxis axis, QObject* parent) : TiltSource(new QAccelerometer, axis, parent) {}

TiltSource::TiltSource(QAccelerometer* accelerometer, SightAxis axis, QObject* parent)
    : HeldSensor(accelerometer, "levels.no_tilt_sensor", kRate_hz, parent), m_accelerometer(accelerometer),
      m_axis(axis) {}

std::optional<double> TiltSource::elevation_now_rad() const {
    if (m_samples.empty())
        return {};
    const Expected<double> elevation = elevation_rad(m_samples.back(), m_axis);
    return elevation ? std::optional(*elevation) : std::nullopt;
}

Expected<AveragedTilt> TiltSource::held() const {
    return average_tilt(m_samples, m_axis);
}

void TiltSource::take(double /*seconds_since_start*/) {
    if (const QAccelerometerReading* reading = m_accelerometer->reading())
        m_samples.push_back({reading->x(), reading->y(), reading->z()});
}

} // namespace rillmark::platform
