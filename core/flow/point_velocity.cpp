// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/point_velocity.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <span>

namespace rillmark {

namespace {

// Faster than any water that is gauged with a meter from a bank or by wading.
constexpr double kLargestVelocity_ms = 10.0;
constexpr double kFractionTolerance = 0.01;
constexpr double kSurface = 0.0;
constexpr double kBed = 1.0;
// How far from surface and bed a reading may be that is taken for theirs: a meter needs room (our own choice).
constexpr double kNearSurfaceOrBed = 0.05;
constexpr std::array kFractions{kSurface, 0.2, 0.4, 0.6, 0.8, kBed};

struct WeightedDepth {
    double depth_fraction;
    double weight;
};
constexpr WeightedDepth kOnePoint[] = {{0.6, 1.0}};
constexpr WeightedDepth kTwoPoints[] = {{0.2, 0.5}, {0.8, 0.5}};
constexpr WeightedDepth kThreePoints[] = {{0.2, 0.25}, {0.6, 0.5}, {0.8, 0.25}};
constexpr WeightedDepth kFivePoints[] = {{kSurface, 0.1}, {0.2, 0.3}, {0.6, 0.3}, {0.8, 0.2}, {kBed, 0.1}};
constexpr WeightedDepth kSixPoints[] = {{kSurface, 0.1}, {0.2, 0.2}, {0.4, 0.2}, {0.6, 0.2}, {0.8, 0.2}, {kBed, 0.1}};
constexpr WeightedDepth kSurfaceOnly[] = {{kSurface, 1.0}}; // times the share of the mean
constexpr std::span<const WeightedDepth> kRules[] = {kOnePoint,   kTwoPoints, kThreePoints,
                                                     kFivePoints, kSixPoints, kSurfaceOnly};

struct Reading {
    MeterVelocity velocity;
    std::optional<double> exposure_s;
    const MeterRating* meter = nullptr;
};

/// The readings at one depth, being added up.
struct Pool {
    int count = 0;
    double velocity_sum_ms = 0.0;
    double exposure_sum_s = 0.0;
    bool exposure_known = true;
    bool always_still = true;
    bool individual_rating = true;
    double starting_velocity_ms = 0.0;
    std::optional<double> rated_from_ms;
    std::optional<double> rated_to_ms;

