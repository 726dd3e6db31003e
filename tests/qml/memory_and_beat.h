// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QElapsedTimer>
#include <QFile>
#include <QTimer>

#include <algorithm>

/// The longest time that the event loop was away from the screen.
class Beat {
public:
    Beat() {
        QObject::connect(&m_timer, &QTimer::timeout, &m_timer,
                         [this] { m_longest_ms = std::max(m_longest_ms, m_since.restart()); });
        m_since.start();
        m_timer.start(5);
    }
    [[nodiscard]] qint64 longest_ms() const { return m_longest_ms; }

private:
    QElapsedTimer m_since;
    QTimer m_timer;
    qint64 m_longest_ms = 0;
};

/// What this program takes of the memory at its highest, beyond what it took when this was made. Needs Linux; elsewhere
/// it sees nothing.
class MemoryPeak {
public:
    MemoryPeak() {
        QFile reset(QStringLiteral("/proc/self/clear_refs"));
        if (reset.open(QIODevice::WriteOnly))
            reset.write("5"); // the peak is from now on
        m_before_MiB = of("VmRSS:");
    }
    [[nodiscard]] double grown_MiB() const { return of("VmHWM:") - m_before_MiB; }

private:
    static double of(const char* name) {
        QFile status(QStringLiteral("/proc/self/status"));
        if (!status.open(QIODevice::ReadOnly))
            return 0.0;
        for (const QByteArray& line : status.readAll().split('\n'))
            if (line.startsWith(name))
                return line.mid(6).simplified().split(' ').front().toDouble() / 1024.0;
        return 0.0;
    }
    double m_before_MiB = 0.0;
};
