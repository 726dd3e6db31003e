// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/flow_result.h"

#include <cstdint>
#include <vector>

namespace rillmark {

/// One timed filling of a container.
struct ContainerFill {
    std::int64_t id = 0;
    double volume_m3 = 0.0; // 0.000001 (1 mL) to 100
    double time_s = 0.0;    // 0.05 to 86400
    bool struck = false;    // struck out: stays legible, is not used
};

// Our own choice for a creek whose temperature was not read: from 0 to 25 deg C the density changes by 0.3 %.
inline constexpr double kAssumedWater_C = 10.0;

/// Volume of the water in a container by weighing it full and empty.
///
/// V = (full - empty) / density of water at temperature_C (see water/water.h). The buoyancy of air makes it 0.1 % too
/// small; it is left out, as is common practice (no source). Refuses (`flow.bad_weight`): weights that are not finite,
/// negative or above 100 000 kg, or not more full than empty; and what water_density_kgm3 refuses.
[[nodiscard]] Expected<double> weighed_volume_m3(double full_kg, double empty_kg,
                                                 double temperature_C = kAssumedWater_C);

struct ContainerOptions {
    /// Relative standard uncertainty of the container's volume, shared by all fills. 0 to 0.5.
    /// Default: common practice, no source, for a volume found by weighing or with a measuring jug; a volume taken
    /// from the label of a bucket deserves several per cent.
    double volume_u_rel = 0.01;
    /// Half-width of the error of starting and stopping the watch, taken as rectangular and shared by all fills [s].
    /// 0 to 10. Default: common practice, no source.
    double reaction_half_width_s = 0.2;
};

// Source of both: Connected Water (Australian Government), page on volumetric measurement of stream flow.
inline constexpr double kShortestFill_s = 3.0;
inline constexpr int kMinimumFills = 3; // also Colorado DRMS, file 717889 p. 37
// From memory, unconfirmed.
inline constexpr double kGoodFill_s = 10.0;
// Common practice, no source: scatter of one fill, relative to the mean, at which the flow or the catching was
// unsteady.
inline constexpr double kLargeFillScatter_rel = 0.05;
// Common practice, no source: scatter of one fill where there are too few to tell.
inline constexpr double kAssumedFillScatter_rel = 0.05;

/// Discharge by timing how long a container takes to fill.
///
/// Q = sum of V / sum of t: every litre caught over every second of catching. With one volume this is V / mean(t).
/// The other choice, the mean of V/t, is not taken: it is biased high by the scatter of the times.
///
/// Uncertainty (GUM, JCGM 100:2008, 4.2 and 4.3), relative, combined in quadrature:
/// the volume; the scatter of the fills, s/sqrt(n), with s taken from the differences t - V/Q (for one volume these are
/// t - mean(t)) and enlarged by Student's factor for so few (student_factor_of_part); the watch, half-width/sqrt(3),
/// which repeating does not lessen. With fewer than three fills the scatter is not known and kAssumedFillScatter_rel is
/// used where it is the larger. Accuracy: exact to rounding. Says nothing of water that missed the container: that is
/// for the person to see.
///
/// Warns of fill times below kShortestFill_s, fewer than kMinimumFills fills, a scatter above kLargeFillScatter_rel;
/// notes fill times below kGoodFill_s.
/// Refuses: no fill (`flow.no_fills`), a volume or time that is not finite or out of its range
/// (`flow.bad_volume`, `flow.bad_time`), bad options (`flow.bad_option`). Struck fills are not looked at.
[[nodiscard]] Expected<FlowResult> container(const std::vector<ContainerFill>& fills,
                                             const ContainerOptions& options = {});

} // namespace rillmark
