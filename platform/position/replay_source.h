// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/nmea_source.h"

#include <QFile>

namespace rillmark::platform {

struct ReplayOptions {
    double speed = 1.0; // times real time, at least kSlowest; infinity plays as fast as the program takes it
    bool loop = false;  // begin again at the end
};

/// Plays back an NMEA log. Bytes go through the same reader as those of a live receiver; the pace is that of the times
/// in the log, with gaps and jumps shortened to kLongestPause_s, so that a log with a hole keeps going.
class ReplaySource : public NmeaSource {
    Q_OBJECT
public:
    static constexpr double kLongestPause_s = 10.0;
    static constexpr double kSlowest = 0.01;

    ReplaySource(const QString& file, const ReplayOptions& options = {}, QObject* parent = nullptr);

protected:
    void open() override;
    void close() override;

private:
    void play();
    void end_of_log();
    /// How long to wait before this line, by its time and that of the line before it.
    [[nodiscard]] double pause_before_s(const QByteArray& line);

    QFile m_file;
    ReplayOptions m_options;
    QTimer m_next;
    QByteArray m_held; // read, but its time has not come
    std::optional<double> m_time_of_day_s;
};

} // namespace rillmark::platform
