// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/nmea_sentence.h"

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

/// What went through a reader since it was made.
struct NmeaCounts {
    std::size_t checksum_ok = 0;
    std::size_t checksum_wrong = 0;
    std::size_t checksum_missing = 0;
    std::size_t unreadable = 0; // right checksum, but a field that does not read
    std::size_t rolled_over = 0; // dates moved on by 1024 weeks
    std::map<std::string, std::size_t> by_tag; // "GNGGA": how many with a right checksum
    std::size_t epochs = 0;
};

struct NmeaOptions {
    std::string source; // name given to the fixes
    /// A date before this is taken for a receiver whose GPS week counter has rolled over, and moved on by 1024 weeks
    /// until it is not. Leave out for old logs.
    std::optional<double> earliest_s;
};

/// Merges the sentences of one epoch (GGA, GST, RMC, ZDA, GSA of any talker) to one fix.
///
/// An epoch ends when a sentence with another time arrives, or with flush() when the line has been quiet. Of several GGA
/// in one epoch (a receiver that reports each satellite system apart) the best is kept: better quality, then lower HDOP.
/// Where there is no GGA, a valid RMC makes a fix without height. When GSA says 2D, the heights are dropped. An epoch
/// without a fix comes out with quality None, so that the caller can say that the receiver is searching; whether a fix
/// may be used is for plausible() to say. A time that was already given out is not given out again.
///
/// The date is that of the last RMC or ZDA; before the first of them it is that of `now_s` (nearest midnight).
class NmeaReader {
public:
    explicit NmeaReader(NmeaOptions options = {});

    /// The fixes completed by these bytes. `now_s`: the clock of the device, seconds since 1970.
    [[nodiscard]] std::vector<PositionFix> feed(std::string_view bytes, double now_s);
    /// The fix of the epoch in progress, when nothing has arrived for a while.
    [[nodiscard]] std::vector<PositionFix> flush(double now_s);
    /// The fixes left at the end of the stream, whose last sentence may lack its end of line.
    [[nodiscard]] std::vector<PositionFix> finish(double now_s);
    /// Forgets the epoch in progress and half a sentence, as after a lost connection.
    void reset();
    [[nodiscard]] const NmeaCounts& counts() const { return m_counts; }

private:
    struct Epoch {
        std::optional<double> time_of_day_s;
        std::optional<GgaSentence> gga;
        std::optional<GstSentence> gst;
        std::optional<RmcSentence> rmc;
    };

    void take_line(const NmeaLine& line, double now_s, std::vector<PositionFix>& out);
    void take_gga(const GgaSentence& gga, double now_s, std::vector<PositionFix>& out);
    bool enter(std::optional<double> time_of_day_s, double now_s, std::vector<PositionFix>& out);
    void close_epoch(double now_s, std::vector<PositionFix>& out);
    void take_date(const std::optional<NmeaDate>& date, std::optional<double> time_of_day_s);
    [[nodiscard]] PositionFix merged(double now_s) const;
    [[nodiscard]] double instant_s(double time_of_day_s, double now_s) const;

    NmeaOptions m_options;
    NmeaFramer m_framer;
    NmeaCounts m_counts;
    Epoch m_epoch;
    std::optional<double> m_last_time_of_day_s; // of the last epoch given out
    std::optional<double> m_midnight_s;         // of the last date seen
    std::optional<double> m_date_time_of_day_s; // time that came with that date
    int m_dimensions = 0;
};

} // namespace rillmark
