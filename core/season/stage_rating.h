// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "finding.h"
#include "uncertainty/estimate.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace rillmark {

/// One visit to a gauge: its reading and the discharge measured at that time.
struct StageVisit {
    std::int64_t id = 0;
    double stage_m = 0.0;                  // -100 to 100
    double discharge_m3s = 0.0;            // 1e-6 to 1e5
    std::optional<double> discharge_u_m3s; // standard uncertainty; not given: default_u_rel
    bool struck = false;
};

struct StageRatingOptions {
    std::optional<double> zero_flow_stage_m; // stage at which the flow ceases, as levelled; not given: searched for
    double default_u_rel = 0.07;             // 0.001 to 1; default: common practice, no source, a fair gauging
};

/// Where a stage stands against those that were gauged.
enum class RatedRange : std::uint8_t { Below, Within, Above, NoFlow };

struct RatedFlow {
    RatedRange range = RatedRange::Within;
    Estimate discharge;  // m3/s
    double lowest = 0.0; // of the prediction interval, about 95 %
    double highest = 0.0;
};

/// A stage-discharge relation Q = a (h - h0)^b.
struct StageRating {
    double a = 0.0; // m3/s at h - h0 = 1 m
    double b = 0.0;
    double h0_m = 0.0;
    double lowest_stage_m = 0.0; // gauged
    double highest_stage_m = 0.0;
    std::size_t visits = 0;
    double scatter_rel = 0.0; // standard deviation of one visit of middling quality about the curve
    std::array<double, 9> covariance{}; // of ln a, b, h0, row by row
    Findings findings;

    /// Where a stage stands; at or below h0 it is NoFlow.
    [[nodiscard]] RatedRange range_of(double stage_m) const;
    /// The flow at a stage above h0, without its doubt.
    [[nodiscard]] double discharge_m3s(double stage_m) const;
    /// The flow at a stage with its prediction interval. At or below h0 the range is NoFlow and there is no figure: h0
    /// is a number of the fit, and a dry creek is for the eye to see.
    [[nodiscard]] RatedFlow at(double stage_m) const;
};

// Common practice, no source.
inline constexpr std::size_t kGoodVisits = 10;
// Common practice, no source: powers of natural controls.
inline constexpr double kLeastRatingPower = 1.0;
inline constexpr double kGreatestRatingPower = 3.5;

/// Fits a stage-discharge relation to visits.
///
/// ln Q on ln(h - h0) by least squares, each visit weighted by 1/u^2 of its relative uncertainty; h0 as given, or where
/// the sum of squares is least: on a grid of distances below the lowest stage, a thousandth to ten times the range of
/// the stages, then by golden section. Practice differs (by eye on log paper, or three points; ISO 1100-2): the fit is
/// taken because it has an uncertainty. Prediction interval: linearised in ln a, b and h0, with the scatter of one
/// visit of middling quality; a scatter that the visits' uncertainties do not explain (chi-square beyond its 95 %
/// point) enlarges it to what is seen, times student_factor. Accuracy: that of the visits, within the gauged range
/// only.
///
/// Warns of fewer than kGoodVisits visits (`flow.rating_few_visits`), a scatter beyond the visits' own
/// (`flow.rating_scatter`), a power outside the limits above (`flow.rating_power_odd`).
/// Refuses: numbers out of range (`flow.bad_stage`, `flow.bad_discharge_at_visit`, `flow.bad_option`), fewer than four
/// visits, or three with h0 given, at different stages (`flow.rating_too_few`), an h0 at or above a gauged stage
/// (`flow.rating_zero_above`), no least square within the search (`flow.rating_zero_unclear`), a flow that does not
/// rise with the stage (`flow.rating_does_not_rise`).
[[nodiscard]] Expected<StageRating> fit_stage_rating(const std::vector<StageVisit>& visits,
                                                     const StageRatingOptions& options = {});

} // namespace rillmark
