// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/position_fix.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// NMEA 0183 sentences: from bytes to checked fields. Facts after "NMEA Revealed" (gpsd project, www/NMEA.adoc).
//
// Why not the NMEA reader of the platform's positioning library: it gives no fix quality, no GST, no geoid separation
// and no counts of damaged sentences, decides by itself which fixes to pass on, and cannot be fuzzed without Qt.

namespace rillmark {

/// XOR of the characters between `$` and `*`.
[[nodiscard]] std::uint8_t nmea_checksum(std::string_view body);

/// What came out of one stretch of bytes that began with `$`.
struct NmeaLine {
    enum class Check { Ok, Wrong, Missing };
    Check check = Check::Missing;
    std::string body; // between `$` and `*` (or the end)
};

/// Cuts a stream of bytes into sentences. Resynchronises on every `$`, so that binary frames, log comments and cut lines
/// between the sentences do no harm; a sentence ends with CR, LF or both. What is longer than kLongestSentence or holds
/// other bytes than printable ASCII was never a sentence and is dropped without a count.
class NmeaFramer {
public:
    static constexpr std::size_t kLongestSentence = 512; // the standard says 82; real receivers exceed it

    /// The sentences completed by these bytes, good or damaged. Keeps the unfinished rest for the next call.
    [[nodiscard]] std::vector<NmeaLine> feed(std::string_view bytes);
    /// What the stream ends with, if it is a sentence without an end of line.
    [[nodiscard]] std::vector<NmeaLine> finish();
    /// Forgets the unfinished rest, as after a lost connection.
    void reset();

private:
    bool m_inside = false;
    bool m_comment = false;    // a line of a log archive that starts with #
    bool m_line_start = true;
    std::string m_partial;
};

/// The fields of a checked sentence; [0] is talker and type ("GNGGA").
[[nodiscard]] std::vector<std::string_view> nmea_fields(std::string_view body);

struct NmeaDate {
    int year = 0; // four digits
    int month = 0;
    int day = 0;
};

/// GGA: a fix with quality and height. Absent fields are nullopt.
struct GgaSentence {
    std::optional<double> time_of_day_s;
    std::optional<double> latitude_deg;
    std::optional<double> longitude_deg;
    FixQuality quality = FixQuality::None;
    std::optional<int> satellites;
    std::optional<double> hdop;
    std::optional<double> height_msl_m;
    std::optional<double> geoid_separation_m;
};

/// GST: what the receiver thinks of its own accuracy.
struct GstSentence {
    std::optional<double> time_of_day_s;
    std::optional<double> u_north_m;
    std::optional<double> u_east_m;
    std::optional<double> u_up_m;
};

/// RMC: the date, and a position without height.
struct RmcSentence {
    std::optional<double> time_of_day_s;
    bool valid = false; // status A
    std::optional<double> latitude_deg;
    std::optional<double> longitude_deg;
    std::optional<NmeaDate> date; // two-digit years: 80 to 99 are 1980 to 1999
    FixQuality quality = FixQuality::Unknown; // from the mode field of NMEA 2.3 and later
};

struct ZdaSentence {
    std::optional<double> time_of_day_s;
    std::optional<NmeaDate> date;
};

/// GSA: whether the fix has a height.
struct GsaSentence {
    int dimensions = 0; // 0 = no fix or not said, 2, 3
};

// Each of these refuses (nullopt) a sentence of another type, one with too few fields, and one in which a field that is
// there does not read as what it should be: an even number of flipped characters passes the checksum.
[[nodiscard]] std::optional<GgaSentence> parse_gga(const std::vector<std::string_view>& fields);
[[nodiscard]] std::optional<GstSentence> parse_gst(const std::vector<std::string_view>& fields);
[[nodiscard]] std::optional<RmcSentence> parse_rmc(const std::vector<std::string_view>& fields);
[[nodiscard]] std::optional<ZdaSentence> parse_zda(const std::vector<std::string_view>& fields);
[[nodiscard]] std::optional<GsaSentence> parse_gsa(const std::vector<std::string_view>& fields);

/// Degrees from "ddmm.mmmm" and its hemisphere letter; the two digits before the point are minutes. Refuses minutes of
/// 60 and more, a letter that does not fit, and degrees beyond `limit_deg` (90 or 180).
[[nodiscard]] std::optional<double> nmea_degrees(std::string_view text, std::string_view hemisphere, double limit_deg);

/// Seconds of the day from "hhmmss.sss". Second 60 (a leap second) is taken.
[[nodiscard]] std::optional<double> nmea_time_of_day(std::string_view text);

/// Seconds since 1970 of 0 h UTC of a date; the date must exist.
[[nodiscard]] std::optional<double> midnight_utc_s(const NmeaDate& date);

} // namespace rillmark
