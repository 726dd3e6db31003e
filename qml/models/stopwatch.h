// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>
#include <QtQml/qqmlregistration.h>

/// A stopwatch by the system's steady clock; ticks ten times a second while it runs.
class Stopwatch : public QObject {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(bool running READ running NOTIFY changed)
    Q_PROPERTY(double seconds READ seconds NOTIFY changed)
    Q_PROPERTY(QString text READ text NOTIFY changed)
public:
    explicit Stopwatch(QObject* parent = nullptr) : QObject(parent) {
        m_tick.setInterval(100);
        connect(&m_tick, &QTimer::timeout, this, &Stopwatch::changed);
    }
    [[nodiscard]] bool running() const { return m_tick.isActive(); }
    [[nodiscard]] double seconds() const { return running() ? static_cast<double>(m_clock.nsecsElapsed()) * 1e-9 : m_stopped_s; }
    [[nodiscard]] QString text() const { return QString::number(seconds(), 'f', 1) + QStringLiteral(" s"); }
    /// Starts from zero, or stops.
    Q_INVOKABLE void press() {
        if (running()) {
            m_stopped_s = seconds();
            m_tick.stop();
            emit stopped(m_stopped_s);
        } else {
            m_clock.start();
            m_tick.start();
        }
        emit changed();
    }

signals:
    void changed();
    void stopped(double seconds);

private:
    QElapsedTimer m_clock;
    QTimer m_tick;
    double m_stopped_s = 0.0;
};
