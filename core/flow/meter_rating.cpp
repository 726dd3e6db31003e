// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/meter_rating.h"

#include "units/in_range.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace rillmark {

namespace {

constexpr double kLargestSlope_m = 10.0;
constexpr double kLargestConstant_ms = 1.0;
constexpr double kLargestLimit_rev_per_s = 1000.0;
constexpr double kLargestRatedVelocity_ms = 10.0;
constexpr double kLargestGapAtJoint_rel = 0.02;
constexpr double kMostRevolutions = 1e6;
constexpr double kBriefestCount_s = 0.05;
constexpr double kLongestCount_s = 86400.0;

double on_line(const RatingRange& range, double rev_per_s) {
    return range.a_m * rev_per_s + range.b_ms;
}

bool rated_limits_fit(const MeterRating& rating) {
    const double low = rating.min_velocity_ms.value_or(0.0);
    const double high = rating.max_velocity_ms.value_or(kLargestRatedVelocity_ms);
    return in_range(low, 0.0, kLargestRatedVelocity_ms) && in_range(high, low, kLargestRatedVelocity_ms) && high > 0.0;
}

} // namespace

Expected<Findings> check_rating(const MeterRating& rating) {
    Findings findings;
    if (!rated_limits_fit(rating))
        return refusal("flow.bad_rating", "velocity_limits");
    double previous_limit = -1.0;
    std::int64_t row = 0;
    for (const RatingRange& range : rating.ranges) {
        ++row;
        const bool first = row == 1;
        const bool limit_fits = first ? range.above_rev_per_s == 0.0
                                      : in_range(range.above_rev_per_s, 0.0, kLargestLimit_rev_per_s) &&
                                            range.above_rev_per_s > previous_limit;
        if (!limit_fits)
            return refusal("flow.bad_rating", "above_rev_per_s", {{"row", row}, {"value", range.above_rev_per_s}});
        if (!(range.a_m > 0.0) || range.a_m > kLargestSlope_m)
            return refusal("flow.bad_rating", "a_m", {{"row", row}, {"value", range.a_m, Quantity::Length}});
        if (!in_range(range.b_ms, -kLargestConstant_ms, kLargestConstant_ms))
            return refusal("flow.bad_rating", "b_ms", {{"row", row}, {"value", range.b_ms, Quantity::Velocity}});
        if (!first) {
            const double below_ms = on_line(rating.ranges[static_cast<std::size_t>(row) - 2], range.above_rev_per_s);
            const double above_ms = on_line(range, range.above_rev_per_s);
            if (std::abs(above_ms - below_ms) > kLargestGapAtJoint_rel * std::abs(below_ms))
                findings.push_back(warning("flow.rating_ranges_part", "above_rev_per_s",
                                           {{"limit", range.above_rev_per_s},
                                            {"below", below_ms, Quantity::Velocity},
                                            {"above", above_ms, Quantity::Velocity}}));
        }
        previous_limit = range.above_rev_per_s;
    }
    return findings;
}

Expected<MeterVelocity> meter_velocity(const MeterRating& rating, double revolutions, double time_s) {
    if (rating.shows_velocity())
        return refusal("flow.no_rating", "revolutions");
    if (!in_range(revolutions, 0.0, kMostRevolutions))
        return refusal("flow.bad_revolutions", "revolutions", {{"value", revolutions}});
    const double least_time_s = revolutions > 0.0 ? kBriefestCount_s : 0.0;
    if (!in_range(time_s, least_time_s, kLongestCount_s))
        return refusal("flow.bad_time", "time_s", {{"value", time_s, Quantity::Time}});
    if (revolutions == 0.0)
        return MeterVelocity{0.0, rating.min_velocity_ms.value_or(std::max(rating.ranges.front().b_ms, 0.0))};

    const double rev_per_s = revolutions / time_s;
    const RatingRange* range = &rating.ranges.front();
    for (const RatingRange& next : rating.ranges)
        if (rev_per_s > next.above_rev_per_s)
            range = &next;
    return MeterVelocity{std::max(on_line(*range, rev_per_s), 0.0), std::nullopt};
}

} // namespace rillmark
