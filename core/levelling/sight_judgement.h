// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "levelling/level_book.h"
#include "uncertainty/estimate.h"

#include <optional>

namespace rillmark {

/// Two-sided critical value of a normal variable at 99.9 %: beyond it an observation is called an outlier.
/// Source: W. Baarda, A Testing Procedure for Use in Geodetic Networks, 1968 (alpha0 = 0.1 %); from memory, the value
/// itself is the normal quantile.
inline constexpr double kOutlierLimit = 3.29;

enum class SlipKind { WholeMetre, WholeFoot, TenthOfMetre, InvertedStaff, SwappedDigits, SixForNine, FeetAsMetres, Exchanged };

/// A slip of reading or booking that would explain a reading, and what the reading would then have been.
struct Slip {
    SlipKind kind = SlipKind::WholeMetre;
    double suggested_reading_m = 0.0;
};

/// A reading that does not fit.
struct ReadingInDoubt {
    double reading_m = 0.0;
    double discrepancy_m = 0.0;  // reading - what the rest of the evidence expects
    double tolerance_m = 0.0;    // how far the discrepancy may be from the slip (the expectation's +/-), >= 0
    double last_digit_m = 0.001; // weight of the last digit as typed: 0.001 for metres, that of 0.01 ft for feet
    std::optional<double> backsight_m = {}; // of its set-up, where the reading is that set-up's foresight
};

/// The slip that fits the discrepancy best: 1 m, 1 ft or 0.1 m misread, an inverted staff booked without its sign, two
/// neighbouring digits swapped, a 6 for a 9, feet typed as metres, or backsight and foresight exchanged (then both are
/// wrong, and the discrepancy is twice their difference). Nothing fits within the tolerance, or the tolerance is above a fifth of the slip
/// (then chance explains it as well): nullopt, also for numbers that are not finite.
/// Source: common practice, no source (the usual list of levelling blunders).
[[nodiscard]] std::optional<Slip> guess_slip(const ReadingInDoubt& doubt);

/// At booking: a warning when a reading is more than kOutlierLimit standard uncertainties from the one that the rest of
/// the evidence expects (`levels.reading_improbable`, or with a guess of the slip `levels.reading_maybe_metre`,
/// `_foot`, `_tenth`, `_inverted`, `_swapped`, `_six_nine`, `_feet`, `_exchanged`). The uncertainty of `expected_reading`
/// must hold the reading's own. `backsight_m` as in ReadingInDoubt.
/// An expectation that is not finite or has no uncertainty judges nothing: nullopt.
[[nodiscard]] std::optional<Finding> judge_sight(const Sight& sight, const Estimate& expected_reading,
                                                 double last_digit_m = 0.001,
                                                 std::optional<double> backsight_m = {});

/// The same for a measured rise (m, up positive) by any method: `levels.rise_improbable`, or `levels.rise_maybe_turned`
/// where the rise with the other sign fits, `_feet` where it fits if it was in feet.
[[nodiscard]] std::optional<Finding> judge_against_expected(double measured_rise_m, const Estimate& expected_rise);

} // namespace rillmark
