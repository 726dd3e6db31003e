// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/replay_source.h"
#include "units/constants.h"

#include <QFileInfo>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

namespace rillmark::platform {

namespace {

// Lines taken in one go before the event loop has its turn again.
constexpr int kLinesAtOnce = 200;
// A file without line ends must not be read as one endless line.
constexpr qint64 kLongestLine = 4096;

std::optional<double> time_in(const QByteArray& line) {
    const qsizetype start = line.indexOf('$');
    if (start < 0)
        return {};
    const std::string_view text(line.constData() + start + 1, static_cast<std::size_t>(line.size() - start - 1));
    const std::vector<std::string_view> fields = nmea_fields(text.substr(0, text.find('*')));
    if (fields.size() < 2 || fields[0].size() != 5)
        return {};
    const std::string_view type = fields[0].substr(2);
    if (type != "GGA" && type != "RMC" && type != "ZDA")
        return {};
    return nmea_time_of_day(fields[1]);
}

} // namespace

ReplaySource::ReplaySource(const QString& file, const ReplayOptions& options, QObject* parent)
    : NmeaSource(QFileInfo(file).fileName(), {}, parent), m_file(file), m_options(options) {
    if (!(m_options.speed >= kSlowest)) // also where it is not a number
        m_options.speed = kSlowest;
    m_next.setSingleShot(true);
    m_next.setTimerType(Qt::PreciseTimer);
    connect(&m_next, &QTimer::timeout, this, &ReplaySource::play);
}

void ReplaySource::open() {
    if (!m_file.open(QIODevice::ReadOnly)) {
        noteFailed(refusal("position.log_unreadable", m_file.fileName().toStdString(),
                           {{"reason", m_file.errorString().toStdString()}}));
        return;
    }
    restartStream();
    m_held.clear();
    m_time_of_day_s.reset();
    noteConnected();
    m_next.start(0);
}

void ReplaySource::close() {
    m_next.stop();
    m_file.close();
}

void ReplaySource::play() {
    for (int i = 0; i < kLinesAtOnce; ++i) {
        if (!m_held.isEmpty())
            take(std::exchange(m_held, {}));
        if (!running())
            return; // stopped by whoever got the fix
        const QByteArray line = m_file.readLine(kLongestLine);
        if (line.isEmpty()) {
            end_of_log();
            return;
        }
        const double wait_ms = 1000.0 * pause_before_s(line) / m_options.speed;
        m_held = line;
        if (wait_ms >= 1.0) {
            m_next.start(static_cast<int>(std::lround(wait_ms)));
            return;
        }
    }
    m_next.start(0);
}

void ReplaySource::end_of_log() {
    finishStream();
    if (m_options.loop && m_file.size() > 0 && m_file.seek(0)) {
        restartStream();
        m_time_of_day_s.reset();
        m_next.start(0);
        return;
    }
    m_file.close();
    noteDisconnected(note("position.log_ended", name().toStdString()));
}

double ReplaySource::pause_before_s(const QByteArray& line) {
    const std::optional<double> time_of_day_s = time_in(line);
    if (!time_of_day_s)
        return 0.0;
    double later_s = 0.0;
    if (m_time_of_day_s)
        later_s = std::remainder(*time_of_day_s - *m_time_of_day_s, kSecondsPerDay);
    m_time_of_day_s = time_of_day_s;
    return std::clamp(later_s, 0.0, kLongestPause_s);
}

} // namespace rillmark::platform
