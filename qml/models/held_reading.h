// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "formatter.h"
#include "sensors/pressure_source.h"
#include "sensors/tilt_source.h"
#include "settings_model.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <memory>

/// A reading from a sensor of the device while it is held: the tilt of the phone, or the pressure of the air. The sensor is
/// opened when it is first asked for, since most devices at a desk have none.
class HeldReading : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by a presenter")
    Q_PROPERTY(bool available READ available NOTIFY changed)
    Q_PROPERTY(bool running READ running NOTIFY changed)
    Q_PROPERTY(QString now READ now NOTIFY changed)         // what the sensor shows, while held
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed) // of the last reading
public:
    enum class Sensor { None, Tilt, Pressure };
    explicit HeldReading(SettingsModel& settings, QObject* parent = nullptr);

    void use(Sensor sensor);
    [[nodiscard]] bool available() const;
    [[nodiscard]] bool running() const;
    [[nodiscard]] QString now() const;
    [[nodiscard]] QList<FindingText> findings() const { return m_findings; }
    /// Begins to hold; taken() follows after the sensor's time, or when stop() is called.
    Q_INVOKABLE void start();
    Q_INVOKABLE void stop();

signals:
    void changed();
    /// Angle above the horizontal in radians, or pressure in pascal.
    void taken(const rillmark::Estimate& reading);

private:
    [[nodiscard]] rillmark::platform::HeldSensor* source() const;
    void finish();
    void tell(const rillmark::Findings& findings);

    SettingsModel& m_settings;
    Sensor m_sensor = Sensor::None;
    std::unique_ptr<rillmark::platform::TiltSource> m_tilt;
    std::unique_ptr<rillmark::platform::PressureSource> m_pressure;
    QList<FindingText> m_findings;
};
