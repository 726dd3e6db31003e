// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "heights/inclined_sight.h"
#include "uncertainty/estimate.h"

namespace rillmark {

/// How well a distance is measured: u^2 = (per_length x distance)^2 + laid x fixed^2.
struct DistancePrecision {
    double per_length = 0.0; // relative, the same for every length laid: 0 to 0.2
    double fixed_m = 0.0;    // of every length laid or shot, 0 to 10
};
// Common practice, no source: a tape pulled by hand over rough ground: sag, slack and alignment 1 in 1000, marking 1
// cm.
inline constexpr DistancePrecision kTapePrecision{0.001, 0.01};
// Common practice, no source: a hand-held laser meter to a target held by hand; the axis of neither is a point.
inline constexpr DistancePrecision kLaserPrecision{0.0, 0.01};

/// A distance between two points by tape or laser.
struct TapedDistance {
    double length_m = 0.0;                   // total, 0.1 to 20 000
    SightDistance is = SightDistance::Slope; // straight from point to point, or held level
    int laid = 1;                            // lengths of tape, or shots, that make it up: 1 to 10 000
    DistancePrecision precision = kTapePrecision;
};

struct ReducedDistance {
    Estimate level_m;
    Estimate slope_m; // straight from point to point
};

/// Level and slope distance from one of them and the rise between the points: slope^2 = level^2 + rise^2, first-order
/// uncertainty. A slope distance in several lengths must lie on one slope; where the slope breaks, reduce each by
/// itself. Refuses: inputs outside the ranges above or a rise beyond 10 km (`levels.input_out_of_range`), a rise that
/// is not less than the slope distance (`levels.rise_beyond_distance`).
[[nodiscard]] Expected<ReducedDistance> taped_distance(const TapedDistance& distance, const Estimate& rise_m);

/// What two measured distances and a rise, all above, say of each other, each allowed kOutlierLimit (sight_judgement.h)
/// standard uncertainties: `levels.level_beyond_slope`, `levels.rise_beyond_distance` (a warning here), and, where both
/// are possible, `levels.distances_against_rise` when level^2 + rise^2 is not slope^2. Numbers that are not finite
/// judge nothing.
[[nodiscard]] Findings judge_distances(const ReducedDistance& measured, const Estimate& rise_m);

} // namespace rillmark
