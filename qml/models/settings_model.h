// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "formatter.h"

#include <QObject>
#include <QSettings>
#include <QString>
#include <QtQml/qqmlregistration.h>

/// What the person chose for this device: units, look, receiver. Kept in the system's settings store.
class SettingsModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(bool metric READ metric WRITE setMetric NOTIFY changed)
    Q_PROPERTY(QString theme READ theme WRITE setTheme NOTIFY changed)             // day, night, system
    Q_PROPERTY(bool night READ night NOTIFY changed)
    Q_PROPERTY(int textPercent READ textPercent WRITE setTextPercent NOTIFY changed) // 100..200
    Q_PROPERTY(QString receiver READ receiver WRITE setReceiver NOTIFY changed)    // system, tcp, serial, replay
    Q_PROPERTY(QString receiverAddress READ receiverAddress WRITE setReceiverAddress NOTIFY changed)
    Q_PROPERTY(int averagingSeconds READ averagingSeconds WRITE setAveragingSeconds NOTIFY changed) // 5..3600
    Q_PROPERTY(QString observer READ observer WRITE setObserver NOTIFY changed)
public:
    explicit SettingsModel(QObject* parent = nullptr);

    [[nodiscard]] bool metric() const;
    void setMetric(bool metric);
    [[nodiscard]] QString theme() const;
    void setTheme(const QString& theme);
    /// Whether the night colours are due: chosen, or the system's.
    [[nodiscard]] bool night() const;
    [[nodiscard]] int textPercent() const;
    void setTextPercent(int percent);
    [[nodiscard]] QString receiver() const;
    void setReceiver(const QString& receiver);
    /// host:port for tcp, device name and rate for serial ("ttyUSB0@9600"), file name for replay.
    [[nodiscard]] QString receiverAddress() const;
    void setReceiverAddress(const QString& address);
    [[nodiscard]] int averagingSeconds() const;
    void setAveragingSeconds(int seconds);
    [[nodiscard]] QString observer() const;
    void setObserver(const QString& observer);

    /// A choice that belongs to no page of settings: how the last logger wrote its file.
    [[nodiscard]] QString remembered(const QString& key) const { return m_store.value(key).toString(); }
    void remember(const QString& key, const QString& text) { m_store.setValue(key, text); }

    [[nodiscard]] Formatter formatter() const;

signals:
    void changed();

private:
    void put(const QString& key, const QVariant& value);
    QSettings m_store;
};
