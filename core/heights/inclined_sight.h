// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "heights/measured_rise.h"
#include "uncertainty/estimate.h"

namespace rillmark {

enum class SightDistance {
    Slope, // along the line of sight, from instrument to target
    Level,
};

/// A sight at an angle: what the clinometer and the zenith angle have in common.
struct InclinedSight {
    double elevation_rad = 0.0; // above the horizontal, index correction included
    double distance_m = 0.0;
    SightDistance distance_is = SightDistance::Slope;
};

/// The line of sight and how it changes with angle and distance. Heights of instrument and target are not in it.
///
/// Slope distance S: rise S sin a, level distance S cos a. Level distance D: rise D tan a.
/// Source: C. D. Ghilani and P. R. Wolf, Elementary Surveying, trigonometric levelling (title from memory); the rule is
/// plane trigonometry. First derivatives only: the second order of an angle error of 1 degree is 0.015 % of the
/// distance.
struct SightGeometry {
    double rise_m = 0.0;
    double level_m = 0.0;
    double rise_per_rad = 0.0;
    double rise_per_metre = 0.0;
    double level_per_rad = 0.0;
    double level_per_metre = 0.0;
};
[[nodiscard]] SightGeometry geometry_of(const InclinedSight& sight);

/// A rise by an inclined sight, with the distances between the two points on the ground.
struct SightedRise {
    MeasuredRise rise;
    Estimate level_distance_m;
    Estimate
        slope_distance_m; // straight from point to point: the line of sight only if it starts and ends equally high
};

/// The straight distance from point to point; the errors of level distance and rise count as independent, which for a
/// sight is on the safe side or close to it.
[[nodiscard]] Estimate point_to_point(const Estimate& level_m, const Estimate& rise_m);

} // namespace rillmark
