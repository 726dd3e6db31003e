// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <optional>
#include <string>
#include <string_view>

namespace rillmark {

/// What kind of solution a receiver says that a fix is (NMEA 0183 GGA field 6; "NMEA Revealed", gpsd project, GGA).
enum class FixQuality {
    None,          // 0: no fix; coordinates, if any, are old ones
    Autonomous,    // 1
    Differential,  // 2: differential or SBAS
    Pps,           // 3: precise service
    RtkFixed,      // 4
    RtkFloat,      // 5
    DeadReckoning, // 6: estimated, not measured
    Manual,        // 7: typed in
    Simulator,     // 8
    Unknown,       // the source does not say (a device's own position service, RMC without a mode)
};

/// One position as a receiver gave it, on WGS 84 (or the datum that its corrections are on).
struct PositionFix {
    std::string time_utc; // ISO 8601, UTC, milliseconds
    double time_s = 0.0;  // the same instant in seconds since 1970-01-01T00:00:00Z
    double latitude_deg = 0.0;  // -90..90, north positive
    double longitude_deg = 0.0; // -180..180, east positive
    std::optional<double> height_ellipsoid_m;  // h
    std::optional<double> height_msl_m;        // H, above the receiver's own geoid model
    std::optional<double> geoid_separation_m;  // N = h - H as the receiver has it: coarse, metres off at worst
    // Standard uncertainties that the receiver claims for itself (GST, or its accuracy figure brought to one axis).
    std::optional<double> u_east_m;
    std::optional<double> u_north_m;
    std::optional<double> u_up_m;
    std::optional<double> hdop;
    std::optional<int> satellites;
    FixQuality quality = FixQuality::None;
    std::string source; // name of the receiver or log
};

/// Stable id of a quality for files and words: "none", "autonomous", "differential", "pps", "rtk-fixed", "rtk-float",
/// "dead-reckoning", "manual", "simulator", "unknown".
[[nodiscard]] std::string_view fix_quality_id(FixQuality quality);
/// The quality for an id; Unknown for an id that this version does not know.
[[nodiscard]] FixQuality fix_quality_from_id(std::string_view id);

/// Whether a fix of this quality was measured and may become a station: yes for 1 to 5 and Unknown, no for no fix, dead
/// reckoning, typed-in and simulated positions (a design choice; the meaning of the codes is that of GGA field 6).
[[nodiscard]] bool usable_as_station(FixQuality quality);

/// From better to worse: RTK fixed, RTK float, differential, precise, autonomous, unknown, then those not measured.
[[nodiscard]] bool better(FixQuality a, FixQuality b);

/// Standard uncertainty along one horizontal axis and upwards.
struct FixClaim {
    double horizontal_axis_m = 0.0;
    double up_m = 0.0;
};

/// What is assumed for a receiver that states no accuracy, open sky and HDOP 1 (from memory, unconfirmed; the ratio of
/// vertical to horizontal, 1.5 to 2, is common practice, no source). Scale by HDOP where it is above 1.
[[nodiscard]] FixClaim default_claim(FixQuality quality);

/// The claim of one fix: the receiver's own where it is given, finite and above zero, else the default of its quality
/// times max(1, HDOP).
struct FixUncertainty {
    double east_m = 0.0;
    double north_m = 0.0;
    double up_m = 0.0;
};
[[nodiscard]] FixUncertainty claimed_uncertainty(const PositionFix& fix);

/// Whether a fix can stand for a place that was visited.
///
/// Refuses: numbers that are not finite (`position.not_finite`); quality None, with coordinates or without
/// (`position.no_fix`); a quality that was not measured (`position.not_measured`); latitude or longitude outside their
/// range (`position.out_of_range`); 0 N 0 E and its surroundings (`position.zero_zero`); a height outside what the
/// surface of the Earth has (`position.height_out_of_range`). Missing heights are fine: a 2D fix has none.
[[nodiscard]] Expected<void> plausible(const PositionFix& fix);

/// "2026-03-01T07:08:09.125Z" for seconds since 1970, rounded to the millisecond. Empty outside the years 1 to 9999 or
/// when not finite.
[[nodiscard]] std::string iso_utc(double time_s);

} // namespace rillmark