    void add(const Reading& reading) {
        ++count;
        velocity_sum_ms += reading.velocity.velocity_ms;
        exposure_known = exposure_known && reading.exposure_s.has_value();
        exposure_sum_s += reading.exposure_s.value_or(0.0);
        individual_rating = individual_rating && reading.meter->individual;
        if (const auto& low = reading.meter->min_velocity_ms)
            rated_from_ms = std::max(*low, rated_from_ms.value_or(*low));
        if (const auto& high = reading.meter->max_velocity_ms)
            rated_to_ms = std::min(*high, rated_to_ms.value_or(*high));
        always_still = always_still && reading.velocity.starting_velocity_ms.has_value();
        starting_velocity_ms = std::max(starting_velocity_ms, reading.velocity.starting_velocity_ms.value_or(0.0));
    }
    [[nodiscard]] PointVelocity result(const WeightedDepth& rule) const {
        PointVelocity point{rule.depth_fraction, rule.weight, velocity_sum_ms / count, {}, {}, individual_rating,
                            rated_from_ms,       rated_to_ms};
        if (exposure_known && exposure_sum_s > 0.0)
            point.exposure_s = exposure_sum_s;
        if (always_still)
            point.starting_velocity_ms = starting_velocity_ms;
        return point;
    }
};

Expected<Reading> reduce(const PointReading& reading, const MeterRating& meter) {
    if (reading.velocity_ms && reading.revolutions)
        return refusal("flow.reading_double", "revolutions");
    if (reading.velocity_ms) {
        if (!(std::abs(*reading.velocity_ms) <= kLargestVelocity_ms))
            return refusal("flow.bad_velocity", "velocity_ms", {{"value", *reading.velocity_ms, Quantity::Velocity}});
        if (reading.time_s && !(*reading.time_s >= 0.0 && std::isfinite(*reading.time_s)))
            return refusal("flow.bad_time", "time_s", {{"value", *reading.time_s, Quantity::Time}});
        return Reading{{*reading.velocity_ms, std::nullopt}, reading.time_s, &meter};
    }
    if (!reading.revolutions || !reading.time_s)
        return refusal("flow.reading_incomplete", reading.revolutions ? "time_s" : "velocity_ms");
    const Expected<MeterVelocity> velocity = meter_velocity(meter, *reading.revolutions, *reading.time_s);
    if (!velocity)
        return velocity.error();
    if (velocity->velocity_ms > kLargestVelocity_ms)
        return refusal("flow.bad_velocity", "revolutions", {{"value", velocity->velocity_ms, Quantity::Velocity}});
    return Reading{*velocity, reading.time_s, &meter};
}

std::optional<std::size_t> fraction_index(double fraction) {
    for (std::size_t i = 0; i < kFractions.size(); ++i) {
        const bool outer = kFractions[i] == kSurface || kFractions[i] == kBed;
        if (fraction >= kSurface && fraction <= kBed &&
            std::abs(fraction - kFractions[i]) <= (outer ? kNearSurfaceOrBed : kFractionTolerance))
            return i;
    }
    return std::nullopt;
}

std::optional<std::span<const WeightedDepth>> rule_for(const std::array<Pool, kFractions.size()>& pools) {
    for (const std::span<const WeightedDepth> rule : kRules) {
        bool fits = true;
        for (std::size_t i = 0; i < kFractions.size(); ++i)
            fits = fits && (pools[i].count > 0) ==
                               (std::ranges::count(rule, kFractions[i], &WeightedDepth::depth_fraction) > 0);
        if (fits)
            return rule;
    }
    return std::nullopt;
}

std::optional<Finding> bad_surface_share(double share) {
    if (share > 0.0 && share <= 1.0)
        return std::nullopt;
    return refusal("flow.bad_option", "surface_share", {{"value", share, Quantity::Ratio}});
}

} // namespace

bool VerticalVelocity::abnormal_profile() const {
    if (points.size() != 2)
        return false;
    const double upper_ms = points.front().velocity_ms;
    const double lower_ms = points.back().velocity_ms;
    return upper_ms < lower_ms || upper_ms > 2.0 * lower_ms;
}

Expected<VerticalVelocity> vertical_velocity(const std::vector<PointReading>& points, const MeterRating& meter,
                                             double surface_share) {
    if (const std::optional<Finding> bad = bad_surface_share(surface_share))
        return *bad;
    std::array<Pool, kFractions.size()> pools;
    bool any = false;
    for (const PointReading& point : points) {
        if (point.struck)
            continue;
        const std::optional<std::size_t> index = fraction_index(point.depth_fraction);
        if (!index)
            return refusal("flow.depth_not_accepted", "depth_fraction", {{"fraction", point.depth_fraction}});
        const Expected<Reading> reading = reduce(point, point.meter ? *point.meter : meter);
        if (!reading)
            return reading.error();
        pools[*index].add(*reading);
        any = true;
    }
    if (!any)
        return refusal("flow.no_velocity", "velocity_ms");
    const std::optional<std::span<const WeightedDepth>> rule = rule_for(pools);
    if (!rule)
        return refusal("flow.points_not_accepted", "depth_fraction");

    VerticalVelocity result;
    result.surface_only = rule->data() == kSurfaceOnly;
    for (const WeightedDepth& depth : *rule) {
        result.points.push_back(pools[*fraction_index(depth.depth_fraction)].result(depth));
        result.velocity_ms += depth.weight * result.points.back().velocity_ms;
    }
    if (result.surface_only) {
        result.velocity_ms *= surface_share;
        result.points.front().weight = surface_share;
    }
    return result;
}

} // namespace rillmark
