// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/nmea_reader.h"
#include "position/position_source.h"

#include <QByteArray>
#include <QPointer>
#include <QTimer>

#include <chrono>
#include <optional>

class QIODevice;

namespace rillmark::platform {

/// A live receiver's dates before this are a rolled-over week counter: this program did not exist (2026-01-01).
inline constexpr double kEarliestLive_s = 1767225600.0;

/// What all NMEA sources share: bytes in, one fix an epoch out.
///
/// Qt's own QNmeaPositionInfoSource is not used: it passes on neither fix quality nor GST nor geoid separation, and does
/// not count what was damaged. core's NmeaReader does, and is tested and fuzzed without Qt.
class NmeaSource : public PositionSource {
    Q_OBJECT
public:
    NmeaSource(const QString& name, std::optional<double> earliest_s, QObject* parent);
    [[nodiscard]] const NmeaCounts& counts() const { return m_reader.counts(); }

protected:
    void take(const QByteArray& bytes);
    /// The stream has ended for good: hands on what is left.
    void finishStream();
    /// The next bytes do not continue the last ones.
    void restartStream();

private:
    void hand_on(const std::vector<PositionFix>& fixes);
    NmeaReader m_reader;
    QTimer m_quiet; // an epoch ends when the line falls silent, without waiting for the next second
};

/// NMEA from any open device that somebody else looks after (a pipe, a socket, a buffer).
class NmeaStreamSource : public NmeaSource {
    Q_OBJECT
public:
    /// `device` must outlive the source or be deleted through the event loop; it is not owned.
    NmeaStreamSource(const QString& name, QIODevice* device, QObject* parent = nullptr);

protected:
    void open() override;
    void close() override;

private:
    QPointer<QIODevice> m_device;
};

/// Time between attempts to connect: doubles from `first` to `longest`, and starts anew when bytes arrive.
struct Backoff {
    std::chrono::milliseconds first{500};
    std::chrono::milliseconds longest{15000};
};

} // namespace rillmark::platform
