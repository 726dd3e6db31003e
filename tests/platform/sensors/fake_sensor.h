// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QByteArray>
#include <QSensorBackend>
#include <QSensorManager>

namespace rillmark::platform {

/// A sensor that reads what the test wants. Reading is QAccelerometerReading or QPressureReading.
template <class Reading>
class FakeBackend : public QSensorBackend {
public:
    explicit FakeBackend(QSensor* sensor) : QSensorBackend(sensor) {
        setReading<Reading>(&m_reading);
        addDataRate(1, 30);
        addDataRate(60, 100);
    }
    void start() override {
        started = !refuses;
        if (refuses)
            sensorStopped();
        if (fails_at_once)
            sensorError(1);
    }
    void stop() override { started = false; }
    [[nodiscard]] bool isFeatureSupported(QSensor::Feature feature) const override {
        return thermometer && feature == QSensor::PressureSensorTemperature;
    }
    /// Delivers one reading after `set` has filled it in.
    template <class Set>
    void deliver(Set set) {
        set(m_reading);
        newReadingAvailable();
    }
    void fail(int error) { sensorError(error); }
    void halt() { sensorStopped(); }

    bool started = false;
    bool refuses = false;
    bool fails_at_once = false;
    bool thermometer = false;

private:
    Reading m_reading;
};

/// Gives this program a sensor of that kind for as long as it lives, as a plugin would.
template <class Reading>
class FakeSensor : public QSensorBackendFactory {
public:
    FakeSensor(const char* type, const char* name) : m_type(type), m_name(name) {
        QSensorManager::registerBackend(m_type, m_name, this);
    }
    ~FakeSensor() override { unplug(); }
    QSensorBackend* createBackend(QSensor* sensor) override { return m_latest = new FakeBackend<Reading>(sensor); }
    void unplug() {
        if (QSensorManager::isBackendRegistered(m_type, m_name))
            QSensorManager::unregisterBackend(m_type, m_name);
    }
    /// That of the sensor made last, which owns it.
    [[nodiscard]] FakeBackend<Reading>& backend() { return *m_latest; }

private:
    QByteArray m_type;
    QByteArray m_name;
    FakeBackend<Reading>* m_latest = nullptr;
};

} // namespace rillmark::platform
