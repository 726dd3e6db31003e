// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/position_fix.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstddef>

namespace rillmark {

namespace {

// The lowest land is about -430 m and the highest about 8850 m above the sea; the geoid lies within 110 m of the
// ellipsoid (general knowledge, rounded outwards).
constexpr double kLowestGround_m = -600.0;
constexpr double kHighestGround_m = 9000.0;

// 0 N 0 E is what broken receivers send. It is open sea for hundreds of kilometres; 0.01 degrees is about 1 km.
constexpr double kAroundZero_deg = 0.01;

struct QualityEntry {
    FixQuality quality;
    std::string_view id;
    int rank; // 0 = best
    bool measured;
    FixClaim claim;
};

// The claims are from memory and unconfirmed: open sky, HDOP 1, one standard deviation. Those of qualities that were not
// measured are only there so that no such fix looks good.
constexpr std::array<QualityEntry, 10> kQualities{{
    {FixQuality::RtkFixed, "rtk-fixed", 0, true, {0.02, 0.03}},
    {FixQuality::RtkFloat, "rtk-float", 1, true, {0.3, 0.5}},
    {FixQuality::Differential, "differential", 2, true, {1.5, 2.5}},
    {FixQuality::Pps, "pps", 3, true, {2.0, 3.5}},
    {FixQuality::Autonomous, "autonomous", 4, true, {3.0, 5.5}},
    {FixQuality::Unknown, "unknown", 5, true, {5.0, 9.0}},
    {FixQuality::DeadReckoning, "dead-reckoning", 6, false, {100.0, 100.0}},
    {FixQuality::Manual, "manual", 7, false, {100.0, 100.0}},
    {FixQuality::Simulator, "simulator", 8, false, {100.0, 100.0}},
    {FixQuality::None, "none", 9, false, {100.0, 100.0}},
}};

const QualityEntry& entry_of(FixQuality quality) {
    const auto hit = std::find_if(kQualities.begin(), kQualities.end(),
                                  [quality](const QualityEntry& entry) { return entry.quality == quality; });
    return hit == kQualities.end() ? kQualities.back() : *hit;
}

double claim_or(const std::optional<double>& claimed, double fallback) {
    return claimed && std::isfinite(*claimed) && *claimed > 0.0 ? *claimed : fallback;
}

bool finite_if_there(const std::optional<double>& value) {
    return !value || std::isfinite(*value);
}

} // namespace

std::string_view fix_quality_id(FixQuality quality) {
    return entry_of(quality).id;
}

FixQuality fix_quality_from_id(std::string_view id) {
    const auto hit = std::find_if(kQualities.begin(), kQualities.end(),
                                  [id](const QualityEntry& entry) { return entry.id == id; });
    return hit == kQualities.end() ? FixQuality::Unknown : hit->quality;
}

bool usable_as_station(FixQuality quality) {
    return entry_of(quality).measured;
}

bool better(FixQuality a, FixQuality b) {
    return entry_of(a).rank < entry_of(b).rank;
}

FixClaim default_claim(FixQuality quality) {
    return entry_of(quality).claim;
}

FixUncertainty claimed_uncertainty(const PositionFix& fix) {
    const double dilution = std::max(1.0, claim_or(fix.hdop, 1.0));
    const FixClaim fallback = default_claim(fix.quality);
    return {claim_or(fix.u_east_m, fallback.horizontal_axis_m * dilution),
            claim_or(fix.u_north_m, fallback.horizontal_axis_m * dilution),
            claim_or(fix.u_up_m, fallback.up_m * dilution)};
}

Expected<void> plausible(const PositionFix& fix) {
    const std::string quality{fix_quality_id(fix.quality)};
    if (fix.quality == FixQuality::None)
        return refusal("position.no_fix");
    if (!usable_as_station(fix.quality))
        return refusal("position.not_measured", {}, {{"quality", quality}});
    if (!std::isfinite(fix.time_s) || !std::isfinite(fix.latitude_deg) || !std::isfinite(fix.longitude_deg) ||
        !finite_if_there(fix.height_ellipsoid_m) || !finite_if_there(fix.height_msl_m) ||
        !finite_if_there(fix.geoid_separation_m))
        return refusal("position.not_finite");
    if (std::abs(fix.latitude_deg) > 90.0 || std::abs(fix.longitude_deg) > 180.0)
        return refusal("position.out_of_range", {},
                       {{"latitude", fix.latitude_deg, Quantity::Coordinate},
                        {"longitude", fix.longitude_deg, Quantity::Coordinate}});
    if (std::abs(fix.latitude_deg) < kAroundZero_deg && std::abs(fix.longitude_deg) < kAroundZero_deg)
        return refusal("position.zero_zero");
    for (const std::optional<double>& height : {fix.height_msl_m, fix.height_ellipsoid_m})
        if (height && (*height < kLowestGround_m || *height > kHighestGround_m))
            return refusal("position.height_out_of_range", {}, {{"height", *height, Quantity::Length}});
    return {};
}

std::string iso_utc(double time_s) {
    // 0001-01-01 and 9999-12-31 in seconds since 1970.
    constexpr double kFirst_s = -62135596800.0;
    constexpr double kLast_s = 253402300799.0;
    if (!(time_s >= kFirst_s && time_s <= kLast_s))
        return {};
    using namespace std::chrono;
    const sys_time<milliseconds> instant{milliseconds{std::llround(time_s * 1000.0)}};
    const auto day = floor<days>(instant);
    const year_month_day date{day};
    const hh_mm_ss<milliseconds> clock{instant - day};
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{:03}Z", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), clock.hours().count(),
                       clock.minutes().count(), clock.seconds().count(), clock.subseconds().count());
}

} // namespace rillmark
