// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "uncertainty/estimate.h"

#include <cstddef>
#include <span>

namespace rillmark {

/// One reading of a three-axis accelerometer at rest: the push of what holds it up, so +9.81 on an axis that points up.
/// x to the right of the screen, y to its top, z out of it, in the device's natural orientation (from memory of the
/// documentation of phones, unconfirmed: try it with the phone in hand).
struct TiltSample {
    double x_ms2 = 0.0;
    double y_ms2 = 0.0;
    double z_ms2 = 0.0;
};

/// The axis one sights along; its elevation is positive when the named edge is the higher one.
enum class SightAxis {
    TowardsTop,   // y: the long edge of a phone
    TowardsRight, // x: the long edge of a tablet whose natural orientation is landscape
};

/// Fewer readings tell nothing of the scatter (common practice, no source).
inline constexpr std::size_t kMinimumTiltSamples = 10;
/// What a device at rest feels, m/s2. Gravity on the ground lies between 9.76 and 9.84, far inside the limit below.
inline constexpr double kFeltGravity_ms2 = 9.81;
/// A mean further from it is an accelerating hand or a sensor that is badly off (common practice, no source).
inline constexpr double kGravityLimit_ms2 = 0.5;
/// Standard deviation of the felt acceleration above which the device was moving (common practice, no source).
inline constexpr double kMotionLimit_ms2 = 0.3;
/// Standard deviation of the single angles above which the hand was not still: 2 degrees, most of it the tremor's
/// acceleration and not its angle (common practice, no source).
inline constexpr double kUnsteadyLimit_rad = 0.0349066;
/// A mean of angles is never claimed better than this, 0.05 degree: the zero of a phone's accelerometer wanders by
/// about 0.01 m/s2 within minutes and with its warmth (from memory, unconfirmed).
inline constexpr double kTiltFloor_rad = 0.00087;
/// Standard uncertainty of the index of a device that was not checked on a level surface: 1 degree (from memory,
/// unconfirmed: the zero of a phone's accelerometer is off by up to 0.3 m/s2 from the works).
inline constexpr double kUncheckedIndex_u_rad = 0.0174533;

/// Elevation of the sight axis above the horizontal [rad], -pi/2..pi/2: atan2 of the component along the axis and the
/// length of the other two, which stays exact near the vertical where an arcsine does not.
/// Accuracy: exact to rounding for a device at rest. Needs no calibrated length of the vector, only its direction.
/// Refuses readings that are not finite or all zero (`levels.tilt_bad_reading`).
[[nodiscard]] Expected<double> elevation_rad(const TiltSample& sample, SightAxis axis);

/// One held sight.
struct AveragedTilt {
    Estimate elevation_rad;   // as felt: the index is not taken off and its uncertainty is not in it
    double scatter_rad = 0.0; // standard deviation of the single angles
    double felt_ms2 = 0.0;    // mean length of the vector
    double effective_n = 1.0; // independent readings (serial_mean.h)
    std::size_t n = 0;
    Findings findings;
};

/// Averages the readings of one held sight, in the order taken at an even rate.
///
/// The angle is that of the mean vector: what the hand adds averages out in the acceleration, while the mean of the
/// angles would be bent by it. Uncertainty: scatter of the single angles about their mean, the neighbours taken as
/// alike (serial_mean.h), and never below kTiltFloor_rad. Not in it: the index (tilt_index) and the sighting itself.
///
/// Warns of fewer than kEnoughIndependent independent readings (`levels.tilt_short_hold`).
/// Refuses: fewer than kMinimumTiltSamples (`levels.tilt_too_few`), a reading that elevation_rad refuses, a mean length
/// further than kGravityLimit_ms2 from gravity (`levels.tilt_not_gravity`), motion above kMotionLimit_ms2
/// (`levels.tilt_moving`), scatter above kUnsteadyLimit_rad (`levels.tilt_unsteady`).
[[nodiscard]] Expected<AveragedTilt> average_tilt(std::span<const TiltSample> samples, SightAxis axis);

/// Larger is no index but a device that does not lie flat, or was not turned: 5 degrees (common practice, no source).
inline constexpr double kIndexLimit_rad = 0.0872665;
/// On a steeper surface a turn that is not quite a half turn shows in the index: 5 degrees (common practice, no source;
/// 10 degrees short of the half turn then cost 0.04 degree).
inline constexpr double kSurfaceLimit_rad = 0.0872665;

/// What lies between the sight axis and the angle shown.
struct TiltIndex {
    Estimate index_rad;   // take it off every elevation: true = felt - index
    Estimate surface_rad; // elevation of the surface in the first direction
};

/// The index from two elevations on one firm surface, the second with the device turned end for end on the same spot:
/// index = (first + turned) / 2, surface = (first - turned) / 2, each with u = sqrt(u1^2 + u2^2) / 2 (the rule of the
/// spirit level and of two-face readings, textbook knowledge). The surface need not be level, only unmoved.
///
/// It holds for what lay on the surface: lay the edge down that is sighted along, for a back with a bulging camera is
/// not parallel to it. It is found near the horizontal; from the offsets of an accelerometer a steep sight gets another
/// index (at 30 degrees up to half of an offset across the axis adds itself), so check steep sights both ways.
/// All sights with the device share it: give its uncertainty as one SharedEffect.
///
/// Refuses: elevations that are not finite or beyond +/- pi/2, uncertainties that are negative or not finite
/// (`levels.tilt_bad_angle`), an index above kIndexLimit_rad (`levels.tilt_index_large`), a surface above
/// kSurfaceLimit_rad (`levels.tilt_surface_steep`).
[[nodiscard]] Expected<TiltIndex> tilt_index(const Estimate& first_rad, const Estimate& turned_rad);

} // namespace rillmark
