// SPDX-License-Identifier: GPL-3.0-or-later
#include "held_reading.h"

#include <QGuiApplication>
#include <QScreen>

using namespace rillmark;
using namespace rillmark::platform;

HeldReading::HeldReading(SettingsModel& settings, QObject* parent) : QObject(parent), m_settings(settings) {}

void HeldReading::use(Sensor sensor) {
    if (m_sensor == sensor)
        return;
    if (source() != nullptr)
        source()->stop();
    m_sensor = sensor;
    m_findings.clear();
    if (sensor == Sensor::Tilt && !m_tilt) {
        const QScreen* screen = QGuiApplication::primaryScreen();
        m_tilt = std::make_unique<TiltSource>(screen ? long_edge(screen->nativeOrientation()) : SightAxis::TowardsTop);
    }
    if (sensor == Sensor::Pressure && !m_pressure)
        m_pressure = std::make_unique<PressureSource>();
    if (HeldSensor* opened = source()) {
        disconnect(opened, nullptr, this, nullptr);
        connect(opened, &HeldSensor::availableChanged, this, &HeldReading::changed);
        connect(opened, &HeldSensor::runningChanged, this, &HeldReading::changed);
        connect(opened, &HeldSensor::sampled, this, &HeldReading::changed);
        connect(opened, &HeldSensor::finished, this, &HeldReading::finish);
        connect(opened, &HeldSensor::failed, this, [this](const Finding& why) { tell({why}); });
    }
    emit changed();
}

HeldSensor* HeldReading::source() const {
    switch (m_sensor) {
    case Sensor::Tilt: return m_tilt.get();
    case Sensor::Pressure: return m_pressure.get();
    case Sensor::None: break;
    }
    return nullptr;
}

bool HeldReading::available() const {
    return source() != nullptr && source()->available();
}

bool HeldReading::running() const {
    return source() != nullptr && source()->running();
}

QString HeldReading::now() const {
    if (!running())
        return {};
    if (m_sensor == Sensor::Tilt) {
        const std::optional<double> angle = m_tilt->elevation_now_rad();
        return angle ? m_settings.formatter().value(*angle, Quantity::Angle) : QString();
    }
    return tr("readings so far: %1").arg(m_pressure->count());
}

void HeldReading::start() {
    if (source() == nullptr)
        return;
    m_findings.clear();
    const Expected<void> started = source()->start(m_sensor == Sensor::Tilt ? kSightHold_s : kAdvisedPressureTime_s);
    if (!started)
        tell({started.error()});
    emit changed();
}

void HeldReading::stop() {
    if (!running())
        return;
    source()->stop();
    finish();
}

void HeldReading::finish() {
    if (m_sensor == Sensor::Tilt) {
        const Expected<AveragedTilt> held = m_tilt->held();
        tell(held ? held->findings : Findings{held.error()});
        if (held)
            emit taken(held->elevation_rad);
    } else if (m_sensor == Sensor::Pressure) {
        const Expected<AveragedPressure> averaged = m_pressure->averaged();
        tell(averaged ? averaged->findings : Findings{averaged.error()});
        if (averaged)
            emit taken(averaged->pressure_pa);
    }
}

void HeldReading::tell(const Findings& findings) {
    m_findings = m_settings.formatter().findings(findings);
    emit changed();
}
