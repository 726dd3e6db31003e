// SPDX-License-Identifier: GPL-3.0-or-later
#include "sensors/pressure_source.h"

namespace rillmark::platform {

namespace {

// As often as barometers of phones measure anew without strain (from memory, unconfirmed).
constexpr int kRate_hz = 5;

} // namespace

PressureSource::PressureSource(QObject* parent) : PressureSource(new QPressureSensor, parent) {}

PressureSource::PressureSource(QPressureSensor* barometer, QObject* parent)
    : HeldSensor(barometer, "levels.no_pressure_sensor", kRate_hz, parent), m_barometer(barometer) {}

Expected<AveragedPressure> PressureSource::averaged(double noise_pa) const {
    return average_pressure(m_samples, noise_pa);
}

void PressureSource::take(double seconds_since_start) {
    const QPressureReading* reading = m_barometer->reading();
    if (reading == nullptr)
        return;
    PressureSample sample{seconds_since_start, reading->pressure(), {}};
    if (m_barometer->isFeatureSupported(QSensor::PressureSensorTemperature))
        sample.temperature_c = reading->temperature();
    m_samples.push_back(sample);
}

} // namespace rillmark::platform
