// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/position_source.h"

#include <QDateTime>

#include <chrono>
#include <cmath>

namespace rillmark::platform {

namespace {

constexpr std::chrono::milliseconds kLookEvery{250};

std::optional<double> whole(const std::optional<double>& seconds) {
    return seconds ? std::optional<double>{std::floor(*seconds)} : std::nullopt;
}

} // namespace

PositionSource::PositionSource(const QString& name, QObject* parent)
    : QObject(parent), m_name(name), m_watch(name.toStdString()) {
    m_since.start();
    m_look.setInterval(kLookEvery);
    connect(&m_look, &QTimer::timeout, this, &PositionSource::look);
}

ReceiverState PositionSource::state() const {
    return m_watch.state(running_s());
}

void PositionSource::start() {
    if (m_running)
        return;
    m_running = true;
    m_look.start();
    open();
    look();
}

void PositionSource::stop() {
    if (!m_running)
        return;
    m_running = false;
    m_look.stop();
    close();
    m_watch.stopped();
    look();
}

void PositionSource::noteConnected() {
    m_watch.connected();
    look();
}

void PositionSource::noteDisconnected(const Finding& why) {
    m_watch.disconnected(why);
    look();
}

void PositionSource::noteFailed(const Finding& why) {
    m_watch.failed(why);
    look();
}

void PositionSource::deliver(const PositionFix& fix) {
    const bool usable = m_watch.arrived(fix, running_s());
    look();
    if (usable)
        emit fixReceived(fix);
}

double PositionSource::clock_s() {
    constexpr double kMillisecondsPerSecond = 1000.0;
    return static_cast<double>(QDateTime::currentMSecsSinceEpoch()) / kMillisecondsPerSecond;
}

void PositionSource::look() {
    const ReceiverState exact = state();
    ReceiverState state = exact;
    state.age_s = whole(exact.age_s);
    if (state == m_shown)
        return;
    m_shown = state;
    emit stateChanged(exact);
}

double PositionSource::running_s() const {
    constexpr double kNanosecondsPerSecond = 1e9;
    return static_cast<double>(m_since.nsecsElapsed()) / kNanosecondsPerSecond;
}

} // namespace rillmark::platform
