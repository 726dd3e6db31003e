// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "position/position_fix.h"
#include "uncertainty/estimate.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>

namespace rillmark {

/// How long successive errors of a receiver that stands still go together. Multipath and the atmosphere change over
/// minutes to tens of minutes; ten minutes is a cautious round figure (from memory, unconfirmed).
inline constexpr double kGnssCorrelationTime_s = 600.0;

/// A shorter stay is remarked upon (common practice, no source: ten minutes, or two visits hours apart).
inline constexpr double kAdvisedAveraging_s = 600.0;

struct AveragingOptions {
    double correlation_time_s = kGnssCorrelationTime_s; // > 0
};

/// The mean of the fixes taken at one station, with what was seen (scatter) and what the receiver claims kept apart.
struct AveragedPosition {
    double latitude_deg = 0.0;
    double longitude_deg = 0.0;
    std::optional<double> height_ellipsoid_m;
    std::optional<double> height_msl_m;
    std::optional<double> geoid_separation_m;
    // Standard uncertainty of the mean; u_up_m only where there is a height.
    double u_east_m = 0.0;
    double u_north_m = 0.0;
    std::optional<double> u_up_m;
    // Standard deviation of the single fixes about their mean (n - 1); 0 for one fix.
    double scatter_east_m = 0.0;
    double scatter_north_m = 0.0;
    std::optional<double> scatter_up_m;
    // Root mean square of what the receiver claimed for single fixes, or of the defaults where it claimed nothing.
    double claimed_east_m = 0.0;
    double claimed_north_m = 0.0;
    std::optional<double> claimed_up_m;
    std::size_t n = 0;        // fixes used
    std::size_t n_height = 0; // of these, with a height
    std::size_t left_out = 0; // fixes that are not plausible
    double effective_n = 1.0; // how many independent fixes they are worth
    double seconds = 0.0;     // time on the station, gaps longer than the correlation time not counted
    FixQuality best_quality = FixQuality::None;
    FixQuality worst_quality = FixQuality::None;
    std::string time_utc; // of the last fix used
    std::string source;   // of the last fix used
    Findings findings;

    /// Height above the ellipsoid with its uncertainty, for the height network; none for 2D fixes.
    [[nodiscard]] std::optional<Estimate> ellipsoid_height() const;
    /// Height above sea level by the receiver's geoid model. The error of that model is not in the uncertainty.
    [[nodiscard]] std::optional<Estimate> msl_height() const;
};

/// Averages the fixes of one station, each with equal weight, in local metres (so 180 E is no border).
///
/// Uncertainty. Successive fixes are not independent: the errors of the sky go together for minutes, so neither the
/// scatter nor the claim may be divided by sqrt(n). The fixes are sorted by time and cut into spells wherever the gap is
/// longer than the correlation time T; a spell of duration D counts as max(1, D / T) independent fixes, and
/// n_eff = min(n, sum over the spells). Two visits hours apart count two, ten minutes at 10 Hz count one. Then, for each
/// axis,
///     u = max(scatter, claimed) / sqrt(n_eff)
/// where `claimed` is the root mean square of the receiver's own standard uncertainties (GST or accuracy figure;
/// default_claim() where it gives none). Over one correlation time the result is therefore never better than the
/// receiver claims for a single fix, however many fixes were taken. What lasts longer than the spells (a wrong base
/// station, a bad geoid model, a wall that always mirrors) is not in it.
///
/// Fixes that plausible() refuses are left out and counted (`position.fixes_left_out`). Warnings: scatter of more than
/// three times the claim (`position.moved_while_averaging`), a claim too large for a station
/// (`position.receiver_unsure`), fixes of different quality (`position.mixed_quality`), no height
/// (`position.no_height`); note: a short stay (`position.short_average`).
/// Refuses: no usable fix (`position.nothing_to_average`), a correlation time that is not positive and finite
/// (`position.bad_correlation_time`), fixes further apart than kWidestSpread_m (`position.spread_too_wide`).
[[nodiscard]] Expected<AveragedPosition> average_position(std::span<const PositionFix> fixes,
                                                          const AveragingOptions& options = {});

/// Fixes of one station lie closer than this; more means that two places were mixed (own choice).
inline constexpr double kWidestSpread_m = 1000.0;

} // namespace rillmark
