// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/tilt.h"

#include "heights/serial_mean.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

namespace rillmark {

namespace {

double length_ms2(const TiltSample& sample) {
    return std::hypot(sample.x_ms2, sample.y_ms2, sample.z_ms2);
}

TiltSample mean_vector(std::span<const TiltSample> samples) {
    TiltSample sum;
    for (const TiltSample& sample : samples) {
        sum.x_ms2 += sample.x_ms2;
        sum.y_ms2 += sample.y_ms2;
        sum.z_ms2 += sample.z_ms2;
    }
    const double n = static_cast<double>(samples.size());
    return {sum.x_ms2 / n, sum.y_ms2 / n, sum.z_ms2 / n};
}

bool is_angle(const Estimate& angle_rad) {
    return std::isfinite(angle_rad.value) && std::abs(angle_rad.value) <= std::numbers::pi / 2.0 &&
           std::isfinite(angle_rad.standard_uncertainty) && angle_rad.standard_uncertainty >= 0.0;
}

} // namespace

Expected<double> elevation_rad(const TiltSample& sample, SightAxis axis) {
    const double length = length_ms2(sample);
    if (!std::isfinite(length) || length <= 0.0)
        return refusal("levels.tilt_bad_reading");
    return axis == SightAxis::TowardsTop ? std::atan2(sample.y_ms2, std::hypot(sample.x_ms2, sample.z_ms2))
                                         : std::atan2(sample.x_ms2, std::hypot(sample.y_ms2, sample.z_ms2));
}

Expected<AveragedTilt> average_tilt(std::span<const TiltSample> samples, SightAxis axis) {
    if (samples.size() < kMinimumTiltSamples)
        return refusal("levels.tilt_too_few", "",
                       {{"count", static_cast<std::int64_t>(samples.size())},
                        {"least", static_cast<std::int64_t>(kMinimumTiltSamples)}});
    std::vector<double> angles_rad;
    std::vector<double> lengths_ms2;
    for (const TiltSample& sample : samples) {
        const Expected<double> angle = elevation_rad(sample, axis);
        if (!angle)
            return angle.error();
        angles_rad.push_back(*angle);
        lengths_ms2.push_back(length_ms2(sample));
    }
    // First whether there was rest at all: the scatter of angles means nothing without it.
    const SerialMean felt = serial_mean(lengths_ms2);
    if (!(std::abs(felt.mean - kFeltGravity_ms2) <= kGravityLimit_ms2))
        return refusal("levels.tilt_not_gravity", "", {{"felt", felt.mean}, {"gravity", kFeltGravity_ms2}});
    if (!(felt.scatter <= kMotionLimit_ms2))
        return refusal("levels.tilt_moving", "", {{"motion", felt.scatter}, {"limit", kMotionLimit_ms2}});
    const SerialMean angles = serial_mean(angles_rad);
    if (!(angles.scatter <= kUnsteadyLimit_rad))
        return refusal("levels.tilt_unsteady", "",
                       {{"scatter", angles.scatter, Quantity::Angle}, {"limit", kUnsteadyLimit_rad, Quantity::Angle}});

    const Expected<double> elevation = elevation_rad(mean_vector(samples), axis);
    if (!elevation)
        return elevation.error();
    AveragedTilt result;
    result.elevation_rad = {*elevation, std::max(angles.standard_uncertainty, kTiltFloor_rad)};
    result.scatter_rad = angles.scatter;
    result.felt_ms2 = felt.mean;
    result.effective_n = angles.effective_n;
    result.n = angles.n;
    if (angles.effective_n < kEnoughIndependent)
        result.findings.push_back(warning("levels.tilt_short_hold"));
    return result;
}

Expected<TiltIndex> tilt_index(const Estimate& first_rad, const Estimate& turned_rad) {
    if (!is_angle(first_rad) || !is_angle(turned_rad))
        return refusal("levels.tilt_bad_angle");
    const double u_rad = std::hypot(first_rad.standard_uncertainty, turned_rad.standard_uncertainty) / 2.0;
    const TiltIndex result{{(first_rad.value + turned_rad.value) / 2.0, u_rad},
                           {(first_rad.value - turned_rad.value) / 2.0, u_rad}};
    if (std::abs(result.index_rad.value) > kIndexLimit_rad)
        return refusal(
            "levels.tilt_index_large", "",
            {{"index", result.index_rad.value, Quantity::Angle}, {"limit", kIndexLimit_rad, Quantity::Angle}});
    if (std::abs(result.surface_rad.value) > kSurfaceLimit_rad)
        return refusal(
            "levels.tilt_surface_steep", "",
            {{"slope", result.surface_rad.value, Quantity::Angle}, {"limit", kSurfaceLimit_rad, Quantity::Angle}});
    return result;
}

} // namespace rillmark
