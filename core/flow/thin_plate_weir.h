// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/flow_result.h"
#include "flow/head_readings.h"
#include "flow/settings.h"
#include "units/constants.h"

#include <cstdint>
#include <numbers>
#include <optional>
#include <vector>

namespace rillmark {

enum class WeirShape : std::uint8_t { VNotch, Rectangular, Cipolletti };

/// A weir of thin plate, as measured.
struct ThinPlateWeir {
    WeirShape shape = WeirShape::VNotch;
    std::optional<double> notch_angle_rad;  // V-notch: whole angle, 20 to 100 degrees
    std::optional<double> crest_length_m;   // the others: 0.01 to 100; a Cipolletti's crest alone
    std::optional<double> crest_height_m;   // p, crest or foot of the notch over the bed of the approach: 0.01 to 100
    std::optional<double> approach_width_m; // B: up to 1000; equal to the crest length for a suppressed weir
    std::optional<double> gauge_distance_m; // of the head gauge, upstream of the plate: 0 to 100
};

struct WeirOptions {
    HeadGauge gauge;
    /// Tailwater over the crest or the foot of the notch, negative below: -100 to 100. Not given: free nappe assumed.
    std::optional<double> tailwater_m;
    // Standard uncertainties of what was measured on the weir. Defaults: our own choice.
    double tailwater_u_m = 0.005;                        // 0 to 0.1
    double angle_u_rad = 0.5 * std::numbers::pi / 180.0; // 0 to 5 degrees
    double length_u_m = 0.001;                           // of the crest, 0 to 0.1
    double approach_u_m = 0.01;                          // of p and of B, 0 to 1
    double gravity_ms2 = kStandardGravity_ms2;           // 9.7 to 9.9
};

struct WeirResult {
    FlowResult flow;
    double head_m = 0.0;
    double free_m3s = 0.0;           // before submergence
    double submergence_factor = 1.0; // flow over free flow
};

// Relative standard uncertainty of the coefficients. V-notch: +/-1 % (Herschy 2009 in G. Morgenschweis, Hydrometrie),
// taken as one standard uncertainty to be careful.
inline constexpr double kVNotchCoefficient_u_rel = 0.01;
// 1 to 3 %, from memory, unconfirmed.
inline constexpr double kRectangularCoefficient_u_rel = 0.02;
// USBR Water Measurement Manual, 3rd ed., ch. 7 sec. 12: +/-5 %, taken as k = 2.
inline constexpr double kCipollettiCoefficient_u_rel = 0.025;
// Our own choice: standard uncertainty of Villemonte's factor, as a part of what it takes off.
inline constexpr double kSubmergence_u_part = 0.25;
// Our own choice: above this ratio of the heads a small error in either is all of the result.
inline constexpr double kLargestSubmergence = 0.95;

// USBR Water Measurement Manual, 3rd ed., ch. 7 sec. 7.
inline constexpr double kVNotchLeastAngle_deg = 25.0;
inline constexpr double kVNotchLeastHead_m = 0.06;
// From memory, unconfirmed (1.25 ft).
inline constexpr double kVNotchGreatestHead_m = 0.381;
// Full contraction of a V-notch: h/p, h/B, p and B. Shen 1981 after Blevins 1984; h/B from memory, unconfirmed.
inline constexpr double kVNotchGreatestHeadOverHeight = 0.4;
inline constexpr double kVNotchGreatestHeadOverWidth = 0.2;
inline constexpr double kVNotchLeastHeight_m = 0.45;
inline constexpr double kVNotchLeastWidth_m = 0.9;
// Kindsvater-Carter after Blevins 1984.
inline constexpr double kRectangularLeastHead_m = 0.03;
inline constexpr double kRectangularLeastLength_m = 0.15;
inline constexpr double kRectangularLeastHeight_m = 0.1;
inline constexpr double kRectangularGreatestHeadOverHeight = 2.0;
// Cipolletti: head from 0.06 m to a third of the crest. From memory, unconfirmed.
inline constexpr double kCipollettiLeastHead_m = 0.06;
inline constexpr double kCipollettiGreatestHeadOverLength = 1.0 / 3.0;
// USBR Water Measurement Manual, 3rd ed., ch. 7 sec. 7: tailwater at least that far below the notch (0.2 ft).
inline constexpr double kFreeNappeDrop_m = 0.06;
// Common practice, 3 to 4 heads; the larger is taken (laboratory texts).
inline constexpr double kGaugeDistanceInHeads = 4.0;

/// Discharge over a thin-plate weir from the head above its crest.
///
/// V-notch: Kindsvater-Shen; rectangular: Kindsvater-Carter, suppressed where B equals b (within 1 mm) and else
/// contracted; trapezoidal with sides 1 to 4: Cipolletti. Tailwater above the crest: Villemonte. See weir_formulas.h.
/// Practice differs for rectangular weirs (Francis, Rehbock: within 2 %); Kindsvater-Carter is taken because it allows
/// for the approach and for partial contraction.
///
/// Uncertainty (ISO 1438, its form from memory): propagated to first order from the head reading, the zero, the
/// coefficient, the angle or crest length, the approach (p and B where the formula has them), and tailwater and
/// Villemonte's factor where the weir is submerged. Head counts 1.5 or 2.5 times.
/// Accuracy: 2 to 5 % (k = 2) for a good plate within the limits; leaks and a clinging nappe are for the person to see.
///
/// Warns, with the limits above, of a head too low or too high (`flow.weir_head_low`, `flow.weir_head_high`), an angle
/// below the rated (`flow.weir_angle_low`), a crest or plate too small (`flow.weir_crest_short`,
/// `flow.weir_crest_low`), head against crest height, approach width or crest length (`flow.weir_head_over_height`,
/// `flow.weir_head_over_width`, `flow.weir_head_over_length`), a narrow approach (`flow.weir_approach_narrow`), a gauge
/// within the drawdown (`flow.weir_gauge_near`), a nappe without air (`flow.weir_tailwater_near`) and submergence
/// (`flow.weir_submerged`). Notes what is not known (`flow.weir_approach_unknown`, `flow.weir_tailwater_unknown`), and
/// what mean_head says.
/// Refuses: a dimension that the shape needs and has not (`flow.weir_incomplete`), numbers out of their range
/// (`flow.bad_option`), an approach narrower than the crest (`flow.weir_approach_too_narrow`), tailwater of more than
/// kLargestSubmergence of the head (`flow.weir_drowned`), and what mean_head and propagate refuse.
[[nodiscard]] Expected<WeirResult> thin_plate_weir(const ThinPlateWeir& weir, const std::vector<HeadReading>& readings,
                                                   const WeirOptions& options = {});

} // namespace rillmark
