// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/nmea_sentence.h"

#include "units/constants.h"
#include "units/digit.h"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>

namespace rillmark {

namespace {

// Two-digit years from here on belong to the last century: the satellites began in 1980.
constexpr int kFirstYearOf1900s = 80;

bool all_digits(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

std::optional<int> hex_digit(char c) {
    if (is_digit(c))
        return c - '0';
    if (c >= 'A' && c <= 'F')
        return c - 'A' + 10;
    if (c >= 'a' && c <= 'f')
        return c - 'a' + 10;
    return {};
}

// Plain decimal numbers only: no exponent, no "inf", no "nan".
std::optional<double> number(std::string_view text) {
    const std::string_view digits = text.substr(!text.empty() && (text[0] == '-' || text[0] == '+') ? 1 : 0);
    if (digits.empty() || !std::all_of(digits.begin(), digits.end(), [](char c) { return is_digit(c) || c == '.'; }))
        return {};
    if (text[0] == '+')
        text.remove_prefix(1);
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size())
        return {};
    return value;
}

std::optional<int> small_integer(std::string_view text) {
    if (!all_digits(text) || text.size() > 4)
        return {};
    int value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

bool is_type(const std::vector<std::string_view>& fields, std::string_view type) {
    // Talker of two letters and type of three; proprietary sentences ("PUBX") never match.
    return !fields.empty() && fields[0].size() == 5 && fields[0][0] != 'P' && fields[0].substr(2) == type;
}

// Reads an optional field: nothing where it is empty, and `good` goes false where it does not read.
class FieldReader {
public:
    explicit FieldReader(const std::vector<std::string_view>& fields) : m_fields(fields) {}

    [[nodiscard]] std::string_view text(std::size_t i) const {
        return i < m_fields.size() ? m_fields[i] : std::string_view{};
    }
    std::optional<double> real(std::size_t i) { return read(i, number); }
    std::optional<int> integer(std::size_t i) { return read(i, small_integer); }
    std::optional<double> time(std::size_t i) { return read(i, nmea_time_of_day); }
    std::optional<double> degrees(std::size_t i, double limit_deg) {
        return read(
            i, [this, i, limit_deg](std::string_view value) { return nmea_degrees(value, text(i + 1), limit_deg); });
    }
    std::optional<double> not_negative(std::size_t i) {
        const std::optional<double> value = real(i);
        if (value && *value < 0.0)
            m_good = false;
        return value;
    }
    [[nodiscard]] bool good() const { return m_good; }

private:
    template <class Read>
    auto read(std::size_t i, Read read_text) -> decltype(read_text(std::string_view{})) {
        if (text(i).empty())
            return {};
        auto value = read_text(text(i));
        if (!value)
            m_good = false;
        return value;
    }

    const std::vector<std::string_view>& m_fields;
    bool m_good = true;
};

std::optional<FixQuality> gga_quality(std::string_view text) {
    if (text.empty())
        return FixQuality::None; // some receivers leave it empty until the first fix
    constexpr std::string_view kDigits = "012345678";
    constexpr FixQuality kQualities[] = {FixQuality::None,          FixQuality::Autonomous, FixQuality::Differential,
                                         FixQuality::Pps,           FixQuality::RtkFixed,   FixQuality::RtkFloat,
                                         FixQuality::DeadReckoning, FixQuality::Manual,     FixQuality::Simulator};
    const std::size_t at = text.size() == 1 ? kDigits.find(text[0]) : std::string_view::npos;
    if (at == std::string_view::npos)
        return {};
    return kQualities[at];
}

FixQuality rmc_quality(std::string_view mode) {
    switch (mode.size() == 1 ? mode[0] : ' ') {
    case 'A':
        return FixQuality::Autonomous;
    case 'D':
        return FixQuality::Differential;
    case 'P':
        return FixQuality::Pps;
    case 'R':
        return FixQuality::RtkFixed;
    case 'F':
        return FixQuality::RtkFloat;
    case 'E':
        return FixQuality::DeadReckoning;
    case 'M':
        return FixQuality::Manual;
    case 'S':
        return FixQuality::Simulator;
    case 'N':
        return FixQuality::None;
    default:
        return FixQuality::Unknown;
    }
}

std::optional<NmeaDate> existing(const NmeaDate& date) {
    if (!midnight_utc_s(date))
        return {};
    return date;
}

std::optional<NmeaDate> ddmmyy(std::string_view text) {
    if (text.size() != 6 || !all_digits(text))
        return {};
    const int day = *small_integer(text.substr(0, 2));
    const int month = *small_integer(text.substr(2, 2));
    const int year = *small_integer(text.substr(4, 2));
    return existing({year + (year < kFirstYearOf1900s ? 2000 : 1900), month, day});
}

NmeaLine checked_line(std::string_view text) {
    const std::size_t star = text.find('*');
    NmeaLine line{NmeaLine::Check::Missing, std::string(text.substr(0, star))};
    if (star == std::string_view::npos || text.size() < star + 3)
        return line;
    const std::optional<int> high = hex_digit(text[star + 1]);
    const std::optional<int> low = hex_digit(text[star + 2]);
    if (!high || !low)
        return line;
    line.check = *high * 16 + *low == nmea_checksum(line.body) ? NmeaLine::Check::Ok : NmeaLine::Check::Wrong;
    return line;
}

} // namespace

std::uint8_t nmea_checksum(std::string_view body) {
    unsigned sum = 0;
    for (const char c : body)
        sum ^= static_cast<unsigned char>(c);
    return static_cast<std::uint8_t>(sum);
}

std::vector<NmeaLine> NmeaFramer::feed(std::string_view bytes) {
    std::vector<NmeaLine> lines;
    for (const char c : bytes) {
        const bool end_of_line = c == '\r' || c == '\n';
        if (end_of_line || c == '$') {
            if (m_inside)
                lines.push_back(checked_line(m_partial)); // cut short by a `$`, it has no checksum
            m_partial.clear();
            m_inside = c == '$' && !m_comment;
            if (end_of_line)
                m_comment = false;
        } else if (m_line_start && c == '#') {
            m_comment = true;
        } else if (m_inside) {
            m_partial.push_back(c);
            const bool text = c >= ' ' && c <= '~';
            if (!text || m_partial.size() > kLongestSentence) { // a `$` of a binary frame began it
                m_inside = false;
                m_partial.clear();
            }
        }
        m_line_start = end_of_line;
    }
    return lines;
}

std::vector<NmeaLine> NmeaFramer::finish() {
    return feed("\n");
}

void NmeaFramer::reset() {
    *this = NmeaFramer{};
}

std::vector<std::string_view> nmea_fields(std::string_view body) {
    std::vector<std::string_view> fields;
    for (std::size_t start = 0;;) {
        const std::size_t comma = body.find(',', start);
        fields.push_back(body.substr(start, comma - start));
        if (comma == std::string_view::npos)
            return fields;
        start = comma + 1;
    }
}

std::optional<GgaSentence> parse_gga(const std::vector<std::string_view>& fields) {
    constexpr std::size_t kFewest = 10; // the last ones (age of corrections, station) are often left out
    if (!is_type(fields, "GGA") || fields.size() < kFewest)
        return {};
    FieldReader reader(fields);
    GgaSentence gga;
    gga.time_of_day_s = reader.time(1);
    gga.latitude_deg = reader.degrees(2, 90.0);
    gga.longitude_deg = reader.degrees(4, 180.0);
    const std::optional<FixQuality> quality = gga_quality(reader.text(6));
    gga.satellites = reader.integer(7);
    gga.hdop = reader.not_negative(8);
    gga.height_msl_m = reader.real(9);
    gga.geoid_separation_m = reader.real(11);
    if (!quality || !reader.good())
        return {};
    gga.quality = *quality;
    return gga;
}

std::optional<GstSentence> parse_gst(const std::vector<std::string_view>& fields) {
    constexpr std::size_t kFewest = 9;
    if (!is_type(fields, "GST") || fields.size() < kFewest)
        return {};
    FieldReader reader(fields);
    GstSentence gst;
    gst.time_of_day_s = reader.time(1);
    gst.u_north_m = reader.not_negative(6);
    gst.u_east_m = reader.not_negative(7);
    gst.u_up_m = reader.not_negative(8);
    return reader.good() ? std::optional{gst} : std::nullopt;
}

std::optional<RmcSentence> parse_rmc(const std::vector<std::string_view>& fields) {
    constexpr std::size_t kFewest = 10;
    if (!is_type(fields, "RMC") || fields.size() < kFewest)
        return {};
    FieldReader reader(fields);
    RmcSentence rmc;
    rmc.time_of_day_s = reader.time(1);
    rmc.valid = reader.text(2) == "A";
    rmc.latitude_deg = reader.degrees(3, 90.0);
    rmc.longitude_deg = reader.degrees(5, 180.0);
    rmc.date = ddmmyy(reader.text(9)); // a broken date is no reason to lose the position
    rmc.quality = rmc_quality(reader.text(12));
    return reader.good() ? std::optional{rmc} : std::nullopt;
}

std::optional<ZdaSentence> parse_zda(const std::vector<std::string_view>& fields) {
    constexpr std::size_t kFewest = 5;
    if (!is_type(fields, "ZDA") || fields.size() < kFewest)
        return {};
    FieldReader reader(fields);
    ZdaSentence zda;
    zda.time_of_day_s = reader.time(1);
    const std::optional<int> day = reader.integer(2);
    const std::optional<int> month = reader.integer(3);
    const std::optional<int> year = reader.integer(4);
    if (day && month && year)
        zda.date = existing({*year, *month, *day});
    return reader.good() ? std::optional{zda} : std::nullopt;
}

std::optional<GsaSentence> parse_gsa(const std::vector<std::string_view>& fields) {
    constexpr std::size_t kFewest = 3;
    if (!is_type(fields, "GSA") || fields.size() < kFewest)
        return {};
    FieldReader reader(fields);
    const int mode = reader.integer(2).value_or(0);
    if (!reader.good() || mode > 3)
        return {};
    return GsaSentence{mode >= 2 ? mode : 0};
}

std::optional<double> nmea_degrees(std::string_view text, std::string_view hemisphere, double limit_deg) {
    const std::size_t point = std::min(text.find('.'), text.size());
    constexpr std::size_t kMostDigits = 5; // dddmm
    if (point < 3 || point > kMostDigits || !all_digits(text.substr(0, point)))
        return {};
    const bool of_latitude = limit_deg <= 90.0;
    const std::string_view letters = of_latitude ? "NS" : "EW";
    if (hemisphere.size() != 1 || letters.find(hemisphere[0]) == std::string_view::npos)
        return {};
    const std::optional<int> degrees = small_integer(text.substr(0, point - 2));
    const std::optional<double> minutes = number(text.substr(point - 2));
    if (!degrees || !minutes || *minutes >= 60.0)
        return {};
    const double value = *degrees + *minutes / 60.0;
    if (value > limit_deg)
        return {};
    return hemisphere[0] == letters[1] ? -value : value;
}

std::optional<double> nmea_time_of_day(std::string_view text) {
    if (text.size() < 6 || !all_digits(text.substr(0, 6)) || (text.size() > 6 && text[6] != '.'))
        return {};
    const int hours = *small_integer(text.substr(0, 2));
    const int minutes = *small_integer(text.substr(2, 2));
    const std::optional<double> seconds = number(text.substr(4));
    if (!seconds || hours > 23 || minutes > 59 || *seconds >= 61.0)
        return {};
    return hours * 3600.0 + minutes * 60.0 + *seconds;
}

std::optional<double> midnight_utc_s(const NmeaDate& date) {
    using namespace std::chrono;
    const year_month_day day{year{date.year}, month{static_cast<unsigned>(date.month)},
                             std::chrono::day{static_cast<unsigned>(date.day)}};
    constexpr int kLastYear = 9999;
    if (date.year < 1 || date.year > kLastYear || date.month < 1 || date.day < 1 || !day.ok())
        return {};
    return static_cast<double>(sys_days{day}.time_since_epoch().count()) * kSecondsPerDay;
}

} // namespace rillmark
