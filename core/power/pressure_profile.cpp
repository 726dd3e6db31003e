// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pressure_profile.h"

#include "heights/atmosphere.h"
#include "power/input_checks.h"
#include "power/pipe_flow.h"
#include "power/pipe_laying.h"
#include "power/pressure_findings.h"
#include "uncertainty/propagate.h"
#include "water/gravity.h"
#include "water/water.h"

#include <algorithm>
#include <limits>
#include <numbers>
#include <string>

namespace rillmark {

namespace {

struct Surroundings {
    double density_kgm3 = 0.0;
    PipeWater water;
    double full_vacuum_Pa = 0.0;

    [[nodiscard]] double weight_Pa_per_m() const { return density_kgm3 * water.gravity_ms2; }
};

Expected<Surroundings> surroundings_of(const PressureInput& input) {
    const Expected<double> density = water_density_kgm3(input.water_temperature_C);
    if (!density)
        return density.error();
    const Expected<double> viscosity = water_kinematic_viscosity_m2s(input.water_temperature_C);
    if (!viscosity)
        return viscosity.error();
    const Expected<double> gravity = normal_gravity_ms2({input.latitude_deg, input.altitude_m});
    if (!gravity)
        return gravity.error();
    const Expected<double> air = standard_pressure_Pa(geopotential_height_m(input.altitude_m));
    if (!air)
        return air.error();
    return Surroundings{
        *density, {*viscosity, *gravity}, *air - saturation_vapour_pressure_Pa(input.water_temperature_C)};
}

Expected<void> check_section(const PressureInput& input, std::size_t number) {
    const PipeSection& section = input.sections[number];
    if (const Expected<void> check =
            first_refusal(check_positive("power.bore", section.bore_m, Quantity::Bore),
                          check_positive("power.pipe_wall", section.wall_m, Quantity::Bore),
                          check_not_negative("power.roughness", section.roughness_m, Quantity::Bore),
                          check_positive("power.pressure_rating", section.rating_Pa.value_or(1.0), Quantity::Pressure));
        !check)
        return check.error();
    const double start_m = input.points.front().chainage_m;
    // also false for a chainage that is not a number
    const bool placed = number == 0 ? section.from_m <= start_m
                                    : section.from_m > std::max(input.sections[number - 1].from_m, start_m) &&
                                          section.from_m < input.points.back().chainage_m;
    if (!placed)
        return refusal("power.section_misplaced", "power.chainage", {{"chainage", section.from_m, Quantity::Length}});
    return {};
}

Expected<void> check_sections(const PressureInput& input) {
    if (input.sections.empty())
        return refusal("power.no_section", "power.bore");
    for (std::size_t i = 0; i < input.sections.size(); ++i)
        if (const Expected<void> check = check_section(input, i); !check) {
            Finding finding = check.error();
            finding.args.push_back({"section", static_cast<std::int64_t>(i + 1)});
            return finding;
        }
    return {};
}

Expected<void> check_input(const PressureInput& input) {
    if (const Expected<void> check = check_points(input.points); !check)
        return check.error();
    if (const Expected<void> check = check_sections(input); !check)
        return check.error();
    if (!std::isfinite(input.intake_level_m))
        return refusal("uncertainty.not_finite", "power.intake_level");
    if (const Expected<void> check = first_refusal(
            check_not_negative("power.flow", input.flow_m3s.value, Quantity::Discharge),
            check_not_negative("power.flow", input.flow_m3s.standard_uncertainty, Quantity::Discharge),
            check_not_negative("power.closing_time", input.closing_s, Quantity::Time),
            check_not_negative("power.minor_k", input.entrance_k),
            check_positive("power.soil_bearing", input.soil_bearing_Pa.value_or(1.0), Quantity::Pressure));
        !check)
        return check.error();
    const Arg intake{"intake", input.intake_level_m, Quantity::Length};
    if (input.points.front().level_m > input.intake_level_m)
        return refusal("power.intake_below_pipe", "power.intake_level",
                       {intake, {"level", input.points.front().level_m, Quantity::Length}});
    if (input.points.back().level_m >= input.intake_level_m)
        return refusal("power.outlet_not_below_intake", "power.intake_level",
                       {intake, {"level", input.points.back().level_m, Quantity::Length}});
    return {};
}

/// The points with those at which a section begins put in between.
std::vector<PipePoint> with_section_starts(const PressureInput& input) {
    std::vector<PipePoint> points = input.points;
    for (const PipeSection& section : input.sections) {
        const auto below = std::ranges::lower_bound(points, section.from_m, {}, &PipePoint::chainage_m);
        if (below == points.begin() || below->chainage_m == section.from_m)
            continue;
        const PipePoint& above = *(below - 1);
        const double part = (section.from_m - above.chainage_m) / (below->chainage_m - above.chainage_m);
        points.insert(below, {section.from_m, std::lerp(above.level_m, below->level_m, part), 0.0});
    }
    return points;
}

/// The section of the pipe below each point; the last point has that of the pipe above it.
std::vector<std::size_t> section_of_points(const std::vector<PipePoint>& points,
                                           const std::vector<PipeSection>& sections) {
    std::vector<std::size_t> of_points;
    std::size_t section = 0;
    for (const PipePoint& point : points) {
        while (section + 1 < sections.size() && sections[section + 1].from_m <= point.chainage_m)
            ++section;
        of_points.push_back(section);
    }
    return of_points;
}

double bore_area_m2(const PipeSection& section) {
    return std::numbers::pi / 4.0 * section.bore_m * section.bore_m;
}

double speed_ms(const PipeSection& section, double flow_m3s) {
    return flow_m3s / bore_area_m2(section);
}

struct Waves {
    std::vector<double> speeds_ms; // of each section
    double sudden_Pa = 0.0;        // the greatest rho a V
};

/// With a bulk modulus and the moduli of the sections' materials as they are given here.
Expected<Waves> waves_of(const PressureInput& input, double density_kgm3, double flow_m3s, double bulk_Pa,
                         const std::vector<double>& moduli_Pa) {
    Waves waves;
    for (std::size_t i = 0; i < input.sections.size(); ++i) {
        const PipeSection& section = input.sections[i];
        const Expected<double> factor = anchoring_factor(input.anchoring, section.material.poisson);
        if (!factor)
            return factor.error();
        const Expected<double> wave =
            wave_speed_ms({section.bore_m, section.wall_m, moduli_Pa[i], *factor}, {density_kgm3, bulk_Pa});
        if (!wave)
            return wave.error();
        waves.speeds_ms.push_back(*wave);
        waves.sudden_Pa = std::max(waves.sudden_Pa, density_kgm3 * *wave * speed_ms(section, flow_m3s));
    }
    return waves;
}

double surge_at_Pa(double sudden_Pa, double density_kgm3, double length_by_speed_m2s, double closing_s) {
    const double evenly_Pa = 2.0 * density_kgm3 * length_by_speed_m2s;
    if (closing_s == 0.0)
        return length_by_speed_m2s > 0.0 ? sudden_Pa : 0.0;
    return std::min(sudden_Pa, evenly_Pa / closing_s);
}

/// The surge at the valve with its uncertainty; `length_by_area_per_m` is sum(L / A).
Expected<Budgeted> surge_at_valve(const PressureInput& input, double density_kgm3, double length_by_area_per_m,
                                  double closing_s) {
    std::vector<ModelInput> inputs{{"power.flow", {}, input.flow_m3s},
                                   {"power.bulk_modulus", {}, kWaterBulkModulus_Pa}};
    std::vector<std::size_t> modulus_of; // input of each section
    for (const PipeSection& section : input.sections) {
        // sections of one material share its error
        const auto known = std::ranges::find(inputs, section.material.id, &ModelInput::subject);
        modulus_of.push_back(static_cast<std::size_t>(known - inputs.begin()));
        if (known == inputs.end())
            inputs.push_back({"power.modulus", std::string(section.material.id), section.material.modulus_Pa});
    }
    return propagate(inputs, [&](std::span<const double> x) {
        std::vector<double> moduli_Pa;
        for (const std::size_t modulus : modulus_of)
            moduli_Pa.push_back(x[modulus]);
        const Expected<Waves> waves = waves_of(input, density_kgm3, x[0], x[1], moduli_Pa);
        if (!waves)
            return std::numeric_limits<double>::quiet_NaN();
        return surge_at_Pa(waves->sudden_Pa, density_kgm3, length_by_area_per_m * x[0], closing_s);
    });
}

/// How much more than its value a surge may be, k = 2.
double upper_end(const Estimate& surge) {
    return surge.value > 0.0 ? 1.0 + surge.expanded() / surge.value : 1.0;
}

struct Course {
    PressureProfile profile;
    std::vector<double> length_by_speed_m2s; // sum(L V) above each point
};

/// Everything but the surge.
Expected<Course> standing_and_flowing(const PressureInput& input, const Surroundings& around) {
    Course course;
    const std::vector<PipePoint> points = with_section_starts(input);
    const std::vector<std::size_t> sections = section_of_points(points, input.sections);
    const double end_level_m = points.back().level_m;
    double lost_m = 0.0;
    double length_by_speed = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const PipeSection& above = input.sections[i == 0 ? 0 : sections[i - 1]];
        if (i == 0) {
            const double speed = speed_ms(above, input.flow_m3s.value);
            lost_m = input.entrance_k * speed * speed / (2.0 * around.water.gravity_ms2);
        } else {
            const double length_m = points[i].chainage_m - points[i - 1].chainage_m;
            const Expected<PipeLoss> loss =
                pipe_loss({length_m, above.bore_m, above.roughness_m, 0.0}, around.water, input.flow_m3s.value);
            if (!loss)
                return loss.error();
            lost_m += loss->friction_m;
            length_by_speed += length_m * loss->speed_ms;
        }
        PressurePoint point;
        point.point = points[i];
        point.section = i + 1 == points.size() ? sections[i - 1] : sections[i];
        const double speed = speed_ms(input.sections[point.section], input.flow_m3s.value);
        point.hydraulic_grade_m = input.intake_level_m - lost_m - speed * speed / (2.0 * around.water.gravity_ms2);
        point.static_Pa = around.weight_Pa_per_m() * (input.intake_level_m - points[i].level_m);
        point.flowing_Pa = around.weight_Pa_per_m() * (point.hydraulic_grade_m - points[i].level_m);
        point.draining_Pa =
            std::clamp(-around.weight_Pa_per_m() * (points[i].level_m - end_level_m), -around.full_vacuum_Pa, 0.0);
        course.profile.points.push_back(point);
        course.length_by_speed_m2s.push_back(length_by_speed);
    }
    return course;
}

Expected<void> add_sections(PressureProfile& profile, const PressureInput& input, const Waves& waves) {
    for (std::size_t i = 0; i < input.sections.size(); ++i) {
        const PipeSection& section = input.sections[i];
        SectionPressure result;
        result.from_m = i == 0 ? input.points.front().chainage_m : section.from_m;
        result.to_m = i + 1 == input.sections.size() ? input.points.back().chainage_m : input.sections[i + 1].from_m;
        result.speed_ms = speed_ms(section, input.flow_m3s.value);
        result.wave_speed_ms = waves.speeds_ms[i];
        const Expected<double> factor = temperature_factor(section.material, input.wall_temperature_C);
        if (!factor)
            return factor.error();
        if (section.rating_Pa)
            result.holds_Pa = *section.rating_Pa * *factor;
        // the low end of the modulus: a softer wall collapses first
        const Estimate& modulus = section.material.modulus_Pa;
        const Expected<double> brief = collapse_Pa(
            {section.outside_m(), section.wall_m, modulus.value - modulus.expanded(), section.material.poisson});
        const Expected<double> lasting = collapse_Pa(
            {section.outside_m(), section.wall_m, section.material.lasting_modulus_Pa, section.material.poisson});
        if (!brief || !lasting)
            return brief ? lasting.error() : brief.error();
        result.short_vacuum_Pa = *brief / section.material.collapse_factor;
        result.lasting_vacuum_Pa = *lasting / section.material.collapse_factor;
        profile.sections.push_back(result);
    }
    return {};
}

/// The chainage between two points at which the highest pressure passes a limit.
std::optional<double> passed_between_m(const PressurePoint& from, const PressurePoint& to, double limit_Pa) {
    if (from.highest_Pa > limit_Pa)
        return from.point.chainage_m;
    if (to.highest_Pa <= limit_Pa)
        return {};
    return std::lerp(from.point.chainage_m, to.point.chainage_m,
                     (limit_Pa - from.highest_Pa) / (to.highest_Pa - from.highest_Pa));
}

void hold_against_classes(Course& course, double density_kgm3, double sudden_upper) {
    PressureProfile& profile = course.profile;
    const double sudden_Pa = profile.sudden_stop_Pa * sudden_upper;
    std::optional<double> needed_s;
    bool possible = true;
    for (std::size_t i = 0; i + 1 < profile.points.size(); ++i) {
        const PressurePoint& from = profile.points[i];
        const PressurePoint& to = profile.points[i + 1];
        SectionPressure& section = profile.sections[from.section];
        section.highest_Pa = std::max({section.highest_Pa, from.highest_Pa, to.highest_Pa});
        if (!section.holds_Pa)
            continue;
        if (!section.passed_from_m)
            section.passed_from_m = passed_between_m(from, to, *section.holds_Pa);
        needed_s = needed_s.value_or(0.0);
        for (const std::size_t end : {i, i + 1}) {
            const double room_Pa = *section.holds_Pa - profile.points[end].static_Pa;
            if (room_Pa <= 0.0)
                possible = false;
            else if (room_Pa < sudden_Pa)
                needed_s =
                    std::max(*needed_s, 2.0 * density_kgm3 * course.length_by_speed_m2s[end] * sudden_upper / room_Pa);
        }
    }
    if (possible)
        profile.closing_needed_s = needed_s;
}

Expected<void> add_bends(PressureProfile& profile, const PressureInput& input) {
    std::vector<PipePoint> points;
    for (const PressurePoint& point : profile.points)
        points.push_back(point.point);
    const Expected<PipeGrade> grade = pipe_grade(points);
    if (!grade)
        return grade.error();
    profile.grade = *grade;
    for (std::size_t i = 1; i + 1 < points.size(); ++i) {
        const double angle = bend_at_rad(points, i);
        if (angle < kBendForBlock_rad)
            continue;
        const double outside_m = std::max(input.sections[profile.points[i].section].outside_m(),
                                          input.sections[profile.points[i - 1].section].outside_m());
        const Expected<double> thrust = bend_thrust_N(std::max(0.0, profile.points[i].highest_Pa), outside_m, angle);
        if (!thrust)
            return thrust.error();
        PipeBend bend{i, angle, *thrust, {}};
        if (input.soil_bearing_Pa)
            bend.block_area_m2 = block_area_m2(*thrust, *input.soil_bearing_Pa).value();
        profile.bends.push_back(bend);
    }
    const Expected<double> end = end_thrust_N(profile.points.back().highest_Pa, input.sections.back().outside_m());
    if (!end)
        return end.error();
    profile.end_thrust_N = *end;
    return {};
}

} // namespace

