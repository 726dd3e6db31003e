// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/interpolated_variance.h"

#include "flow/independent_budget.h"
#include "flow/student_factor.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace rillmark {

namespace {

// 1 + 2 (4/9 + 1/36): the residuals of even spacing have the correlations -2/3 and 1/6 with their next two (computed).
constexpr double kOverlap = 1.94;

/// Runs of measured verticals: a bank, a dry vertical and an island end one.
std::vector<std::vector<const GaugedVertical*>> measured_runs(const std::vector<GaugedVertical>& section) {
    std::vector<std::vector<const GaugedVertical*>> runs(1);
    for (const GaugedVertical& at : section) {
        const bool goes_on = !runs.back().empty() && runs.back().back()->part == at.part;
        if (!at.measured || (!runs.back().empty() && !goes_on))
            runs.emplace_back();
        if (at.measured)
            runs.back().push_back(&at);
    }
    return runs;
}

template <class Value>
NeighbourScatter scatter_of(const std::vector<std::vector<const GaugedVertical*>>& runs, Value value) {
    NeighbourScatter all;
    for (const auto& run : runs) {
        std::vector<PlacedValue> values;
        for (const GaugedVertical* at : run)
            values.push_back({at->vertical->distance_m, value(*at)});
        const NeighbourScatter one = neighbour_scatter(values);
        all.sum_of_squares += one.sum_of_squares;
        all.count += one.count;
    }
    return all;
}

/// The variance that the scatter of single values brings into the flow, by the sum of the squared sensitivities.
double variance_of(const NeighbourScatter& scatter, double sensitivities) {
    return scatter.sum_of_squares / scatter.count * sensitivities;
}

} // namespace

NeighbourScatter neighbour_scatter(std::span<const PlacedValue> values) {
    NeighbourScatter scatter;
    for (std::size_t i = 1; i + 1 < values.size(); ++i) {
        const double span_m = values[i + 1].distance_m - values[i - 1].distance_m;
        const double w = (values[i + 1].distance_m - values[i].distance_m) / span_m;
        const double off = values[i].value - std::lerp(values[i + 1].value, values[i - 1].value, w);
        scatter.sum_of_squares += off * off / (1.0 + w * w + (1.0 - w) * (1.0 - w));
        ++scatter.count;
    }
    return scatter;
}

std::optional<Budgeted> interpolated_variance(const std::vector<GaugedVertical>& section,
                                              const std::vector<PanelFacts>& facts, double discharge_m3s) {
    const auto runs = measured_runs(section);
    const NeighbourScatter depths = scatter_of(runs, [](const GaugedVertical& at) { return at.vertical->depth_m; });
    if (depths.count < kLeastWithNeighbours)
        return std::nullopt;
    const NeighbourScatter velocities = scatter_of(runs, [](const GaugedVertical& at) { return at.velocity_ms; });

    double by_depth = 0.0;
    double by_velocity = 0.0;
    double by_wall = 0.0;
    for (const PanelFacts& panel : facts) {
        by_wall += panel.wall_u_m3s * panel.wall_u_m3s;
        if (panel.depth_m > 0.0)
            by_depth += std::pow(panel.discharge_m3s / panel.depth_m, 2);
        if (panel.measured != nullptr)
            by_velocity += panel.velocity_area_m2 * panel.velocity_area_m2;
    }
    const double systematic_m3s = iso748::kSystematic * std::abs(discharge_m3s);
    const double depth_variance = variance_of(depths, by_depth);
    const double velocity_variance = variance_of(velocities, by_velocity);
    // Both scatters have the same degrees of freedom: together they count as one part of this variance.
    const double enlarged =
        student_factor_of_part(depths.count / kOverlap, std::hypot(depth_variance, velocity_variance),
                               systematic_m3s * systematic_m3s + by_wall + depth_variance + velocity_variance);
    std::vector<BudgetLine> lines{{"flow.systematic", {}, systematic_m3s},
                                  {"flow.depth_scatter", {}, enlarged * std::sqrt(depth_variance)},
                                  {"flow.velocity_scatter", {}, enlarged * std::sqrt(velocity_variance)}};
    if (by_wall > 0.0)
        lines.push_back({"flow.wall_velocity", {}, std::sqrt(by_wall)});
    return combine_independent(discharge_m3s, std::move(lines));
}

} // namespace rillmark
