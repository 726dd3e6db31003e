// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/fix_watch.h"
#include "position/position_fix.h"

#include <QElapsedTimer>
#include <QObject>
#include <QString>
#include <QTimer>

namespace rillmark::platform {

/// Where fixes come from: the device itself, a receiver by network or cable, or a log played back. Whoever shows or
/// stores positions knows only this.
///
/// fixReceived() carries usable fixes alone (plausible()); everything else shows in state(): no receiver, searching,
/// stale, lost, and why. The state is looked at again several times a second, so that a fix grows old on the screen even
/// if the receiver falls silent. Errors never stop a source for good: it goes on trying until stop().
class PositionSource : public QObject {
    Q_OBJECT
public:
    explicit PositionSource(const QString& name, QObject* parent = nullptr);

    [[nodiscard]] QString name() const { return m_name; }
    [[nodiscard]] ReceiverState state() const;
    [[nodiscard]] bool running() const { return m_running; }

    void start();
    void stop();

signals:
    void fixReceived(const rillmark::PositionFix& fix);
    /// Something in state() other than the age changed, or the age by a second.
    void stateChanged(const rillmark::ReceiverState& state);

protected:
    virtual void open() = 0;
    virtual void close() = 0;

    void noteConnected();
    void noteDisconnected(const Finding& why);
    void noteFailed(const Finding& why);
    void deliver(const PositionFix& fix);
    /// Seconds since 1970 by the device's clock.
    [[nodiscard]] static double clock_s();

private:
    void look();
    [[nodiscard]] double running_s() const; // monotonic, unlike the clock

    QString m_name;
    FixWatch m_watch;
    bool m_running = false;
    QElapsedTimer m_since;
    QTimer m_look;
    ReceiverState m_shown;
};

} // namespace rillmark::platform