Expected<PressureProfile> pressure_profile(const PressureInput& input) {
    if (const Expected<void> check = check_input(input); !check)
        return check.error();
    const Expected<Surroundings> around = surroundings_of(input);
    if (!around)
        return around.error();
    Expected<Course> course = standing_and_flowing(input, *around);
    if (!course)
        return course.error();
    PressureProfile& profile = course->profile;

    const double density = around->density_kgm3;
    std::vector<double> moduli_Pa;
    double length_by_area = 0.0;
    for (const PipeSection& section : input.sections)
        moduli_Pa.push_back(section.material.modulus_Pa.value);
    const Expected<Waves> waves = waves_of(input, density, input.flow_m3s.value, kWaterBulkModulus_Pa.value, moduli_Pa);
    if (!waves)
        return waves.error();
    if (const Expected<void> added = add_sections(profile, input, *waves); !added)
        return added.error();
    for (std::size_t i = 0; i < profile.sections.size(); ++i) {
        const double length_m = profile.sections[i].to_m - profile.sections[i].from_m;
        length_by_area += length_m / bore_area_m2(input.sections[i]);
        profile.reflection_s += 2.0 * length_m / profile.sections[i].wave_speed_ms;
    }
    const Expected<Budgeted> surge = surge_at_valve(input, density, length_by_area, input.closing_s);
    const Expected<Budgeted> sudden = surge_at_valve(input, density, length_by_area, 0.0);
    if (!surge || !sudden)
        return surge ? sudden.error() : surge.error();
    profile.surge_Pa = *surge;
    profile.sudden_stop_Pa = waves->sudden_Pa;
    for (std::size_t i = 0; i < profile.points.size(); ++i) {
        PressurePoint& point = profile.points[i];
        point.surge_Pa = upper_end(surge->estimate) *
                         surge_at_Pa(waves->sudden_Pa, density, course->length_by_speed_m2s[i], input.closing_s);
        point.highest_Pa = point.static_Pa + point.surge_Pa;
        point.lowest_Pa = std::max(point.static_Pa - point.surge_Pa, -around->full_vacuum_Pa);
    }
    hold_against_classes(*course, density, upper_end(sudden->estimate));
    if (const Expected<void> added = add_bends(profile, input); !added)
        return added.error();
    profile.findings = pressure_findings(profile, input.sections,
                                         {around->weight_Pa_per_m(), around->full_vacuum_Pa, input.closing_s});
    return profile;
}

std::optional<double> class_ends_at_m(const PressureProfile& profile, double holds_Pa) {
    for (std::size_t i = 0; i + 1 < profile.points.size(); ++i)
        if (const std::optional<double> passed = passed_between_m(profile.points[i], profile.points[i + 1], holds_Pa))
            return passed;
    return {};
}

} // namespace rillmark
