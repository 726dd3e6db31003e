// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/gauged_section.h"
#include "flow/velocity_area_uncertainty.h"

#include <optional>
#include <span>
#include <vector>

namespace rillmark {

/// One of a row of values along a line: a depth or a velocity at its distance.
struct PlacedValue {
    double distance_m = 0.0;
    double value = 0.0;
};

/// How far single values scatter about the straight line between their neighbours.
struct NeighbourScatter {
    double sum_of_squares = 0.0; // of D / sqrt(1 + w^2 + (1-w)^2), in the unit of the values, squared
    int count = 0;               // of values that have a neighbour on both sides
};

/// D = y[i] - (w y[i-1] + (1-w) y[i+1]) with w = (x[i+1] - x[i]) / (x[i+1] - x[i-1]), divided so that each square is an
/// estimate of the variance of one value. 0 for values on a straight line, whatever their spacing.
/// @param values by strictly rising distance
[[nodiscard]] NeighbourScatter neighbour_scatter(std::span<const PlacedValue> values);

// Fewer values than this with two neighbours tell no scatter (our own choice).
inline constexpr int kLeastWithNeighbours = 5;

/// The doubt of a gauging by the interpolated variance estimator, beside the budget of ISO 748: what the neighbours of
/// a vertical fail to foretell of its depth and velocity is taken for the error of both, whatever it comes from (the
/// meter, pulsation, stones, an uneven section).
///
/// u^2 = (u_s Q)^2 + s_d^2 sum (b v)^2 + s_v^2 sum (b d)^2 + the velocity taken at walls, with s_d and s_v from
/// neighbour_scatter over the verticals that are measured and have measured neighbours, enlarged by Student's factor
/// for the effective degrees of freedom (JCGM 100:2008, G.4). The residuals overlap: n of them count as n / 1.94
/// (computed for even spacing). Source: T. A. Cohn, J. E. Kiang and R. R. Mason, Estimating discharge measurement
/// uncertainty using the interpolated variance estimator, J. Hydraul. Eng. 139 (2013) 502, abstract seen; its formula
/// from memory, unconfirmed. u_s as in ISO 748. What all readings share (a wrong rating, the rule for the points) is
/// not seen by it beyond u_s. Budget lines: `flow.systematic`, `flow.depth_scatter`, `flow.velocity_scatter`,
/// `flow.wall_velocity`. Nothing where fewer than kLeastWithNeighbours verticals have neighbours.
[[nodiscard]] std::optional<Budgeted> interpolated_variance(const std::vector<GaugedVertical>& section,
                                                            const std::vector<PanelFacts>& facts, double discharge_m3s);

} // namespace rillmark
