// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "heights/inclined_sight.h"
#include "levelling/sight_correction.h"

#include <numbers>
#include <optional>
#include <string>

namespace rillmark {

// Our choice, no source: near the ground of a valley it may vanish or double.
inline constexpr double kRefraction_u = 0.1;
// From memory, unconfirmed: a builder's theodolite or total station, one face: 10 seconds a pointing, 20 of index.
inline constexpr double kZenithReading_rad = 10.0 / 3600.0 * std::numbers::pi / 180.0;
inline constexpr double kZenithIndex_rad = 2.0 * kZenithReading_rad;

/// One set-up and one target.
struct ZenithSight {
    double zenith_rad = 0.0;   // from the zenith down, face left: 10 to 170 degrees, 90 is level
    double distance_m = 0.0;   // along the line of sight, or level; 0.5 to 20 000
    double distance_u_m = 0.0; // standard uncertainty, 0 to 100
    SightDistance distance_is = SightDistance::Slope;
    Estimate instrument_height_m; // trunnion axis above the ground point, -5 to 10
    Estimate target_height_m;     // -5 to 10
};

/// A trigonometric line from one point to another.
struct ZenithLine {
    ZenithSight forward;                                  // set up over the first point
    std::optional<ZenithSight> reverse;                   // set up over the second point, back to the first
    Estimate index_correction_rad{0.0, kZenithIndex_rad}; // added to every zenith reading; up to 1 degree
    double reading_u_rad = kZenithReading_rad;            // standard uncertainty of one reading, above 0 to 1 degree
    Estimate refraction{kRefractionCoefficient, kRefraction_u};      // part of the curvature, -2 to 2
    std::string run; // lines with the same instrument on the same day have the same; part of the shared keys
};

/// What curvature and refraction add to a rise over a level distance: (1 - refraction) D^2 / (2 R), R
/// kEarthRadius_m. Source: lecture notes to Wolf and Ghilani, Elementary Surveying, 11th ed., chapter 4.
[[nodiscard]] double curvature_and_refraction_m(double level_distance_m, double refraction);

/// Rise by zenith angle: S cos z (slope distance) or D cot z (level distance), + instrument height - target height
/// + curvature and refraction. With a reverse sight the mean of both ways, in which index, curvature and refraction
/// cancel where the air is alike.
///
/// Random: the readings, distances and heights of instrument and target, new for every set-up. Shared, keys
/// "zenith-index:" and "refraction:" + run.
/// Source: J. Mahun, Elevations, chapter C (trigonometric levelling); curvature as above.
/// Warns `levels.both_ways_disagree` beyond kOutlierLimit (sight_judgement.h) and `levels.distances_disagree` when the
/// two level distances do. Refuses inputs outside the ranges above (`levels.input_out_of_range`). Accuracy: the formula
/// 1 mm up to 1 km.
[[nodiscard]] Expected<SightedRise> zenith_line(const ZenithLine& line);

} // namespace rillmark
