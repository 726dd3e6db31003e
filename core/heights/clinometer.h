// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "heights/inclined_sight.h"

#include <numbers>
#include <optional>
#include <string>

namespace rillmark {

// From memory, unconfirmed: a good hand clinometer is read and held to a quarter of a degree.
inline constexpr double kClinometerReading_rad = 0.25 * std::numbers::pi / 180.0;
// Our choice, no source: an index that nobody checked is off by as much again.
inline constexpr double kClinometerIndex_rad = kClinometerReading_rad;
// Our choice, no source: 45 degrees are 100 %; beyond, a per cent reading booked as degrees is more likely than a hill.
inline constexpr double kSteepSight_rad = 45.0 * std::numbers::pi / 180.0;
// Our choice, no source: a quarter of a degree is 0.44 m there.
inline constexpr double kLongClinometerSight_m = 100.0;
// Our choice, no source: part of the random uncertainty from which the index is worth a sight back.
inline constexpr double kIndexMatters = 0.5;

/// One reading, up positive: exactly one of the two.
struct ClinometerReading {
    std::optional<double> angle_rad;
    std::optional<double> slope; // rise over level distance; 1 is 100 %
};

/// A sight from point to point with a hand clinometer.
struct ClinometerSight {
    ClinometerReading forward; // from the first point to a mark on the second, up to 80 degrees either way
    std::optional<ClinometerReading> reverse; // from the second point back, same eye and mark heights
    double distance_m = 0.0;                  // 0.5 to 2000
    double distance_u_m = 0.0;                // standard uncertainty, 0 to 100
    SightDistance distance_is = SightDistance::Slope;
    Estimate eye_height_m;                                    // instrument above the ground at its point, -5 to 10
    Estimate target_height_m;                                 // mark above the ground at its point, -5 to 10
    Estimate index_correction_rad{0.0, kClinometerIndex_rad}; // added to every reading; up to 5 degrees
    double reading_u_rad = kClinometerReading_rad; // standard uncertainty of one reading, above 0 to 5 degrees
    std::string run; // sights that share instrument, observer and pole have the same; part of the shared keys
};

/// Rise by clinometer: S sin a (slope distance) or D tan a (level distance; per cent: D p / 100), + eye height - target
/// height. With a reverse reading the mean of both ways, (forward - reverse) / 2, in which index and heights cancel.
/// Curvature and refraction are left out: 7 mm at 300 m.
///
/// Random: each reading, the distance. Shared, keys "clinometer-index:", "eye-height:" and "target-height:" + run.
/// Source: plane trigonometry (inclined_sight.h). Accuracy: 2 to 5 % of the rise (from memory, unconfirmed).
/// Warns: `levels.degrees_per_cent_mixed` when both ways disagree and would agree with one of them read on the other
/// scale; else `levels.both_ways_disagree` beyond kOutlierLimit (sight_judgement.h); `levels.sight_steep` beyond
/// kSteepSight_rad. Notes `levels.sight_long` beyond kLongClinometerSight_m and `levels.sight_one_way` when nothing
/// cancels an index above kIndexMatters.
/// Refuses: inputs outside the ranges above (`levels.input_out_of_range`), a reading with both or none of its values
/// (`levels.degrees_or_per_cent`).
[[nodiscard]] Expected<SightedRise> clinometer(const ClinometerSight& sight);

} // namespace rillmark
