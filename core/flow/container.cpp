// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/container.h"

#include "flow/independent_budget.h"
#include "flow/student_factor.h"
#include "units/in_range.h"
#include "water/water.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace rillmark {

namespace {

constexpr double kSmallestVolume_m3 = 1e-6;
constexpr double kLargestVolume_m3 = 100.0;
constexpr double kBriefestFill_s = 0.05; // no hand stops a watch sooner
constexpr double kLongestFill_s = 86400.0;
constexpr double kLargestVolume_u_rel = 0.5;
constexpr double kLargestReaction_s = 10.0;
constexpr double kHeaviest_kg = 1e5;

struct UsedFill {
    std::int64_t row;
    double volume_m3;
    double time_s;
};

std::optional<Finding> bad_option(const ContainerOptions& options) {
    if (!in_range(options.volume_u_rel, 0.0, kLargestVolume_u_rel))
        return refusal("flow.bad_option", "volume_u_rel", {{"value", options.volume_u_rel, Quantity::Ratio}});
    if (!in_range(options.reaction_half_width_s, 0.0, kLargestReaction_s))
        return refusal("flow.bad_option", "reaction_half_width_s",
                       {{"value", options.reaction_half_width_s, Quantity::Time}});
    return std::nullopt;
}

Expected<std::vector<UsedFill>> used_fills(const std::vector<ContainerFill>& fills) {
    std::vector<UsedFill> used;
    std::int64_t row = 0;
    for (const ContainerFill& fill : fills) {
        ++row;
        if (fill.struck)
            continue;
        if (!in_range(fill.volume_m3, kSmallestVolume_m3, kLargestVolume_m3))
            return refusal("flow.bad_volume", "volume_m3", {{"row", row}, {"value", fill.volume_m3, Quantity::Volume}});
        if (!in_range(fill.time_s, kBriefestFill_s, kLongestFill_s))
            return refusal("flow.bad_time", "time_s", {{"row", row}, {"value", fill.time_s, Quantity::Time}});
        used.push_back({row, fill.volume_m3, fill.time_s});
    }
    if (used.empty())
        return refusal("flow.no_fills");
    return used;
}

/// Standard deviation of one fill's time about V/Q, relative to the mean time; 0 for a single fill.
double scatter_rel(const std::vector<UsedFill>& fills, double discharge_m3s, double mean_time_s) {
    if (fills.size() < 2)
        return 0.0;
    double sum = 0.0;
    for (const UsedFill& fill : fills) {
        const double off_s = fill.time_s - fill.volume_m3 / discharge_m3s;
        sum += off_s * off_s;
    }
    return std::sqrt(sum / static_cast<double>(fills.size() - 1)) / mean_time_s;
}

Findings findings_of(const std::vector<UsedFill>& fills, double scatter, double discharge_m3s) {
    Findings findings;
    const auto& shortest = *std::ranges::min_element(fills, {}, &UsedFill::time_s);
    const std::vector<Arg> shortest_args{{"row", shortest.row}, {"time", shortest.time_s, Quantity::Time}};
    if (shortest.time_s < kShortestFill_s)
        findings.push_back(warning("flow.fill_too_short", "time_s", shortest_args));
    else if (shortest.time_s < kGoodFill_s)
        findings.push_back(note("flow.fill_short", "time_s", shortest_args));
    if (fills.size() < static_cast<std::size_t>(kMinimumFills))
        findings.push_back(warning("flow.few_fills", {},
                                   {{"count", static_cast<std::int64_t>(fills.size())},
                                    {"needed", static_cast<std::int64_t>(kMinimumFills)},
                                    {"scatter", kAssumedFillScatter_rel, Quantity::Ratio}}));
    if (scatter > kLargeFillScatter_rel) {
        const auto off = [&](const UsedFill& fill) { return std::abs(fill.time_s - fill.volume_m3 / discharge_m3s); };
        findings.push_back(
            warning("flow.fills_scatter", "time_s",
                    {{"scatter", scatter, Quantity::Ratio}, {"row", std::ranges::max_element(fills, {}, off)->row}}));
    }
    return findings;
}

} // namespace

Expected<double> weighed_volume_m3(double full_kg, double empty_kg, double temperature_C) {
    if (!in_range(full_kg, 0.0, kHeaviest_kg) || !in_range(empty_kg, 0.0, kHeaviest_kg) || full_kg <= empty_kg)
        return refusal("flow.bad_weight", "full_kg",
                       {{"full", full_kg, Quantity::Mass}, {"empty", empty_kg, Quantity::Mass}});
    const Expected<double> density_kgm3 = water_density_kgm3(temperature_C);
    if (!density_kgm3)
        return density_kgm3.error();
    return (full_kg - empty_kg) / *density_kgm3;
}

Expected<FlowResult> container(const std::vector<ContainerFill>& fills, const ContainerOptions& options) {
    if (const std::optional<Finding> bad = bad_option(options))
        return *bad;
    const Expected<std::vector<UsedFill>> checked = used_fills(fills);
    if (!checked)
        return checked.error();
    const std::vector<UsedFill>& used = *checked;

    double volume_m3 = 0.0;
    double time_s = 0.0;
    for (const UsedFill& fill : used) {
        volume_m3 += fill.volume_m3;
        time_s += fill.time_s;
    }
    const double count = static_cast<double>(used.size());
    const double mean_time_s = time_s / count;
    const double discharge_m3s = volume_m3 / time_s;

    const double seen_scatter = scatter_rel(used, discharge_m3s, mean_time_s);
    const bool enough = used.size() >= static_cast<std::size_t>(kMinimumFills);
    const double scatter = enough ? seen_scatter : std::max(seen_scatter, kAssumedFillScatter_rel);
    const double reaction = options.reaction_half_width_s / std::sqrt(3.0) / mean_time_s; // rectangular: GUM 4.3.7
    const double by_scatter = scatter * scatter / count;
    const double enlarged =
        enough ? student_factor_of_part(count - 1.0, by_scatter,
                                        by_scatter + reaction * reaction + options.volume_u_rel * options.volume_u_rel)
               : 1.0;

    return FlowResult{
        FlowMethod::Container,
        combine_independent(discharge_m3s, {{"flow.container_volume", {}, discharge_m3s * options.volume_u_rel},
                                            {"flow.fill_scatter", {}, discharge_m3s * enlarged * std::sqrt(by_scatter)},
                                            {"flow.reaction_time", {}, discharge_m3s * reaction}}),
        findings_of(used, seen_scatter, discharge_m3s)};
}

} // namespace rillmark
