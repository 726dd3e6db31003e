// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/gauged_section.h"

#include "flow/limits.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>

namespace rillmark {

namespace {

constexpr double kClosest_m = 0.001;
constexpr std::size_t kMostVerticals = 2000;

std::vector<Arg> place(const PlacedVertical& at) {
    return {{"row", at.row}, {"distance", at.vertical->distance_m, Quantity::Length}};
}

std::vector<Arg> place_and(const PlacedVertical& at, double value, Quantity quantity) {
    std::vector<Arg> args = place(at);
    args.push_back({"value", value, quantity});
    return args;
}

bool has_readings(const Vertical& vertical) {
    return std::ranges::any_of(vertical.points, [](const PointReading& point) { return !point.struck; });
}

std::optional<Finding> bad_numbers(const PlacedVertical& at) {
    const Vertical& vertical = *at.vertical;
    if (!(std::abs(vertical.distance_m) <= kFarthest_m))
        return refusal("flow.bad_distance", "distance_m",
                       {{"row", at.row}, {"value", vertical.distance_m, Quantity::Length}});
    const bool dry = vertical.depth_m == 0.0;
    if (!dry && !(vertical.depth_m >= kShallowest_m && vertical.depth_m <= kDeepest_m))
        return refusal("flow.bad_depth", "depth_m", place_and(at, vertical.depth_m, Quantity::Length));
    if (!(std::abs(vertical.angle_rad) < std::numbers::pi / 2))
        return refusal("flow.bad_angle", "angle_rad", place_and(at, vertical.angle_rad, Quantity::Angle));
    if (vertical.edge == BankEdge::Sloping && !dry)
        return refusal("flow.edge_with_depth", "depth_m", place_and(at, vertical.depth_m, Quantity::Length));
    if (vertical.edge == BankEdge::Vertical && dry)
        return refusal("flow.wall_without_depth", "depth_m", place(at));
    return std::nullopt;
}

std::optional<Finding> bad_options(const VelocityAreaOptions& options) {
    if (!(options.wall_velocity_share >= 0.0 && options.wall_velocity_share <= 1.0))
        return refusal("flow.bad_option", "wall_velocity_share",
                       {{"value", options.wall_velocity_share, Quantity::Ratio}});
    if (!(options.depth_u_m >= 0.0 && options.depth_u_m <= 1.0))
        return refusal("flow.bad_option", "depth_u_m", {{"value", options.depth_u_m, Quantity::Length}});
    return std::nullopt;
}

/// Numbers the parts of the section. Two banks beside each other, not at the ends, hold an island between them: the
/// first ends a part, the second begins the next.
std::optional<Finding> split_at_islands(std::vector<PlacedVertical>& section) {
    bool ended = false;
    for (std::size_t i = 1; i < section.size(); ++i) {
        const bool last = i + 1 == section.size();
        const bool is_bank = section[i].vertical->edge != BankEdge::None;
        if (ended && !is_bank)
            return refusal("flow.bank_inside", "edge", place(section[i - 1]));
        if (ended && last)
            return refusal("flow.part_of_one", "edge", place(section[i]));
        section[i].part = section[i - 1].part + (ended ? 1 : 0);
        ended = is_bank && !ended && !last;
    }
    return std::nullopt;
}

Expected<std::vector<PlacedVertical>> sorted(const std::vector<Vertical>& verticals) {
    if (verticals.size() > kMostVerticals)
        return refusal("flow.too_many_rows", {}, {{"limit", static_cast<std::int64_t>(kMostVerticals)}});
    std::vector<PlacedVertical> section;
    section.reserve(verticals.size());
    std::int64_t row = 0;
    for (const Vertical& vertical : verticals) {
        ++row;
        if (vertical.struck)
            continue;
        section.push_back({row, &vertical, 0});
        if (const std::optional<Finding> bad = bad_numbers(section.back()))
            return *bad;
    }
    if (section.size() < 2)
        return refusal("flow.no_width");
    std::ranges::sort(section, {}, [](const PlacedVertical& at) { return at.vertical->distance_m; });
    for (std::size_t i = 1; i < section.size(); ++i)
        if (section[i].vertical->distance_m - section[i - 1].vertical->distance_m < kClosest_m)
            return refusal("flow.same_distance", "distance_m",
                           {{"row", std::max(section[i].row, section[i - 1].row)},
                            {"other", std::min(section[i].row, section[i - 1].row)},
                            {"distance", section[i].vertical->distance_m, Quantity::Length}});
    if (const std::optional<Finding> bad = split_at_islands(section))
        return *bad;
    return section;
}

/// The velocity of one vertical from its own readings, where it should have any.
std::optional<Finding> measure(GaugedVertical& at, const VelocityAreaOptions& options) {
    const Vertical& vertical = *at.vertical;
    const bool readings = has_readings(vertical);
    if (!readings && (vertical.depth_m == 0.0 || vertical.edge == BankEdge::Vertical)) {
        at.wall_estimated = vertical.edge == BankEdge::Vertical;
        return std::nullopt;
    }
    if (vertical.depth_m == 0.0) {
        const bool moving = std::ranges::any_of(vertical.points, [](const PointReading& point) {
            return !point.struck && (point.velocity_ms.value_or(0.0) != 0.0 || point.revolutions.value_or(0.0) != 0.0);
        });
        if (moving)
            return refusal("flow.velocity_without_depth", "velocity_ms", place(at));
        return std::nullopt;
    }
    if (!readings)
        return refusal("flow.vertical_without_velocity", "velocity_ms", place(at));
    Expected<VerticalVelocity> velocity = vertical_velocity(vertical.points, options.meter, options.surface_share);
    if (!velocity) {
        Finding refused = velocity.error();
        const std::vector<Arg> args = place(at);
        refused.args.insert(refused.args.end(), args.begin(), args.end());
        return refused;
    }
    at.velocity_ms = velocity->velocity_ms * std::cos(vertical.angle_rad);
    at.measured = std::move(velocity).value();
    return std::nullopt;
}

/// Refuses a part of the section in which no velocity was read.
std::optional<Finding> without_velocity(const std::vector<GaugedVertical>& section) {
    const std::size_t parts = section.back().part + 1;
    for (std::size_t part = 0; part < parts; ++part) {
        const auto of_part = [part](const GaugedVertical& at) { return at.part == part; };
        if (std::ranges::any_of(section, [&](const GaugedVertical& at) { return of_part(at) && at.measured; }))
            continue;
        if (parts == 1)
            return refusal("flow.no_velocity", "velocity_ms");
        return refusal("flow.part_without_velocity", "velocity_ms", place(*std::ranges::find_if(section, of_part)));
    }
    return std::nullopt;
}

} // namespace

Neighbours neighbours(const std::vector<GaugedVertical>& section, std::size_t index) {
    const auto in_part = [&](std::size_t other) { return section[other].part == section[index].part; };
    return {index > 0 && in_part(index - 1) ? &section[index - 1] : nullptr,
            index + 1 < section.size() && in_part(index + 1) ? &section[index + 1] : nullptr};
}

Expected<std::vector<GaugedVertical>> gauged_section(const std::vector<Vertical>& verticals,
                                                     const VelocityAreaOptions& options) {
    if (const std::optional<Finding> bad = bad_options(options))
        return *bad;
    const Expected<std::vector<PlacedVertical>> checked = sorted(verticals);
    if (!checked)
        return checked.error();
    std::vector<GaugedVertical> section(checked->size());
    for (std::size_t i = 0; i < section.size(); ++i) {
        static_cast<PlacedVertical&>(section[i]) = (*checked)[i];
        if (const std::optional<Finding> bad = measure(section[i], options))
            return *bad;
    }
    if (const std::optional<Finding> bad = without_velocity(section))
        return *bad;
    for (std::size_t i = 0; i < section.size(); ++i)
        if (section[i].wall_estimated) {
            const auto [left, right] = neighbours(section, i);
            section[i].velocity_ms = options.wall_velocity_share * (left != nullptr ? left : right)->velocity_ms;
        }
    return section;
}

} // namespace rillmark
