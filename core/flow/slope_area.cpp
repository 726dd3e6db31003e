// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/slope_area.h"

#include "flow/high_water_line.h"
#include "flow/limits.h"
#include "uncertainty/propagate.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <span>

namespace rillmark {

namespace {

constexpr double kLeastN = 0.01;
constexpr double kGreatestN = 0.3;

// Places of the inputs of the model.
enum ReachInput : std::size_t { Level, Slope, Roughness, Area, Method };

std::optional<Finding> bad_sections(const std::vector<SurveyedSection>& sections) {
    if (sections.empty() || sections.size() > kMostSections)
        return refusal("flow.slope_area_sections", {},
                       {{"count", static_cast<std::int64_t>(sections.size())},
                        {"limit", static_cast<std::int64_t>(kMostSections)}});
    std::int64_t row = 0;
    for (const SurveyedSection& section : sections) {
        ++row;
        bool good = section.points.size() >= 3 && in_range(section.distance_m, -kHighestWater_m, kHighestWater_m);
        double before_m = -kHighestWater_m;
        for (const SectionPoint& point : section.points) {
            good = good && in_range(point.offset_m, before_m, kHighestWater_m) &&
                   in_range(point.height_m, -kHighestWater_m, kHighestWater_m);
            before_m = point.offset_m;
        }
        if (!good)
            return refusal("flow.section_bad", "points", {{"row", row}});
    }
    return std::nullopt;
}

std::optional<Finding> bad_options(const SlopeAreaOptions& options, const Estimate& n) {
    return first_bad_setting({{"mark_u_m", options.mark_u_m, 0.001, 1.0, Quantity::Length},
                              {"area_u_rel", options.area_u_rel, 0.0, 0.5, Quantity::Ratio},
                              {"method_u_rel", options.method_u_rel, 0.0, 0.5, Quantity::Ratio},
                              {"expansion_loss", options.expansion_loss, 0.0, 1.0, Quantity::Number},
                              {"contraction_loss", options.contraction_loss, 0.0, 1.0, Quantity::Number},
                              {"gravity_ms2", options.gravity_ms2, 9.7, 9.9, Quantity::Number},
                              {"flow.manning_n", n.value, kLeastN, kGreatestN, Quantity::Number},
                              {"flow.manning_n", n.standard_uncertainty, 0.0, 0.5 * n.value, Quantity::Number}});
}

/// Two sections at one distance, or the sections by rising distance.
Expected<std::vector<SurveyedSection>> downstream_order(std::vector<SurveyedSection> sections) {
    std::ranges::stable_sort(sections, {}, &SurveyedSection::distance_m);
    const auto same = std::ranges::adjacent_find(sections, {}, &SurveyedSection::distance_m);
    if (same != sections.end())
        return refusal("flow.same_section", {}, {{"distance", same->distance_m, Quantity::Length}});
    return sections;
}

/// A reach and the line of its water: the model of the discharge.
struct Reach {
    std::vector<SurveyedSection> sections;
    HighWaterLine line;
    SlopeAreaOptions options;

    /// Sections with a level, conveyance and no velocity yet.
    [[nodiscard]] std::vector<SlopeAreaSection> at(std::span<const double> in) const {
        std::vector<SlopeAreaSection> all;
        for (const SurveyedSection& section : sections) {
            SlopeAreaSection one;
            one.distance_m = section.distance_m;
            one.level_m = line.level_at(section.distance_m, in[Level], in[Slope]);
            one.wetted = wetted_section(section.points, one.level_m);
            one.wetted.area_m2 *= in[Area];
            one.conveyance_m3s =
                manning_conveyance_m3s(one.wetted.area_m2, one.wetted.hydraulic_radius_m(), in[Roughness]);
            all.push_back(one);
        }
        return all;
    }

    /// Fall over the square of the discharge; not above zero where there is no solution.
    [[nodiscard]] double resistance(const std::vector<SlopeAreaSection>& at) const {
        double sum = 0.0;
        for (std::size_t i = 1; i < at.size(); ++i) {
            const SlopeAreaSection& up = at[i - 1];
            const SlopeAreaSection& down = at[i];
            sum += (down.distance_m - up.distance_m) / (up.conveyance_m3s * down.conveyance_m3s);
            const double gained =
                (1.0 / (down.wetted.area_m2 * down.wetted.area_m2) - 1.0 / (up.wetted.area_m2 * up.wetted.area_m2)) /
                (2.0 * options.gravity_ms2);
            const double lost = gained < 0.0 ? options.expansion_loss : options.contraction_loss;
            sum += gained + lost * std::abs(gained);
        }
        return sum;
    }

