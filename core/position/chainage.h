// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "position/local_frame.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace rillmark {

/// A vertex of a pipe, cable or boundary line. Heights of one line share one datum, whichever it is.
struct RoutePoint {
    GeoPoint point;
    std::optional<double> height_m;
};

/// Cumulative lengths from the first vertex, one entry a vertex.
struct Chainage {
    std::vector<double> horizontal_m; // geodesic length on the ellipsoid
    std::vector<double> slope_m;      // along the ground; a leg without both heights counts with its horizontal length
    std::size_t legs_without_height = 0;
};

/// Chainage of every vertex of a line: horizontal by geodesics, slope by sqrt(horizontal^2 + height difference^2) leg by
/// leg. Straight legs are assumed: walk a vertex at each bend and break of slope. Lengths are on the ellipsoid; the
/// ground at 1000 m height is 0.016 % longer, which is not corrected because heights may be on a datum of the site.
/// Refuses an empty line (`position.route_empty`) and vertices as check_point() and heights that are not finite
/// (`position.not_finite`), with the number of the vertex (from 1) as `where`.
[[nodiscard]] Expected<Chainage> chainage_along(std::span<const RoutePoint> route);

/// Where a point lies beside a line.
struct RouteProjection {
    double chainage_m = 0.0; // horizontal chainage of the foot
    double offset_m = 0.0;   // distance from the line, to the right of the direction of travel positive
    std::size_t leg = 0;     // 0 = from the first to the second vertex
    double fraction = 0.0;   // 0..1 of that leg
    GeoPoint foot;
};

/// The nearest point of a line, in the plane tangent at the point asked for: good to 1 cm for feet within 10 km. Beyond
/// the ends the foot is the end vertex, and the offset is the distance to it. Of equal distances the first leg is taken.
/// Refuses a line of fewer than two vertices (`position.route_too_short`), and points as chainage_along().
[[nodiscard]] Expected<RouteProjection> project_on_route(std::span<const RoutePoint> route, const GeoPoint& point);

} // namespace rillmark
