// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/float_gauging.h"

#include "flow/float_section.h"
#include "flow/independent_budget.h"
#include "flow/limits.h"
#include "flow/student_factor.h"
#include "flow/tracer_input.h"
#include "units/in_range.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

struct DepthCoefficient {
    double depth_m;
    double coefficient;
};
// C. E. Boyd, Measuring water flow (Responsible Seafood Advocate), table 1.
constexpr DepthCoefficient kByDepth[] = {{0.25, 0.64}, {0.5, 0.67}, {0.75, 0.70}, {1.0, 0.71}, {1.5, 0.74},
                                         {2.0, 0.76},  {3.0, 0.77}, {4.0, 0.78},  {5.0, 0.79}};
// From memory, unconfirmed: shallow rough streams go to 0.5-0.65; 0.5 to the first line of the table below its depth.
constexpr double kBelowTable = 0.57;
constexpr double kRoughShallow = 0.575;
// Extension texts, for deep smooth channels.
constexpr double kSmoothDeep = 0.85;

constexpr double kShortestLength_m = 0.1;
constexpr double kLongestLength_m = 10000.0;
constexpr double kBriefestRun_s = 0.05;
constexpr double kLongestRun_s = 86400.0;

struct UsedRun {
    std::int64_t row;
    double velocity_ms;
    double time_s;
    std::optional<double> across_m;
};

std::optional<Finding> check_options(const FloatOptions& options) {
    if (options.length_m && !in_range(*options.length_m, kShortestLength_m, kLongestLength_m))
        return bad_option("length_m", *options.length_m, Quantity::Length);
    if (options.coefficient && !in_range(*options.coefficient, 0.1, 1.2))
        return bad_option("coefficient", *options.coefficient, Quantity::Number);
    if (options.coefficient_u && !in_range(*options.coefficient_u, 0.0, kLargest_u_rel))
        return bad_option("coefficient_u", *options.coefficient_u, Quantity::Number);
    if (!in_range(options.area_u_rel, 0.0, kLargest_u_rel))
        return bad_option("area_u_rel", options.area_u_rel, Quantity::Ratio);
    if (!in_range(options.length_u_rel, 0.0, kLargest_u_rel))
        return bad_option("length_u_rel", options.length_u_rel, Quantity::Ratio);
    if (!in_range(options.reaction_half_width_s, 0.0, 10.0))
        return bad_option("reaction_half_width_s", options.reaction_half_width_s, Quantity::Time);
    return std::nullopt;
}

Expected<std::vector<UsedRun>> used_runs(const std::vector<FloatRun>& runs, const FloatOptions& options) {
    std::vector<UsedRun> used;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const FloatRun& run = runs[i];
        const auto row = static_cast<std::int64_t>(i) + 1;
        if (run.struck)
            continue;
        if (!in_range(run.time_s, kBriefestRun_s, kLongestRun_s))
            return bad_row_value("flow.bad_time", "time_s", i, run.time_s, Quantity::Time);
        const std::optional<double> length_m = run.length_m ? run.length_m : options.length_m;
        if (!length_m)
            return refusal("flow.float_no_length", "length_m", {{"row", row}});
        if (!in_range(*length_m, kShortestLength_m, kLongestLength_m))
            return bad_row_value("flow.bad_length", "length_m", i, *length_m, Quantity::Length);
        if (run.distance_across_m && !in_range(*run.distance_across_m, -kFarthest_m, kFarthest_m))
            return bad_row_value("flow.bad_distance", "distance_across_m", i, *run.distance_across_m, Quantity::Length);
        used.push_back({row, *length_m / run.time_s, run.time_s, run.distance_across_m});
    }
    if (used.empty())
        return refusal("flow.no_float_runs");
    return used;
}

Expected<std::vector<FloatSectionArea>> section_areas(const std::vector<FloatSection>& sections) {
    if (sections.empty())
        return refusal("flow.no_float_section");
    std::vector<FloatSectionArea> areas;
    for (std::size_t i = 0; i < sections.size(); ++i) {
        Expected<FloatSectionArea> area = float_section_area(sections[i], i);
        if (!area)
            return area.error();
        areas.push_back(std::move(area).value());
    }
    return areas;
}

double mean_velocity_ms(const std::vector<UsedRun>& runs) {
    double sum = 0.0;
    for (const UsedRun& run : runs)
        sum += run.velocity_ms;
    return sum / static_cast<double>(runs.size());
}

