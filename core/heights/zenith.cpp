// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/zenith.h"

#include "heights/input_range.h"
#include "levelling/sight_judgement.h"
#include "units/constants.h"

#include <cmath>

namespace rillmark {

namespace {

std::optional<Finding> bad_sight(const ZenithSight& sight) {
    return first_out_of_range(
        {{"levels.zenith", sight.zenith_rad, 10.0 * kRadiansPerDegree, 170.0 * kRadiansPerDegree, Quantity::Angle},
         {"levels.distance", sight.distance_m, 0.5, 20000.0, Quantity::Length},
         {"levels.distance_uncertainty", sight.distance_u_m, 0.0, 100.0, Quantity::Length},
         {"levels.instrument_height", sight.instrument_height_m.value, -5.0, 10.0, Quantity::Length},
         {"levels.instrument_height_uncertainty", sight.instrument_height_m.standard_uncertainty, 0.0, 1.0,
          Quantity::Length},
         {"levels.target_height", sight.target_height_m.value, -5.0, 10.0, Quantity::Length},
         {"levels.target_height_uncertainty", sight.target_height_m.standard_uncertainty, 0.0, 1.0, Quantity::Length}});
}

std::optional<Finding> bad_line(const ZenithLine& line) {
    if (const auto bad = bad_sight(line.forward))
        return bad;
    if (line.reverse)
        if (const auto bad = bad_sight(*line.reverse))
            return bad;
    return first_out_of_range(
        {{"levels.index_correction", line.index_correction_rad.value, -kRadiansPerDegree, kRadiansPerDegree,
          Quantity::Angle},
         {"levels.index_uncertainty", line.index_correction_rad.standard_uncertainty, 0.0, kRadiansPerDegree,
          Quantity::Angle},
         {"levels.angle_uncertainty", line.reading_u_rad, 1e-8, kRadiansPerDegree, Quantity::Angle},
         {"levels.refraction", line.refraction.value, -2.0, 2.0, Quantity::Number},
         {"levels.refraction_uncertainty", line.refraction.standard_uncertainty, 0.0, 2.0, Quantity::Number}});
}

/// One way, from instrument to target.
struct OneWay {
    double rise_m = 0.0;
    double random_m = 0.0;
    double index_m = 0.0;      // per standard uncertainty of the index correction
    double refraction_m = 0.0; // per standard uncertainty of the refraction
    Estimate level_m;
};

OneWay one_way(const ZenithLine& line, const ZenithSight& sight) {
    const double zenith_rad = sight.zenith_rad + line.index_correction_rad.value;
    const SightGeometry geometry =
        geometry_of({std::numbers::pi / 2.0 - zenith_rad, sight.distance_m, sight.distance_is});
    const double heights_u_m =
        std::hypot(sight.instrument_height_m.standard_uncertainty, sight.target_height_m.standard_uncertainty);
    OneWay way;
    way.rise_m = geometry.rise_m + sight.instrument_height_m.value - sight.target_height_m.value +
                 curvature_and_refraction_m(geometry.level_m, line.refraction.value);
    way.random_m = std::hypot(geometry.rise_per_rad * line.reading_u_rad, geometry.rise_per_metre * sight.distance_u_m,
                              heights_u_m);
    way.index_m = -geometry.rise_per_rad * line.index_correction_rad.standard_uncertainty;
    // the term is linear in the refraction: one unit takes away the whole curvature
    way.refraction_m = -curvature_and_refraction_m(geometry.level_m, 0.0) * line.refraction.standard_uncertainty;
    const double angle_u_rad = std::hypot(line.reading_u_rad, line.index_correction_rad.standard_uncertainty);
    way.level_m = {geometry.level_m,
                   std::hypot(geometry.level_per_rad * angle_u_rad, geometry.level_per_metre * sight.distance_u_m)};
    return way;
}

Findings judge_both_ways(const OneWay& there, const OneWay& back) {
    Findings findings;
    const double off_m = there.rise_m + back.rise_m;
    const double off_u_m = std::hypot(std::hypot(there.random_m, back.random_m), there.index_m + back.index_m,
                                      there.refraction_m + back.refraction_m);
    if (std::abs(off_m) > kOutlierLimit * off_u_m)
        findings.push_back(warning("levels.both_ways_disagree", "levels.reverse_reading",
                                   {{"off_by", std::abs(off_m), Quantity::Length},
                                    {"plus_minus", kCoverageFactor * off_u_m, Quantity::Length}}));
    const double distance_off_m = there.level_m.value - back.level_m.value;
    const double distance_u_m = std::hypot(there.level_m.standard_uncertainty, back.level_m.standard_uncertainty);
    if (std::abs(distance_off_m) > kOutlierLimit * distance_u_m)
        findings.push_back(warning("levels.distances_disagree", "levels.distance",
                                   {{"off_by", std::abs(distance_off_m), Quantity::Length},
                                    {"plus_minus", kCoverageFactor * distance_u_m, Quantity::Length}}));
    return findings;
}

} // namespace

double curvature_and_refraction_m(double level_distance_m, double refraction) {
    return (1.0 - refraction) * level_distance_m * level_distance_m / (2.0 * kEarthRadius_m);
}

Expected<SightedRise> zenith_line(const ZenithLine& line) {
    if (const auto bad = bad_line(line))
        return *bad;
    const OneWay there = one_way(line, line.forward);
    const OneWay back = line.reverse ? one_way(line, *line.reverse) : OneWay{};
    const double part = line.reverse ? 0.5 : 1.0;

    SightedRise result;
    MeasuredRise& rise = result.rise;
    rise.rise_m = part * (there.rise_m - back.rise_m);
    rise.random_m = part * std::hypot(there.random_m, back.random_m);
    rise.shared = {{"zenith-index:" + line.run, "levels.index_correction", part * (there.index_m - back.index_m)},
                   {"refraction:" + line.run, "levels.refraction", part * (there.refraction_m - back.refraction_m)}};
    if (line.reverse)
        rise.findings = judge_both_ways(there, back);
    result.level_distance_m = {part * (there.level_m.value + back.level_m.value),
                               part *
                                   std::hypot(there.level_m.standard_uncertainty, back.level_m.standard_uncertainty)};
    result.slope_distance_m = point_to_point(result.level_distance_m, rise.estimate());
    return result;
}

} // namespace rillmark