    [[nodiscard]] double discharge_m3s(std::span<const double> in) const {
        const std::vector<SlopeAreaSection> all = at(in);
        if (all.size() == 1)
            return in[Method] * all.front().conveyance_m3s * std::sqrt(in[Slope]);
        const double fall_m = all.front().level_m - all.back().level_m;
        return in[Method] * std::sqrt(fall_m / resistance(all)); // not a number where there is no solution
    }
};

Findings findings_of(const SlopeAreaResult& result, const HighWaterLine& line, double mark_u_m) {
    Findings findings{warning("flow.slope_area_flood_only")};
    const std::vector<SlopeAreaSection>& all = result.sections;
    if (all.size() == 1) {
        findings.push_back(warning("flow.slope_area_one_section"));
    } else {
        const double fall_m = all.front().level_m - all.back().level_m;
        if (fall_m < kLeastReachFall_m)
            findings.push_back(
                warning("flow.slope_area_fall_small", {},
                        {{"value", fall_m, Quantity::Length}, {"limit", kLeastReachFall_m, Quantity::Length}}));
        const double depth_m = all.front().wetted.area_m2 / all.front().wetted.width_m;
        const double length_m = all.back().distance_m - all.front().distance_m;
        if (length_m < kLeastReachInDepths * depth_m)
            findings.push_back(warning(
                "flow.slope_area_reach_short", {},
                {{"value", length_m, Quantity::Length}, {"limit", kLeastReachInDepths * depth_m, Quantity::Length}}));
    }
    if (line.scatter_m > kMarksScatter * mark_u_m)
        findings.push_back(warning("flow.marks_scatter", {}, {{"scatter", line.scatter_m, Quantity::Length}}));
    for (const SlopeAreaSection& one : all) {
        const std::vector<Arg> args{{"distance", one.distance_m, Quantity::Length},
                                    {"value", one.froude, Quantity::Number}};
        if (one.wetted.open)
            findings.push_back(warning("flow.section_open", {}, args));
        if (one.froude > 1.0)
            findings.push_back(warning("flow.slope_area_supercritical", {}, args));
    }
    return findings;
}

} // namespace

double manning_conveyance_m3s(double area_m2, double hydraulic_radius_m, double n) {
    return area_m2 * std::pow(hydraulic_radius_m, 2.0 / 3.0) / n;
}

Expected<SlopeAreaResult> slope_area(const std::vector<SurveyedSection>& sections,
                                     const std::vector<HighWaterMark>& marks, const Estimate& manning_n,
                                     const SlopeAreaOptions& options) {
    if (const std::optional<Finding> bad = bad_sections(sections))
        return *bad;
    if (const std::optional<Finding> bad = bad_options(options, manning_n))
        return *bad;
    const Expected<std::vector<SurveyedSection>> ordered = downstream_order(sections);
    if (!ordered)
        return ordered.error();
    const Expected<HighWaterLine> line = high_water_line(marks, options.mark_u_m);
    if (!line)
        return line.error();
    if (!(line->slope.value > line->slope.expanded()))
        return refusal(
            "flow.slope_not_clear", {},
            {{"slope", line->slope.value, Quantity::Slope}, {"uncertainty", line->slope.expanded(), Quantity::Slope}});
    const Reach reach{*ordered, *line, options};
    const std::vector<double> central{line->level_m.value, line->slope.value, manning_n.value, 1.0, 1.0};
    SlopeAreaResult result;
    result.slope = line->slope.value;
    result.sections = reach.at(central);
    for (const SlopeAreaSection& one : result.sections)
        if (!(one.wetted.area_m2 > 0.0))
            return refusal("flow.section_dry", {}, {{"distance", one.distance_m, Quantity::Length}});
    if (result.sections.size() > 1 && !(reach.resistance(result.sections) > 0.0))
        return refusal("flow.slope_area_no_solution");

    const Expected<Budgeted> discharge = propagate({{"flow.water_line_level", {}, line->level_m},
                                                    {"flow.water_line_slope", {}, line->slope},
                                                    {"flow.manning_n", {}, manning_n},
                                                    {"flow.section_area", {}, {1.0, options.area_u_rel}},
                                                    {"flow.slope_area_method", {}, {1.0, options.method_u_rel}}},
                                                   [&](std::span<const double> in) { return reach.discharge_m3s(in); });
    if (!discharge) // steps of one uncertainty leave the solution: it is as good as none
        return discharge.error().code == "uncertainty.not_finite" ? refusal("flow.slope_area_no_solution")
                                                                  : discharge.error();
    for (SlopeAreaSection& one : result.sections) {
        one.velocity_ms = discharge->estimate.value / one.wetted.area_m2;
        one.froude = one.velocity_ms / std::sqrt(options.gravity_ms2 * one.wetted.area_m2 / one.wetted.width_m);
    }
    result.flow = {FlowMethod::SlopeArea, *discharge, findings_of(result, *line, options.mark_u_m)};
    return result;
}

} // namespace rillmark
