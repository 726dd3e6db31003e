// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "levelling/height_network.h"
#include "levelling/level_book.h"
#include "uncertainty/estimate.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// Mean radius of the earth. GRS 80, (2a + b) / 3: H. Moritz, Geodetic Reference System 1980, J. Geodesy 74 (2000) 128.
inline constexpr double kEarthRadius_m = 6371008.77;

/// Refraction as part of curvature. 0.13 to 0.14 (1/7) in practice; taken: 0.14, as in the lecture notes to Wolf and
/// Ghilani, Elementary Surveying, 11th ed., chapter 4. Near hot ground it may be zero or negative.
inline constexpr double kRefractionCoefficient = 0.14;

struct EarthCurvature {
    double radius_m = kEarthRadius_m;               // > 0
    double refraction_k = kRefractionCoefficient; // -1..1
};

/// What curvature and refraction add to a staff reading: (1 - k) D^2 / (2 R), to be subtracted (m). Distance 0..10 km;
/// the formula leaves out D^4 / (8 R^3), below 5e-6 m at 10 km.
/// Source: lecture notes to Wolf and Ghilani, Elementary Surveying, 11th ed., chapter 4; tests/checks cr-table-feet.
/// Refuses a distance that is not finite or not in range (`levels.sight_length_impossible`), and a radius that is not
/// above zero or a k that is not in -1..1 (`levels.curvature_impossible`).
[[nodiscard]] Expected<double> curvature_refraction_m(double distance_m, const EarthCurvature& earth = {});

/// Largest collimation error taken at all, rise of the line of sight per metre: 1 m in 100 m. Our choice, no source; the
/// largest of the worked examples has 0.25 m in 100 m.
inline constexpr double kLargestCollimation = 0.01;

/// Backsight and foresight of one set-up may differ by this. US Army, surveying course EN0593 (three-wire levelling).
inline constexpr double kUnbalancedSetup_m = 10.0;

/// Refuses a collimation that is not finite or beyond kLargestCollimation (`levels.collimation_impossible`), or whose
/// uncertainty is not finite or negative (`levels.uncertainty_impossible`). None passes.
[[nodiscard]] Expected<void> check_collimation(const std::optional<Estimate>& collimation);

struct SightCorrections {
    /// Rise of the line of sight per metre, > 0 upwards (readings too large), with its standard uncertainty; of two_peg().
    std::optional<Estimate> collimation;
    bool curvature = false;
    EarthCurvature earth = {};
};

/// Lengths of the sights of one set-up whose distances are both known.
struct SetupLengths {
    std::size_t setup = 0; // from 1
    std::string foresight_point;
    double backsight_m = 0.0;
    double foresight_m = 0.0;
    [[nodiscard]] double difference_m() const { return backsight_m - foresight_m; }
};

struct CorrectedSights {
    std::vector<Sight> sights; // all of them, in their order; struck ones and those without a distance as they were
    std::vector<SetupLengths> setups;
    /// What collimation put into last - first level before it was taken out, e x sum(BS - FS lengths), of the set-ups
    /// above. Missing without a collimation or where no set-up has both its distances.
    std::optional<Estimate> collimation_cost;
    Findings findings;
};

/// Takes collimation (e x D) and curvature with refraction out of the readings.
///
/// Sights of one length cancel both; on a steep path those uphill are always the shorter ones and the error adds up with
/// one sign. So the cost is told as a number (`levels.collimation_cost`, a note), and each set-up beyond
/// kUnbalancedSetup_m is a warning where no collimation is known (`levels.setup_unbalanced`) and a note where it is taken
/// out (`levels.setup_unbalanced_corrected`). `levels.sights_not_corrected` is a note that some readings
/// have no distance. The cost is that of collimation alone, without curvature.
/// Refuses what reduce() and check_collimation() refuse, and for curvature what curvature_refraction_m refuses (`row`: the
/// sight, as in reduce()). Exact to rounding.
/// Source: two-peg and curvature practice of any text on levelling; tests/checks peg-* and cr-*.
[[nodiscard]] Expected<CorrectedSights> correct_sights(const std::vector<Sight>& sights,
                                                       const SightCorrections& corrections);

/// Gives the observations of observations_of() (same sights, same order without the struck ones) the uncertainty of the
/// collimation as one shared effect, key "collimation:" + instrument: a reading corrected by e x D has an error of u(e) x D
/// that all sights of this instrument have with one sign, and that equal sights cancel. A sight without a distance keeps
/// none. `per_metre` of the sight precision is the same error of an instrument that is not tested: leave it out then.
void share_collimation(const std::vector<Sight>& sights, const Estimate& collimation, const std::string& instrument,
                       std::vector<HeightDifference>& observations);

} // namespace rillmark
