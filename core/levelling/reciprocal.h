// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "levelling/sight_correction.h"
#include "uncertainty/estimate.h"

#include <optional>

namespace rillmark {

/// Readings of the staves on A and B from one bank.
struct BankReadings {
    double reading_a_m = 0.0;
    double reading_b_m = 0.0;
};

/// Levelling over a gully or river too wide for equal sights: from beside A, then from beside B, the level as near to its
/// own staff on both banks.
struct ReciprocalObservation {
    BankReadings from_a;
    BankReadings from_b;
    std::optional<double> distance_m; // A to B, > 0 .. 10 km
};

struct ReciprocalOptions {
    /// Standard uncertainty of the reading on the own bank, and of that across. Our choice, no source: a staff reading to
    /// 1 mm; across, that and the doubt of a far staff or a target set by signal.
    double near_uncertainty_m = 0.0015;
    double far_uncertainty_m = 0.003;
    /// Standard uncertainty of the change of k from one set-up to the other; it does not cancel, and works only where the
    /// distance is known. Our choice, no source: half an hour between the set-ups. Zero for two levels at the same time.
    double refraction_change = 0.1;
    /// Rise of the line of sight per metre, of two_peg(); {0, 0} for none. With it and a distance, k follows.
    std::optional<Estimate> collimation;
    double earth_radius_m = kEarthRadius_m;
};

struct ReciprocalResult {
    double rise_from_a_m = 0.0; // H(B) - H(A) as it appears from A
    double rise_from_b_m = 0.0; // the same from B
    Estimate rise;              // their mean: collimation, curvature and refraction cancel
    /// By how much the far reading is too large: collimation, curvature and refraction together.
    Estimate line_error;
    /// Refraction as part of curvature; missing without a distance or a collimation.
    std::optional<Estimate> refraction_k;
    Findings findings;
};

/// Without a distance a line error beyond this is searched for swapped staves: curvature of 2 km. Our choice, no source.
inline constexpr double kDoubtfulLineError_m = 0.3;

/// Reciprocal levelling. rise = mean of both apparent rises, line error = half their difference,
/// k = 1 - (line error - e D) / (D^2 / (2 R)).
/// Source: practice of any text on levelling; tests/checks recip-0770, recip-1530m. Exact to rounding for a level beside its
/// staff; one that stands n metres behind it leaves 2 n D (1 - k) / (2 R) in k and nothing in the rise.
///
/// Findings: `levels.refraction_unlikely`, a warning of a k that is outside -1..1 by more than its +/- (our choice, no
/// source); `levels.line_error_large`, a warning of an error beyond what kDoubtfulCollimation and curvature make (without a
/// distance: kDoubtfulLineError_m).
/// Refuses impossible readings, distances (zero too), uncertainties and collimation, and data that contradict themselves: a
/// large line error which one bank with its staves swapped would make ten times smaller (`levels.staves_swapped`; which
/// bank, the data cannot tell).
[[nodiscard]] Expected<ReciprocalResult> reciprocal(const ReciprocalObservation& observation,
                                                    const ReciprocalOptions& options = {});

} // namespace rillmark
