// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "levelling/sight_correction.h"
#include "uncertainty/estimate.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace rillmark {

/// The level on one place, both staves read. Midway between the pegs the distances are equal; near a peg one is small;
/// beyond a peg one is the distance of the pegs more than the other.
struct PegSetup {
    double distance_a_m = 0.0; // 0 .. 10 km
    double reading_a_m = 0.0;
    double distance_b_m = 0.0;
    double reading_b_m = 0.0;
};

/// Limit of the collimation error, rise of the line of sight per metre: 0.003 ft per 100 ft.
/// USGS Techniques and Methods 3-A19, Levels at gaging stations (T. A. Kenney, 2010), abstract.
inline constexpr double kTwoPegLimit = 3e-5;

/// A test holds for so many days, and not beyond a hard knock or a long ride: common practice, no source.
inline constexpr int kTwoPegValidDays = 7;

/// Set-ups whose (distance to A - distance to B) differ by less cannot tell collimation from height. Our choice, no source.
inline constexpr double kLeastPegLeverage_m = 1.0;

/// Beyond this a test is searched for swapped pegs: 0.1 m in 100 m. Our choice, no source.
inline constexpr double kDoubtfulCollimation = 0.001;

struct TwoPegOptions {
    /// Standard uncertainty of one reading, to 1 mm on a steady staff on a peg: our choice, no source.
    double reading_uncertainty_m = 0.001;
    double limit = kTwoPegLimit; // of |collimation|, > 0
    /// Rise from A to B that is known from elsewhere; it takes the place of one set-up. Its uncertainty must be above zero.
    std::optional<Estimate> known_rise;
    /// Takes curvature and refraction out of the readings first. Worked examples do not, and over 100 m it is 0.7 mm.
    std::optional<EarthCurvature> curvature;
};

struct RightReadings {
    double a_m = 0.0;
    double b_m = 0.0;
};

struct TwoPegResult {
    Estimate collimation; // rise of the line of sight per metre; > 0 points up, readings too large
    Estimate rise;        // H(B) - H(A), free of collimation
    std::vector<RightReadings> right_readings; // of each set-up: reading - e x distance (and curvature where it is taken)
    bool within = false;  // |collimation| <= limit
    std::optional<double> disagreement; // more than two set-ups: chi-square of the residuals over its 95 % limit
    Findings findings;
};

/// Collimation error of a level from two or more set-ups over the same two pegs, in any layout: rA - rB = rise + e (dA - dB)
/// for each, by least squares. With two set-ups, one midway, this is the usual e = ((rB' - rA') - d) / (dB - dA).
/// A set-up weighs by the uncertainty of its two readings; distances count as exact (1 % of them is 1 % of e).
/// Source: practice of any text on levelling; tests/checks peg-80m, peg-100m-beyond. Exact to rounding.
///
/// Findings: `levels.collimation_beyond_limit`, a warning; `levels.peg_test_weak`, a note that the +/- (k = 2) is larger
/// than the limit and the error not beyond both, so that the test can show neither good nor bad; `levels.peg_setups_disagree`, a warning that more than
/// two set-ups contradict each other (chi-square, 95 %).
/// Refuses: fewer than two observations, known rise included (`levels.peg_setups_missing`); set-ups that cannot tell
/// (`levels.peg_same_geometry`, kLeastPegLeverage_m); impossible readings, distances and uncertainties (`row`: the
/// set-up); a limit not above zero (`levels.peg_limit_impossible`); data that contradict themselves: an error beyond
/// kDoubtfulCollimation which one pair with its pegs swapped would make ten times smaller (`levels.pegs_swapped`, arguments
/// `setup` and `row`; `levels.peg_contradicts_known_rise`), or any beyond kLargestCollimation (`levels.collimation_impossible`).
[[nodiscard]] Expected<TwoPegResult> two_peg(const std::vector<PegSetup>& setups, const TwoPegOptions& options = {});

} // namespace rillmark