/// Mean across the width, each place counting by the area of its strip; nothing where places or soundings are missing.
std::optional<double> velocity_by_strips_ms(std::vector<UsedRun> runs, const FloatSectionArea& section) {
    if (section.profile.empty() ||
        !std::ranges::all_of(runs, [](const UsedRun& run) { return run.across_m.has_value(); }))
        return std::nullopt;
    std::ranges::sort(runs, {}, [](const UsedRun& run) { return *run.across_m; });
    struct Place {
        double across_m;
        std::vector<UsedRun> runs;
    };
    std::vector<Place> places;
    for (const UsedRun& run : runs) {
        if (places.empty() || places.back().across_m != *run.across_m)
            places.push_back({*run.across_m, {}});
        places.back().runs.push_back(run);
    }
    double flow_m3s = 0.0;
    double area_m2 = 0.0;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double from_m =
            i == 0 ? section.profile.front().distance_m : 0.5 * (places[i - 1].across_m + places[i].across_m);
        const double to_m = i + 1 == places.size() ? section.profile.back().distance_m
                                                   : 0.5 * (places[i].across_m + places[i + 1].across_m);
        const double strip_m2 = strip_area_m2(section.profile, from_m, to_m);
        flow_m3s += strip_m2 * mean_velocity_ms(places[i].runs);
        area_m2 += strip_m2;
    }
    if (!(area_m2 > 0.0))
        return std::nullopt;
    return flow_m3s / area_m2;
}

/// Standard deviation of one run relative to the mean.
double run_scatter_rel(const std::vector<UsedRun>& runs) {
    if (runs.size() < 2)
        return 0.0;
    const double mean_ms = mean_velocity_ms(runs);
    double sum = 0.0;
    for (const UsedRun& run : runs)
        sum += (run.velocity_ms - mean_ms) * (run.velocity_ms - mean_ms);
    return std::sqrt(sum / static_cast<double>(runs.size() - 1)) / mean_ms;
}

/// Relative standard uncertainty of the mean of the runs by their scatter.
double run_u_rel(const std::vector<UsedRun>& runs) {
    const double scatter = run_scatter_rel(runs);
    const double root = std::sqrt(static_cast<double>(runs.size()));
    if (runs.size() < static_cast<std::size_t>(kMinimumFloatRuns))
        return std::max(scatter, kAssumedRunScatter_rel) / root;
    return scatter * student_factor(static_cast<int>(runs.size()) - 1) / root;
}

double area_u_rel(const std::vector<FloatSectionArea>& areas, double mean_m2, double one_u_rel) {
    const double count = static_cast<double>(areas.size());
    double sum = 0.0;
    for (const FloatSectionArea& area : areas)
        sum += (area.area_m2 - mean_m2) * (area.area_m2 - mean_m2);
    const double scatter = areas.size() < 2 ? 0.0 : std::sqrt(sum / (count - 1.0)) / mean_m2;
    return std::max(one_u_rel, scatter) / std::sqrt(count);
}

double wind_u_rel(FloatWind wind) {
    return wind == FloatWind::None ? 0.0 : wind == FloatWind::Light ? kLightWind_u_rel : kStrongWind_u_rel;
}

double surface_u_rel(FloatSurface surface) {
    return surface == FloatSurface::Even     ? 0.0
           : surface == FloatSurface::Broken ? kBrokenSurface_u_rel
                                             : kTurbulentSurface_u_rel;
}

Findings run_findings(const std::vector<UsedRun>& runs) {
    Findings findings;
    const UsedRun& shortest = *std::ranges::min_element(runs, {}, &UsedRun::time_s);
    if (shortest.time_s < kShortestFloatRun_s)
        findings.push_back(warning("flow.float_run_short", "time_s",
                                   {{"row", shortest.row},
                                    {"time", shortest.time_s, Quantity::Time},
                                    {"limit", kShortestFloatRun_s, Quantity::Time}}));
    if (runs.size() < static_cast<std::size_t>(kMinimumFloatRuns))
        findings.push_back(warning("flow.few_float_runs", {},
                                   {{"count", static_cast<std::int64_t>(runs.size())},
                                    {"needed", static_cast<std::int64_t>(kMinimumFloatRuns)},
                                    {"scatter", kAssumedRunScatter_rel, Quantity::Ratio}}));
    const double scatter = run_scatter_rel(runs);
    if (scatter > kLargeRunScatter_rel)
        findings.push_back(warning("flow.float_runs_scatter", {}, {{"scatter", scatter, Quantity::Ratio}}));
    return findings;
}

