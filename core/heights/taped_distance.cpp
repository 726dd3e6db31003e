// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/taped_distance.h"

#include "heights/input_range.h"
#include "levelling/height_network.h"
#include "levelling/sight_judgement.h"

#include <cmath>

namespace rillmark {

namespace {

Finding rise_beyond(Severity severity, double rise_m, double slope_m) {
    return {severity,
            "levels.rise_beyond_distance",
            "levels.distance",
            {{"rise", std::abs(rise_m), Quantity::Length}, {"slope", slope_m, Quantity::Length}}};
}

bool larger(const Estimate& a, const Estimate& b) {
    return a.value - b.value > kOutlierLimit * std::hypot(a.standard_uncertainty, b.standard_uncertainty);
}

} // namespace

Expected<ReducedDistance> taped_distance(const TapedDistance& distance, const Estimate& rise_m) {
    if (const auto bad = first_out_of_range(
            {{"levels.distance", distance.length_m, 0.1, 20000.0, Quantity::Length},
             {"levels.tape_lengths", static_cast<double>(distance.laid), 1.0, 10000.0, Quantity::Number},
             {"levels.distance_uncertainty", distance.precision.per_length, 0.0, 0.2, Quantity::Ratio},
             {"levels.distance_uncertainty", distance.precision.fixed_m, 0.0, 10.0, Quantity::Length},
             {"levels.rise", rise_m.value, -kLargestRise_m, kLargestRise_m, Quantity::Length},
             {"levels.rise_uncertainty", rise_m.standard_uncertainty, 0.0, kLargestRise_m, Quantity::Length}}))
        return *bad;
    const Estimate measured{distance.length_m, std::hypot(distance.precision.per_length * distance.length_m,
                                                          distance.precision.fixed_m * std::sqrt(distance.laid))};
    if (distance.is == SightDistance::Level)
        return ReducedDistance{measured, point_to_point(measured, rise_m)};
    if (std::abs(rise_m.value) >= measured.value)
        return rise_beyond(Severity::Refusal, rise_m.value, measured.value);
    const double level_m = std::sqrt((measured.value - rise_m.value) * (measured.value + rise_m.value));
    const double level_u_m =
        std::hypot(measured.value * measured.standard_uncertainty, rise_m.value * rise_m.standard_uncertainty) /
        level_m;
    return ReducedDistance{{level_m, level_u_m}, measured};
}

Findings judge_distances(const ReducedDistance& measured, const Estimate& rise_m) {
    const Estimate& level_m = measured.level_m;
    const Estimate& slope_m = measured.slope_m;
    const Estimate height_m{std::abs(rise_m.value), rise_m.standard_uncertainty};
    Findings findings;
    if (larger(level_m, slope_m))
        findings.push_back(
            warning("levels.level_beyond_slope", "levels.distance",
                    {{"level", level_m.value, Quantity::Length}, {"slope", slope_m.value, Quantity::Length}}));
    if (larger(height_m, slope_m))
        findings.push_back(rise_beyond(Severity::Warning, rise_m.value, slope_m.value));
    const Estimate third_m = point_to_point(level_m, height_m);
    if (findings.empty() && (larger(third_m, slope_m) || larger(slope_m, third_m)))
        findings.push_back(warning("levels.distances_against_rise", "levels.distance",
                                   {{"slope", slope_m.value, Quantity::Length},
                                    {"expected", third_m.value, Quantity::Length},
                                    {"level", level_m.value, Quantity::Length},
                                    {"rise", height_m.value, Quantity::Length}}));
    return findings;
}

} // namespace rillmark
