// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pressure_findings.h"

#include "power/pipe_laying.h"

#include <algorithm>

namespace rillmark {

namespace {

Arg length(const char* name, double value_m) {
    return {name, value_m, Quantity::Length};
}
Arg pressure(const char* name, double value_Pa) {
    return {name, value_Pa, Quantity::Pressure};
}
Arg section_number(std::size_t section) {
    return {"section", static_cast<std::int64_t>(section + 1)};
}

/// The point of least pressure, by one of its members.
const PressurePoint& lowest(const PressureProfile& profile, double PressurePoint::*member) {
    return *std::ranges::min_element(profile.points, {}, member);
}

void say_classes(const PressureProfile& profile, const PressureLimits& limits, Findings& findings) {
    bool unknown = false;
    for (std::size_t i = 0; i < profile.sections.size(); ++i) {
        const SectionPressure& section = profile.sections[i];
        unknown = unknown || !section.holds_Pa;
        if (!section.passed_from_m)
            continue;
        double static_Pa = 0.0;
        for (std::size_t p = 0; p + 1 < profile.points.size(); ++p)
            if (profile.points[p].section == i)
                static_Pa = std::max({static_Pa, profile.points[p].static_Pa, profile.points[p + 1].static_Pa});
        const bool standing = static_Pa > *section.holds_Pa;
        findings.push_back(warning(standing ? "power.section_over_static" : "power.section_over_class", {},
                                   {section_number(i), pressure("pressure", standing ? static_Pa : section.highest_Pa),
                                    pressure("holds", *section.holds_Pa), length("chainage", *section.passed_from_m)}));
    }
    if (unknown)
        findings.push_back(note("power.class_unknown"));
    if (profile.closing_needed_s && *profile.closing_needed_s > limits.closing_s &&
        std::ranges::any_of(profile.sections, [](const SectionPressure& s) { return s.passed_from_m.has_value(); }))
        findings.push_back(warning(
            "power.closing_too_fast", {},
            {{"closing", limits.closing_s, Quantity::Time}, {"needed", *profile.closing_needed_s, Quantity::Time}}));
}

void say_suction_at_flow(const PressureProfile& profile, const PressureLimits& limits, Findings& findings) {
    const PressurePoint& end = profile.points.back();
    if (end.flowing_Pa < 0.0)
        findings.push_back(
            warning("power.flow_over_capacity", {}, {length("missing", end.point.level_m - end.hydraulic_grade_m)}));
    const PressurePoint& high = lowest(profile, &PressurePoint::static_Pa);
    if (high.static_Pa < 0.0)
        findings.push_back(warning(
            "power.above_static_line", {},
            {length("chainage", high.point.chainage_m), length("above", -high.static_Pa / limits.weight_Pa_per_m)}));
    const PressurePoint& worst = lowest(profile, &PressurePoint::flowing_Pa);
    if (worst.flowing_Pa >= 0.0)
        return;
    const bool deep = worst.flowing_Pa < -kDeepSuction_m * limits.weight_Pa_per_m;
    const bool parts = worst.flowing_Pa <= -limits.full_vacuum_Pa;
    findings.push_back(warning(parts  ? "power.water_parts"
                               : deep ? "power.suction_deep"
                                      : "power.suction_at_flow",
                               {},
                               {length("chainage", worst.point.chainage_m), pressure("suction", -worst.flowing_Pa),
                                length("limit", kDeepSuction_m), pressure("full_vacuum", limits.full_vacuum_Pa)}));
}

/// The first section that does not stand a suction, at its worst point.
void say_collapse(const PressureProfile& profile, const char* code, double PressurePoint::*member,
                  double SectionPressure::*stands, Findings& findings) {
    for (std::size_t i = 0; i < profile.sections.size(); ++i) {
        const PressurePoint* worst = nullptr;
        for (const PressurePoint& point : profile.points)
            if (point.section == i && (worst == nullptr || point.*member < worst->*member))
                worst = &point;
        if (worst != nullptr && -(worst->*member) > profile.sections[i].*stands)
            findings.push_back(
                warning(code, {},
                        {section_number(i), length("chainage", worst->point.chainage_m),
                         pressure("suction", -(worst->*member)), pressure("stands", profile.sections[i].*stands)}));
    }
}

void say_grade(const PressureProfile& profile, Findings& findings) {
    const auto at = [&](std::size_t point) { return profile.points[point].point; };
    for (const GradeStretch& stretch : profile.grade.not_falling)
        findings.push_back(warning(stretch.rise_m > 0.0 ? "power.pipe_rises" : "power.pipe_runs_level", {},
                                   {length("from", at(stretch.from).chainage_m),
                                    length("to", at(stretch.to).chainage_m), length("rise", stretch.rise_m)}));
    for (const GradeSpot& spot : profile.grade.spots)
        findings.push_back(
            warning(spot.kind == SpotKind::High ? "power.air_valve_needed" : "power.drain_needed", {},
                    {length("chainage", at(spot.point).chainage_m), length("level", at(spot.point).level_m)}));
}

void say_laying(const PressureProfile& profile, const std::vector<PipeSection>& sections, Findings& findings) {
    double steepest = 0.0;
    for (std::size_t i = 0; i + 1 < profile.points.size(); ++i) {
        const PipePoint& from = profile.points[i].point;
        const PipePoint& to = profile.points[i + 1].point;
        steepest = std::max(steepest, (from.level_m - to.level_m) / (to.chainage_m - from.chainage_m));
    }
    if (const Expected<double> air = draining_air_m3s(std::min(steepest, 1.0), sections.front().bore_m))
        findings.push_back(note("power.vent_at_intake", {}, {{"air", *air, Quantity::Discharge}}));
    if (!profile.bends.empty()) {
        const PipeBend& largest = *std::ranges::max_element(profile.bends, {}, &PipeBend::thrust_N);
        findings.push_back(warning("power.thrust_blocks", {},
                                   {{"count", static_cast<std::int64_t>(profile.bends.size())},
                                    {"thrust", largest.thrust_N},
                                    length("chainage", profile.points[largest.point].point.chainage_m),
                                    {"end_thrust", profile.end_thrust_N}}));
    }
    double outside_m = 0.0;
    for (const PipeSection& section : sections)
        outside_m = std::max(outside_m, section.outside_m());
    if (const Expected<double> cover = least_cover_m(outside_m))
        findings.push_back(note("power.least_cover", {}, {length("cover", *cover)}));
}

} // namespace

Findings pressure_findings(const PressureProfile& profile, const std::vector<PipeSection>& sections,
                           const PressureLimits& limits) {
    Findings findings;
    say_classes(profile, limits, findings);
    say_suction_at_flow(profile, limits, findings);
    say_collapse(profile, "power.suction_collapse", &PressurePoint::flowing_Pa, &SectionPressure::lasting_vacuum_Pa,
                 findings);
    const PressurePoint& rebound = lowest(profile, &PressurePoint::lowest_Pa);
    if (rebound.lowest_Pa < 0.0)
        findings.push_back(
            warning("power.surge_suction", {},
                    {length("chainage", rebound.point.chainage_m), pressure("suction", -rebound.lowest_Pa)}));
    say_collapse(profile, "power.draining_collapse", &PressurePoint::draining_Pa, &SectionPressure::short_vacuum_Pa,
                 findings);
    say_grade(profile, findings);
    say_laying(profile, sections, findings);
    if (profile.surge_Pa.estimate.value > 0.0)
        findings.push_back(note("power.surge_simplified", {}, {pressure("surge", profile.surge_Pa.estimate.value)}));
    return findings;
}

} // namespace rillmark
