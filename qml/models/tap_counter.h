// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/revolution_count.h"

#include <QElapsedTimer>
#include <QObject>
#include <QString>
#include <QTimer>
#include <QtQml/qqmlregistration.h>

/// Counts the signals of a current meter by taps, with the exposure by the system's steady clock.
class TapCounter : public QObject {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QString goal READ goal WRITE setGoal NOTIFY changed) // "60 s": by time; "50": by count
    Q_PROPERTY(bool running READ running NOTIFY changed)
    Q_PROPERTY(int count READ count NOTIFY changed)
    Q_PROPERTY(QString time READ time NOTIFY changed)
public:
    explicit TapCounter(QObject* parent = nullptr) : QObject(parent) {
        m_clock.start();
        m_tick.setInterval(100);
        connect(&m_tick, &QTimer::timeout, this, &TapCounter::changed);
    }
    [[nodiscard]] QString goal() const { return m_goal; }
    /// Starts over where the goal is another one.
    void setGoal(const QString& goal) {
        if (goal == m_goal)
            return;
        m_goal = goal;
        const QStringList words = goal.split(QLatin1Char(' '));
        rillmark::RevolutionCount::Goal to;
        if (words.size() == 2)
            to.seconds = words[0].toDouble();
        else if (words[0].toInt() > 0)
            to.count = words[0].toInt();
        m_count = rillmark::RevolutionCount(to);
        m_tick.stop();
        emit changed();
    }
    [[nodiscard]] bool running() const { return m_count.running(); }
    [[nodiscard]] int count() const { return m_count.count(); }
    [[nodiscard]] QString time() const {
        return QString::number(m_count.elapsed_s(now_s()), 'f', 1) + QStringLiteral(" s");
    }

    Q_INVOKABLE void tap() { told(m_count.tap(now_s())); }
    Q_INVOKABLE void stop() { told(m_count.stop(now_s())); }

signals:
    void changed();
    void finished(int count, double seconds);

private:
    [[nodiscard]] double now_s() const { return static_cast<double>(m_clock.nsecsElapsed()) * 1e-9; }
    void told(const std::optional<rillmark::RevolutionCount::Result>& result) {
        if (running())
            m_tick.start();
        else
            m_tick.stop();
        emit changed();
        if (result)
            emit finished(result->count, result->time_s);
    }

    QElapsedTimer m_clock;
    QTimer m_tick;
    QString m_goal;
    rillmark::RevolutionCount m_count;
};
