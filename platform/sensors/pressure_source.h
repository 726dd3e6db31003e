// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "heights/pressure_average.h"
#include "sensors/held_sensor.h"

#include <QPressureSensor>

#include <vector>

namespace rillmark::platform {

/// The air pressure from the device's barometer, averaged over a stated time: start(kAdvisedPressureTime_s), wait for
/// finished(), read averaged().
///
/// Qt gives no figure of the noise that means the same on every system (Android's accuracy is its resolution; from
/// memory, unconfirmed), so the noise is a constant of core unless the caller knows better.
class PressureSource : public HeldSensor {
    Q_OBJECT
public:
    explicit PressureSource(QObject* parent = nullptr);

    [[nodiscard]] std::size_t count() const { return m_samples.size(); }
    /// The mean of the samples since start(): see average_pressure(). While running and after. The temperature is there
    /// only where the sensor measures one; it is the sensor's own.
    [[nodiscard]] Expected<AveragedPressure> averaged(double noise_pa = kPressureNoise_pa) const;

private:
    PressureSource(QPressureSensor* barometer, QObject* parent);
    void take(double seconds_since_start) override;
    void forget() override { m_samples.clear(); }

    QPressureSensor* m_barometer; // owned by the base as a child
    std::vector<PressureSample> m_samples;
};

} // namespace rillmark::platform