Findings reach_findings(const std::vector<FloatSectionArea>& areas, double mean_depth_m, const FloatOptions& options) {
    Findings findings;
    const auto [least, most] = std::ranges::minmax(areas, {}, &FloatSectionArea::area_m2);
    if (areas.size() < 2)
        findings.push_back(note("flow.one_float_section"));
    else if (most.area_m2 - least.area_m2 > kLargeSectionDifference_rel * least.area_m2)
        findings.push_back(warning("flow.float_sections_differ", {},
                                   {{"least", least.area_m2, Quantity::Area}, {"most", most.area_m2, Quantity::Area}}));
    const bool by_table = !options.coefficient && options.bed == FloatBed::Ordinary;
    if (by_table && mean_depth_m < kByDepth[0].depth_m)
        findings.push_back(warning("flow.float_depth_below_table", {},
                                   {{"depth", mean_depth_m, Quantity::Length},
                                    {"limit", kByDepth[0].depth_m, Quantity::Length},
                                    {"coefficient", kBelowTable, Quantity::Number}}));
    if (options.wind != FloatWind::None)
        findings.push_back(warning("flow.float_wind", {}, {{"added", wind_u_rel(options.wind), Quantity::Ratio}}));
    if (options.surface != FloatSurface::Even)
        findings.push_back(
            warning("flow.float_surface", {}, {{"added", surface_u_rel(options.surface), Quantity::Ratio}}));
    return findings;
}

} // namespace

Estimate float_coefficient(double mean_depth_m, FloatBed bed) {
    if (bed == FloatBed::RoughShallow)
        return {kRoughShallow, kFloatCoefficient_u};
    if (bed == FloatBed::SmoothDeep)
        return {kSmoothDeep, kFloatCoefficient_u};
    if (mean_depth_m < kByDepth[0].depth_m)
        return {kBelowTable, kFloatCoefficient_u};
    for (std::size_t i = 1; i < std::size(kByDepth); ++i) {
        const DepthCoefficient& a = kByDepth[i - 1];
        const DepthCoefficient& b = kByDepth[i];
        if (mean_depth_m <= b.depth_m)
            return {std::lerp(a.coefficient, b.coefficient, (mean_depth_m - a.depth_m) / (b.depth_m - a.depth_m)),
                    kFloatCoefficient_u};
    }
    return {std::rbegin(kByDepth)->coefficient, kFloatCoefficient_u};
}

Expected<FloatResult> float_gauging(const std::vector<FloatRun>& runs, const std::vector<FloatSection>& sections,
                                    const FloatOptions& options) {
    if (const std::optional<Finding> bad = check_options(options))
        return *bad;
    const Expected<std::vector<UsedRun>> used = used_runs(runs, options);
    if (!used)
        return used.error();
    const Expected<std::vector<FloatSectionArea>> areas = section_areas(sections);
    if (!areas)
        return areas.error();

    FloatResult result;
    double mean_time_s = 0.0;
    for (const UsedRun& run : *used)
        mean_time_s += run.time_s / static_cast<double>(used->size());
    for (const FloatSectionArea& area : *areas) {
        result.area_m2 += area.area_m2 / static_cast<double>(areas->size());
        result.mean_depth_m += area.area_m2 / area.width_m / static_cast<double>(areas->size());
    }
    result.surface_velocity_ms = velocity_by_strips_ms(*used, areas->front()).value_or(mean_velocity_ms(*used));
    result.coefficient = float_coefficient(result.mean_depth_m, options.bed);
    if (options.coefficient)
        result.coefficient.value = *options.coefficient;
    if (options.coefficient_u)
        result.coefficient.standard_uncertainty = *options.coefficient_u;

    const double q_m3s = result.coefficient.value * result.area_m2 * result.surface_velocity_ms;
    const double reaction_u_s = options.reaction_half_width_s / std::sqrt(3.0); // rectangular: GUM 4.3.7
    result.flow.method = FlowMethod::Float;
    result.flow.discharge = combine_independent(
        q_m3s,
        {{"flow.float_coefficient", {}, q_m3s * result.coefficient.standard_uncertainty / result.coefficient.value},
         {"flow.float_area", {}, q_m3s * area_u_rel(*areas, result.area_m2, options.area_u_rel)},
         {"flow.float_scatter", {}, q_m3s * run_u_rel(*used)},
         {"flow.reaction_time", {}, q_m3s * reaction_u_s / mean_time_s},
         {"flow.float_length", {}, q_m3s * options.length_u_rel},
         {"flow.float_wind_doubt", {}, q_m3s * wind_u_rel(options.wind)},
         {"flow.float_surface_doubt", {}, q_m3s * surface_u_rel(options.surface)}});
    result.flow.findings = run_findings(*used);
    for (Finding& finding : reach_findings(*areas, result.mean_depth_m, options))
        result.flow.findings.push_back(std::move(finding));
    return result;
}

} // namespace rillmark
