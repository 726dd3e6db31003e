// SPDX-License-Identifier: GPL-3.0-or-later
#include "trace_clock.h"

#include <QDateTime>

#include <algorithm>
#include <cmath>

namespace {

constexpr int kTick_ms = 100;
constexpr double kNow_s = 1.0;               // so long after it fell due a reading counts as due now
constexpr qint64 kForgotten_ms = 86'400'000; // a clock left running for a day
constexpr int kIntervals_s[] = {5, 10, 15, 20, 30, 60};
constexpr int kUsualInterval_s = 10;

} // namespace

TraceClock::TraceClock(ResumeState& resume, QObject* parent) : QObject(parent), m_resume(resume) {
    m_tick.setInterval(kTick_ms);
    connect(&m_tick, &QTimer::timeout, this, &TraceClock::tick);
}

QString TraceClock::key() const {
    return QStringLiteral("draft/trace-clock/") + m_test;
}

void TraceClock::setTest(const QString& test) {
    m_tick.stop();
    m_test = test;
    const qint64 started_ms = m_resume.text(key()).toLongLong();
    const qint64 ago_ms = QDateTime::currentMSecsSinceEpoch() - started_ms;
    if (!test.isEmpty() && started_ms > 0 && ago_ms >= 0 && ago_ms < kForgotten_ms)
        run_from(started_ms);
    emit changed();
    emit ticked();
}

QList<Choice> TraceClock::intervals() const {
    QList<Choice> choices;
    for (const int seconds : kIntervals_s)
        choices.append({QString::number(seconds), tr("%1 s").arg(seconds)});
    return choices;
}

QString TraceClock::interval() const {
    return m_resume.text(QStringLiteral("trace-interval"), QString::number(kUsualInterval_s));
}

void TraceClock::setInterval(const QString& seconds) {
    if (seconds.toInt() <= 0)
        return;
    m_resume.setText(QStringLiteral("trace-interval"), seconds);
    m_last_due = static_cast<qint64>(this->seconds() / seconds.toDouble());
    emit changed();
    emit ticked();
}

double TraceClock::seconds() const {
    return running() ? m_before_s + 1e-9 * static_cast<double>(m_steady.nsecsElapsed()) : 0.0;
}

int TraceClock::left() const {
    if (!running())
        return interval().toInt();
    const double step_s = interval().toDouble();
    const double into_s = std::fmod(seconds(), step_s);
    return into_s < kNow_s ? 0 : static_cast<int>(std::ceil(step_s - into_s));
}

QString TraceClock::elapsed() const {
    const auto whole = static_cast<qint64>(seconds());
    return tr("%1:%2 since the pouring").arg(whole / 60).arg(whole % 60, 2, 10, QLatin1Char('0'));
}

void TraceClock::run_from(qint64 started_ms) {
    m_before_s = 1e-3 * static_cast<double>(std::max<qint64>(0, QDateTime::currentMSecsSinceEpoch() - started_ms));
    m_last_due = static_cast<qint64>(m_before_s / interval().toDouble());
    m_steady.start();
    m_tick.start();
}

void TraceClock::start() {
    const qint64 now_ms = QDateTime::currentMSecsSinceEpoch();
    m_resume.setText(key(), QString::number(now_ms));
    run_from(now_ms);
    emit due(0.0);
    emit changed();
    emit ticked();
}

void TraceClock::stop() {
    m_tick.stop();
    m_resume.remove(key());
    emit changed();
    emit ticked();
}

void TraceClock::tick() {
    const double step_s = interval().toDouble();
    const auto gone = static_cast<qint64>(seconds() / step_s);
    if (gone > m_last_due) {
        m_last_due = gone;
        emit due(static_cast<double>(gone) * step_s);
    }
    emit ticked();
}
