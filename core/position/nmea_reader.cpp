// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/nmea_reader.h"

#include "units/constants.h"

#include <cmath>
#include <limits>
#include <utility>

namespace rillmark {

namespace {

// GPS counts weeks in ten bits (IS-GPS-200, legacy navigation message; from memory, unconfirmed).
constexpr double kRollover_s = 1024.0 * 7.0 * kSecondsPerDay;

// A time up to this long before the last one given out is a late sentence of an old epoch, not a new one (own choice:
// receivers that interleave talkers are one or two seconds out of order; a log that starts again jumps further).
constexpr double kLateSentence_s = 5.0;

// Sentences of one epoch print its time with a different number of decimals.
constexpr double kSameEpoch_s = 0.005;

// How much later `a` is than `b` on the clock face, -12 h to +12 h.
double later_by_s(double a, double b) {
    return std::remainder(a - b, kSecondsPerDay);
}

bool has_position(const GgaSentence& gga) {
    return gga.latitude_deg && gga.longitude_deg;
}

bool better_gga(const GgaSentence& a, const GgaSentence& b) {
    if (a.quality != b.quality)
        return better(a.quality, b.quality);
    constexpr double kUnknown = std::numeric_limits<double>::max();
    return a.hdop.value_or(kUnknown) < b.hdop.value_or(kUnknown);
}

} // namespace

NmeaReader::NmeaReader(NmeaOptions options) : m_options(std::move(options)) {}

std::vector<PositionFix> NmeaReader::feed(std::string_view bytes, double now_s) {
    std::vector<PositionFix> fixes;
    for (const NmeaLine& line : m_framer.feed(bytes))
        take_line(line, now_s, fixes);
    return fixes;
}

std::vector<PositionFix> NmeaReader::flush(double now_s) {
    std::vector<PositionFix> fixes;
    close_epoch(now_s, fixes);
    return fixes;
}

std::vector<PositionFix> NmeaReader::finish(double now_s) {
    std::vector<PositionFix> fixes;
    for (const NmeaLine& line : m_framer.finish())
        take_line(line, now_s, fixes);
    close_epoch(now_s, fixes);
    return fixes;
}

void NmeaReader::reset() {
    m_framer.reset();
    m_epoch = {};
    m_last_time_of_day_s.reset();
    m_dimensions = 0;
}

void NmeaReader::take_line(const NmeaLine& line, double now_s, std::vector<PositionFix>& out) {
    switch (line.check) {
    case NmeaLine::Check::Missing:
        ++m_counts.checksum_missing;
        return;
    case NmeaLine::Check::Wrong:
        ++m_counts.checksum_wrong;
        return;
    case NmeaLine::Check::Ok:
        ++m_counts.checksum_ok;
        break;
    }
    const std::vector<std::string_view> fields = nmea_fields(line.body);
    const std::string_view tag = fields[0];
    constexpr std::size_t kTagSize = 5;
    if (tag.size() != kTagSize)
        return;
    ++m_counts.by_tag[std::string(tag)];
    const std::string_view type = tag.substr(2);
    bool readable = true;
    if (type == "GGA") {
        const std::optional<GgaSentence> gga = parse_gga(fields);
        if ((readable = gga.has_value()))
            take_gga(*gga, now_s, out);
    } else if (type == "GST") {
        const std::optional<GstSentence> gst = parse_gst(fields);
        if ((readable = gst.has_value()) && enter(gst->time_of_day_s, now_s, out))
            m_epoch.gst = gst;
    } else if (type == "RMC") {
        const std::optional<RmcSentence> rmc = parse_rmc(fields);
        if ((readable = rmc.has_value()) && enter(rmc->time_of_day_s, now_s, out)) {
            m_epoch.rmc = rmc;
            take_date(rmc->date, rmc->time_of_day_s);
        }
    } else if (type == "ZDA") {
        const std::optional<ZdaSentence> zda = parse_zda(fields);
        if ((readable = zda.has_value()) && enter(zda->time_of_day_s, now_s, out))
            take_date(zda->date, zda->time_of_day_s);
    } else if (type == "GSA") {
        const std::optional<GsaSentence> gsa = parse_gsa(fields);
        if ((readable = gsa.has_value()))
            m_dimensions = gsa->dimensions;
    }
    if (!readable)
        ++m_counts.unreadable;
}

void NmeaReader::take_gga(const GgaSentence& gga, double now_s, std::vector<PositionFix>& out) {
    if (!gga.time_of_day_s && m_epoch.gga)
        close_epoch(now_s, out); // without a clock each GGA is an epoch of its own
    if (!enter(gga.time_of_day_s, now_s, out))
        return;
    if (!m_epoch.gga || better_gga(gga, *m_epoch.gga))
        m_epoch.gga = gga;
}

// Makes the epoch of this time the current one. False: the sentence is late and belongs to one already given out.
bool NmeaReader::enter(std::optional<double> time_of_day_s, double now_s, std::vector<PositionFix>& out) {
    if (!time_of_day_s) // a receiver without a clock yet
        return true;
    if (m_epoch.time_of_day_s && std::abs(later_by_s(*time_of_day_s, *m_epoch.time_of_day_s)) < kSameEpoch_s)
        return true;
    if (m_last_time_of_day_s) {
        const double later_s = later_by_s(*time_of_day_s, *m_last_time_of_day_s);
        if (later_s < kSameEpoch_s && later_s > -kLateSentence_s)
            return false;
    }
    close_epoch(now_s, out);
    m_epoch.time_of_day_s = time_of_day_s;
    return true;
}

void NmeaReader::close_epoch(double now_s, std::vector<PositionFix>& out) {
    if (m_epoch.gga || m_epoch.rmc) {
        out.push_back(merged(now_s));
        ++m_counts.epochs;
        if (m_epoch.time_of_day_s)
            m_last_time_of_day_s = m_epoch.time_of_day_s;
    }
    m_epoch = {};
}

void NmeaReader::take_date(const std::optional<NmeaDate>& date, std::optional<double> time_of_day_s) {
    std::optional<double> midnight_s = date ? midnight_utc_s(*date) : std::nullopt;
    if (!midnight_s)
        return;
    if (m_options.earliest_s && *midnight_s < *m_options.earliest_s) {
        *midnight_s += kRollover_s * std::ceil((*m_options.earliest_s - *midnight_s) / kRollover_s);
        ++m_counts.rolled_over;
    }
    m_midnight_s = midnight_s;
    m_date_time_of_day_s = time_of_day_s;
}

double NmeaReader::instant_s(double time_of_day_s, double now_s) const {
    if (!m_midnight_s)
        return now_s + later_by_s(time_of_day_s, std::fmod(now_s, kSecondsPerDay));
    const double dated_s = m_date_time_of_day_s.value_or(time_of_day_s);
    return *m_midnight_s + dated_s + later_by_s(time_of_day_s, dated_s);
}

PositionFix NmeaReader::merged(double now_s) const {
    PositionFix fix;
    fix.source = m_options.source;
    fix.time_s = m_epoch.time_of_day_s ? instant_s(*m_epoch.time_of_day_s, now_s) : now_s;
    fix.time_utc = iso_utc(fix.time_s);
    if (m_epoch.gga) {
        const GgaSentence& gga = *m_epoch.gga;
        fix.quality = has_position(gga) ? gga.quality : FixQuality::None;
        fix.latitude_deg = gga.latitude_deg.value_or(0.0);
        fix.longitude_deg = gga.longitude_deg.value_or(0.0);
        fix.hdop = gga.hdop;
        fix.satellites = gga.satellites;
        if (m_dimensions != 2) {
            fix.height_msl_m = gga.height_msl_m;
            fix.geoid_separation_m = gga.geoid_separation_m;
            if (gga.height_msl_m && gga.geoid_separation_m)
                fix.height_ellipsoid_m = *gga.height_msl_m + *gga.geoid_separation_m;
        }
    } else if (m_epoch.rmc && m_epoch.rmc->latitude_deg && m_epoch.rmc->longitude_deg) {
        fix.quality = m_epoch.rmc->valid ? m_epoch.rmc->quality : FixQuality::None;
        fix.latitude_deg = *m_epoch.rmc->latitude_deg;
        fix.longitude_deg = *m_epoch.rmc->longitude_deg;
    }
    if (m_epoch.gst) {
        fix.u_east_m = m_epoch.gst->u_east_m;
        fix.u_north_m = m_epoch.gst->u_north_m;
        if (fix.height_msl_m)
            fix.u_up_m = m_epoch.gst->u_up_m;
    }
    return fix;
}

} // namespace rillmark
