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
constexpr std::array kFractions{0.2, 0.6, 0.8};

struct WeightedDepth {
    double depth_fraction;
    double weight;
};
constexpr WeightedDepth kOnePoint[] = {{0.6, 1.0}};
constexpr WeightedDepth kTwoPoints[] = {{0.2, 0.5}, {0.8, 0.5}};
constexpr WeightedDepth kThreePoints[] = {{0.2, 0.25}, {0.6, 0.5}, {0.8, 0.25}};
constexpr std::span<const WeightedDepth> kRules[] = {kOnePoint, kTwoPoints, kThreePoints};

struct Reading {
    MeterVelocity velocity;
    std::optional<double> exposure_s;
};

/// The readings at one depth, being added up.
struct Pool {
    int count = 0;
    double velocity_sum_ms = 0.0;
    double exposure_sum_s = 0.0;
    bool exposure_known = true;
    bool always_still = true;
    double starting_velocity_ms = 0.0;

    void add(const Reading& reading) {
        ++count;
        velocity_sum_ms += reading.velocity.velocity_ms;
        exposure_known = exposure_known && reading.exposure_s.has_value();
        exposure_sum_s += reading.exposure_s.value_or(0.0);
        always_still = always_still && reading.velocity.starting_velocity_ms.has_value();
        starting_velocity_ms = std::max(starting_velocity_ms, reading.velocity.starting_velocity_ms.value_or(0.0));
    }
    [[nodiscard]] PointVelocity result(const WeightedDepth& rule) const {
        PointVelocity point{rule.depth_fraction, rule.weight, velocity_sum_ms / count, std::nullopt, std::nullopt};
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
        return Reading{{*reading.velocity_ms, std::nullopt}, reading.time_s};
    }
    if (!reading.revolutions || !reading.time_s)
        return refusal("flow.reading_incomplete", reading.revolutions ? "time_s" : "velocity_ms");
    const Expected<MeterVelocity> velocity = meter_velocity(meter, *reading.revolutions, *reading.time_s);
    if (!velocity)
        return velocity.error();
    if (velocity->velocity_ms > kLargestVelocity_ms)
        return refusal("flow.bad_velocity", "revolutions", {{"value", velocity->velocity_ms, Quantity::Velocity}});
    return Reading{*velocity, reading.time_s};
}

std::optional<std::size_t> fraction_index(double fraction) {
    for (std::size_t i = 0; i < kFractions.size(); ++i)
        if (std::abs(fraction - kFractions[i]) <= kFractionTolerance)
            return i;
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

} // namespace

bool VerticalVelocity::abnormal_profile() const {
    if (points.size() != 2)
        return false;
    const double upper_ms = points.front().velocity_ms;
    const double lower_ms = points.back().velocity_ms;
    return upper_ms < lower_ms || upper_ms > 2.0 * lower_ms;
}

Expected<VerticalVelocity> vertical_velocity(const std::vector<PointReading>& points, const MeterRating& meter) {
    std::array<Pool, kFractions.size()> pools;
    bool any = false;
    for (const PointReading& point : points) {
        if (point.struck)
            continue;
        const std::optional<std::size_t> index = fraction_index(point.depth_fraction);
        if (!index)
            return refusal("flow.depth_not_accepted", "depth_fraction", {{"fraction", point.depth_fraction}});
        const Expected<Reading> reading = reduce(point, meter);
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
    for (const WeightedDepth& depth : *rule) {
        result.points.push_back(pools[*fraction_index(depth.depth_fraction)].result(depth));
        result.velocity_ms += depth.weight * result.points.back().velocity_ms;
    }
    return result;
}

} // namespace rillmark
