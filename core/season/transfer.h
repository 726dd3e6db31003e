// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "finding.h"
#include "uncertainty/estimate.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace rillmark {

/// A flow carried from a gauge to a site without one.
struct TransferredFlow {
    Budgeted discharge;          // m3/s
    std::optional<double> ratio; // of the site's flow to the gauge's, where there is a gauge
    Findings findings;
};

struct AreaTransfer {
    Estimate gauge_flow_m3s; // any statistic of the gauge's record, 0 to 1e5
    Estimate gauge_area_m2;  // of the catchments, 1 to 1e13
    Estimate site_area_m2;
    /// Power of the ratio of areas, 0.3 to 1.5. Practice differs: 1 (USGS SIR 2008-5126) is taken; 0.70 to 0.94 in
    /// Texas (USGS SIR 2006-5286). Its uncertainty: our own choice.
    Estimate power{1.0, 0.15};
};

// USGS SIR 2008-5126, section on ungaged sites: usual range of the ratio of areas on one stream.
inline constexpr double kLeastAreaRatio = 0.5;
inline constexpr double kGreatestAreaRatio = 1.5;
// Our own choice: relative standard uncertainty of the method, inside that range and outside it.
inline constexpr double kAreaTransfer_u_rel = 0.25;
inline constexpr double kFarAreaTransfer_u_rel = 0.5;
// Our own choice: of a specific yield taken from other basins.
inline constexpr double kSpecificYield_u_rel = 0.4;
// A factor of two either way, as k = 2 of ln Q (ln 2 / 2): common practice, no source.
inline constexpr double kOneSpotDoubt_ln = 0.34657359027997264;
// Common practice, no source: spot gaugings, in different states of flow, that a ratio should rest on.
inline constexpr std::size_t kGoodSpots = 5;

/// Q_site = Q_gauge (A_site / A_gauge)^power. Source: USGS SIR 2008-5126, equation 2. Uncertainty to first order from
/// the flow, the areas, the power and the method. Warns of a ratio outside the usual range (`flow.area_ratio_far`).
/// Refuses numbers out of their range (`flow.bad_option`) and what propagate refuses.
[[nodiscard]] Expected<TransferredFlow> transfer_by_area(const AreaTransfer& transfer);

/// A flow measured at the site, and the gauge's flow on that day.
struct SpotRatio {
    Estimate site_m3s;  // above zero
    Estimate gauge_m3s; // above zero
};

/// Q_site = r Q_gauge, r the geometric mean of the same-day ratios: scales a neighbour's statistic, or its whole curve.
///
/// Doubt of ln r: the larger of kOneSpotDoubt_ln and of the ratios' scatter (times student_factor), over sqrt(n), and
/// the measurements' own. Practice differs (regression of logs); the mean ratio is taken because few spots are the
/// rule. Warns of fewer than kGoodSpots spots (`flow.few_spots`). Refuses: no spot (`flow.no_spots`), a flow that is
/// not above zero, above 1e5 m3/s, or whose uncertainty is above half of it
/// (`flow.bad_spot`), numbers out of their range (`flow.bad_option`).
[[nodiscard]] Expected<TransferredFlow> transfer_by_spots(const std::vector<SpotRatio>& spots,
                                                          const Estimate& gauge_flow_m3s);

/// Q_site = yield x area, the yield [m3/s per m2] from a map or neighbours. Uncertainty as transfer_by_area, with
/// kSpecificYield_u_rel for the method. Refuses numbers out of their range (`flow.bad_option`): yield 0 to 1e-5
/// (10 m3/s per km2), area 1 to 1e13 m2.
[[nodiscard]] Expected<TransferredFlow> flow_from_yield(const Estimate& yield_ms, const Estimate& area_m2);

} // namespace rillmark
