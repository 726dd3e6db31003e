// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/clinometer.h"

#include "heights/input_range.h"
#include "levelling/sight_judgement.h"
#include "units/constants.h"

#include <array>
#include <cmath>

namespace rillmark {

namespace {

constexpr double kSteepest_rad = 80.0 * kRadiansPerDegree;
constexpr double kLargestCorrection_rad = 5.0 * kRadiansPerDegree;

double angle_of(const ClinometerReading& reading) {
    return reading.angle_rad ? *reading.angle_rad : std::atan(*reading.slope);
}

/// The number as it stood on the scale, taken for one of the other scale.
ClinometerReading on_other_scale(const ClinometerReading& reading) {
    if (reading.angle_rad)
        return {std::nullopt, *reading.angle_rad / kRadiansPerDegree / 100.0};
    return {*reading.slope * 100.0 * kRadiansPerDegree, std::nullopt};
}

std::optional<Finding> bad_reading(const ClinometerReading& reading, const char* where) {
    if (reading.angle_rad.has_value() == reading.slope.has_value())
        return refusal("levels.degrees_or_per_cent", where);
    return first_out_of_range({{where, angle_of(reading), -kSteepest_rad, kSteepest_rad, Quantity::Angle}});
}

std::optional<Finding> bad_input(const ClinometerSight& sight) {
    if (const auto bad = bad_reading(sight.forward, "levels.forward_reading"))
        return bad;
    if (sight.reverse)
        if (const auto bad = bad_reading(*sight.reverse, "levels.reverse_reading"))
            return bad;
    return first_out_of_range(
        {{"levels.distance", sight.distance_m, 0.5, 2000.0, Quantity::Length},
         {"levels.distance_uncertainty", sight.distance_u_m, 0.0, 100.0, Quantity::Length},
         {"levels.eye_height", sight.eye_height_m.value, -5.0, 10.0, Quantity::Length},
         {"levels.eye_height_uncertainty", sight.eye_height_m.standard_uncertainty, 0.0, 1.0, Quantity::Length},
         {"levels.target_height", sight.target_height_m.value, -5.0, 10.0, Quantity::Length},
         {"levels.target_height_uncertainty", sight.target_height_m.standard_uncertainty, 0.0, 1.0, Quantity::Length},
         {"levels.index_correction", sight.index_correction_rad.value, -kLargestCorrection_rad, kLargestCorrection_rad,
          Quantity::Angle},
         {"levels.index_uncertainty", sight.index_correction_rad.standard_uncertainty, 0.0, kLargestCorrection_rad,
          Quantity::Angle},
         {"levels.angle_uncertainty", sight.reading_u_rad, 1e-6, kLargestCorrection_rad, Quantity::Angle}});
}

SightGeometry geometry_of_reading(const ClinometerSight& sight, const ClinometerReading& reading) {
    return geometry_of({angle_of(reading) + sight.index_correction_rad.value, sight.distance_m, sight.distance_is});
}

double eye_above_target_m(const ClinometerSight& sight) {
    return sight.eye_height_m.value - sight.target_height_m.value;
}

/// Rise forward less rise by the way back: zero but for errors.
Estimate disagreement_m(const ClinometerSight& sight, const ClinometerReading& forward,
                        const ClinometerReading& reverse) {
    const SightGeometry there = geometry_of_reading(sight, forward);
    const SightGeometry back = geometry_of_reading(sight, reverse);
    const double off_m = there.rise_m + back.rise_m + 2.0 * eye_above_target_m(sight);
    const double random_m = sight.reading_u_rad * std::hypot(there.rise_per_rad, back.rise_per_rad);
    const double distance_m = sight.distance_u_m * (there.rise_per_metre + back.rise_per_metre);
    const double index_m = sight.index_correction_rad.standard_uncertainty * (there.rise_per_rad + back.rise_per_rad);
    const double heights_m =
        2.0 * std::hypot(sight.eye_height_m.standard_uncertainty, sight.target_height_m.standard_uncertainty);
    return {off_m, std::hypot(std::hypot(random_m, distance_m), std::hypot(index_m, heights_m))};
}

bool agrees(const Estimate& disagreement) {
    return std::abs(disagreement.value) <= kOutlierLimit * disagreement.standard_uncertainty;
}

std::optional<Finding> judge_both_ways(const ClinometerSight& sight) {
    const Estimate off_m = disagreement_m(sight, sight.forward, *sight.reverse);
    if (agrees(off_m))
        return std::nullopt;
    const Estimate forward_swapped = disagreement_m(sight, on_other_scale(sight.forward), *sight.reverse);
    const Estimate reverse_swapped = disagreement_m(sight, sight.forward, on_other_scale(*sight.reverse));
    const bool forward_first = std::abs(forward_swapped.value) <= std::abs(reverse_swapped.value);
    const std::vector<Arg> args{{"off_by", std::abs(off_m.value), Quantity::Length},
                                {"plus_minus", off_m.expanded(), Quantity::Length}};
    if (agrees(forward_first ? forward_swapped : reverse_swapped))
        return warning("levels.degrees_per_cent_mixed",
                       forward_first ? "levels.forward_reading" : "levels.reverse_reading", args);
    return warning("levels.both_ways_disagree", "levels.reverse_reading", args);
}

Findings findings_of(const ClinometerSight& sight, const MeasuredRise& rise) {
    Findings findings;
    if (sight.reverse)
        if (const auto doubt = judge_both_ways(sight))
            findings.push_back(*doubt);
    const double forward_rad = angle_of(sight.forward);
    const double reverse_rad = sight.reverse ? angle_of(*sight.reverse) : 0.0;
    const bool reverse_steeper = std::abs(reverse_rad) > std::abs(forward_rad);
    const double steepest_rad = reverse_steeper ? reverse_rad : forward_rad;
    if (std::abs(steepest_rad) > kSteepSight_rad)
        findings.push_back(
            warning("levels.sight_steep", reverse_steeper ? "levels.reverse_reading" : "levels.forward_reading",
                    {{"angle", steepest_rad, Quantity::Angle}, {"limit", kSteepSight_rad, Quantity::Angle}}));
    if (sight.distance_m > kLongClinometerSight_m)
        findings.push_back(note("levels.sight_long", "levels.distance",
                                {{"distance", sight.distance_m, Quantity::Length},
                                 {"limit", kLongClinometerSight_m, Quantity::Length},
                                 {"plus_minus", rise.estimate().expanded(), Quantity::Length}}));
    const double index_m = std::abs(rise.shared.front().effect_m);
    if (!sight.reverse && index_m > kIndexMatters * rise.random_m)
        findings.push_back(
            note("levels.sight_one_way", "levels.index_correction", {{"effect", index_m, Quantity::Length}}));
    return findings;
}

} // namespace

Expected<SightedRise> clinometer(const ClinometerSight& sight) {
    if (const auto bad = bad_input(sight))
        return *bad;
    const SightGeometry there = geometry_of_reading(sight, sight.forward);
    // one way: the whole of it; both ways: half the difference
    const SightGeometry back = sight.reverse ? geometry_of_reading(sight, *sight.reverse) : SightGeometry{};
    const double part = sight.reverse ? 0.5 : 1.0;
    const double heights_part = sight.reverse ? 0.0 : 1.0;

    SightedRise result;
    MeasuredRise& rise = result.rise;
    rise.rise_m = part * (there.rise_m - back.rise_m) + heights_part * eye_above_target_m(sight);
    rise.random_m = part * std::hypot(sight.reading_u_rad * std::hypot(there.rise_per_rad, back.rise_per_rad),
                                      sight.distance_u_m * (there.rise_per_metre - back.rise_per_metre));
    rise.shared = {
        {"clinometer-index:" + sight.run, "levels.index_correction",
         part * (there.rise_per_rad - back.rise_per_rad) * sight.index_correction_rad.standard_uncertainty},
        {"eye-height:" + sight.run, "levels.eye_height", heights_part * sight.eye_height_m.standard_uncertainty},
        {"target-height:" + sight.run, "levels.target_height",
         -heights_part * sight.target_height_m.standard_uncertainty}};
    rise.findings = findings_of(sight, rise);

    const double index_u_m =
        part * (there.level_per_rad + back.level_per_rad) * sight.index_correction_rad.standard_uncertainty;
    const double reading_u_m = part * sight.reading_u_rad * std::hypot(there.level_per_rad, back.level_per_rad);
    const double distance_u_m = part * sight.distance_u_m * (there.level_per_metre + back.level_per_metre);
    result.level_distance_m = {part * (there.level_m + back.level_m), std::hypot(index_u_m, reading_u_m, distance_u_m)};
    result.slope_distance_m = point_to_point(result.level_distance_m, rise.estimate());
    return result;
}

} // namespace rillmark
