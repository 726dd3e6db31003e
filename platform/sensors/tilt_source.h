// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "heights/tilt.h"
#include "sensors/held_sensor.h"

#include <QAccelerometer>

#include <optional>
#include <vector>

namespace rillmark::platform {

/// How long a sight is held unless it is let go before (common practice, no source).
inline constexpr double kSightHold_s = 5.0;

/// The axis along the longer edge of a screen whose native orientation (QScreen::nativeOrientation) is this: phones are
/// portrait, some tablets landscape.
[[nodiscard]] SightAxis long_edge(Qt::ScreenOrientation native_orientation);

/// The elevation of the device's long edge while it is held, from its accelerometer: positive when the far end (the top
/// of a phone in its natural orientation) is the higher one. To the person who sights along the edge: far end uphill.
///
/// The accelerometer is read as it is (Qt's Combined mode), not as Gravity or as QRotationSensor or QTiltSensor,
/// because those are filtered: a filter lags behind the hand by an unknown time, its gravity always has the length of
/// gravity, so that motion no longer shows and cannot be refused, rotation and tilt come in the system's own order of
/// turns, and not every system offers them. A held mean needs no filter. Axes stay those of the device, however the
/// screen is turned (Qt's FixedOrientation, the default).
class TiltSource : public HeldSensor {
    Q_OBJECT
public:
    explicit TiltSource(SightAxis axis = SightAxis::TowardsTop, QObject* parent = nullptr);

    /// The angle of the last sample, for the screen while holding; none before the first.
    [[nodiscard]] std::optional<double> elevation_now_rad() const;
    [[nodiscard]] std::size_t count() const { return m_samples.size(); }
    /// The mean of the samples held since start(): see average_tilt(). While running and after.
    [[nodiscard]] Expected<AveragedTilt> held() const;

private:
    TiltSource(QAccelerometer* accelerometer, SightAxis axis, QObject* parent);
    void take(double seconds_since_start) override;
    void forget() override { m_samples.clear(); }

    QAccelerometer* m_accelerometer; // owned by the base as a child
    SightAxis m_axis;
    std::vector<TiltSample> m_samples;
};

} // namespace rillmark::platform
