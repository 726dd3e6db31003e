// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/chainage.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace rillmark {

namespace {

Expected<void> check_route(std::span<const RoutePoint> route) {
    for (std::size_t i = 0; i < route.size(); ++i) {
        const std::string where = std::to_string(i + 1);
        if (const Expected<void> checked = check_point(route[i].point); !checked) {
            Finding finding = checked.error();
            finding.where = where;
            return finding;
        }
        if (route[i].height_m && !std::isfinite(*route[i].height_m))
            return refusal("position.not_finite", where);
    }
    return {};
}

struct Foot {
    std::size_t leg = 0;
    double fraction = 0.0;
    double distance_m = 0.0;
    double side = 0.0; // > 0: the point is to the right of the leg
    LocalPoint at;
};

// The foot on one leg of the point that is the origin of the plane.
Foot foot_on_leg(const LocalPoint& a, const LocalPoint& b) {
    const double de = b.east_m - a.east_m;
    const double dn = b.north_m - a.north_m;
    const double squared = de * de + dn * dn;
    Foot foot;
    if (squared > 0.0)
        foot.fraction = std::clamp(-(a.east_m * de + a.north_m * dn) / squared, 0.0, 1.0);
    foot.at = {a.east_m + foot.fraction * de, a.north_m + foot.fraction * dn};
    foot.distance_m = std::hypot(foot.at.east_m, foot.at.north_m);
    foot.side = a.north_m * de - a.east_m * dn; // cross product of the leg and the way from its start to the origin
    return foot;
}

} // namespace

Expected<Chainage> chainage_along(std::span<const RoutePoint> route) {
    if (route.empty())
        return refusal("position.route_empty");
    if (const Expected<void> checked = check_route(route); !checked)
        return checked.error();
    Chainage chainage{{0.0}, {0.0}, 0};
    for (std::size_t i = 1; i < route.size(); ++i) {
        const double horizontal_m = geodesic(route[i - 1].point, route[i].point).value().distance_m;
        double slope_m = horizontal_m;
        if (route[i - 1].height_m && route[i].height_m)
            slope_m = std::hypot(horizontal_m, *route[i].height_m - *route[i - 1].height_m);
        else
            ++chainage.legs_without_height;
        chainage.horizontal_m.push_back(chainage.horizontal_m.back() + horizontal_m);
        chainage.slope_m.push_back(chainage.slope_m.back() + slope_m);
    }
    return chainage;
}

Expected<RouteProjection> project_on_route(std::span<const RoutePoint> route, const GeoPoint& point) {
    if (route.size() < 2)
        return refusal("position.route_too_short");
    const Expected<Chainage> chainage = chainage_along(route);
    if (!chainage)
        return chainage.error();
    const Expected<LocalFrame> frame = LocalFrame::make(point);
    if (!frame)
        return frame.error();

    std::optional<Foot> nearest;
    LocalPoint from = frame->to_local(route[0].point);
    for (std::size_t leg = 0; leg + 1 < route.size(); ++leg) {
        const LocalPoint to = frame->to_local(route[leg + 1].point);
        Foot foot = foot_on_leg(from, to);
        foot.leg = leg;
        if (!nearest || foot.distance_m < nearest->distance_m)
            nearest = foot;
        from = to;
    }
    const double start_m = chainage->horizontal_m[nearest->leg];
    const double leg_m = chainage->horizontal_m[nearest->leg + 1] - start_m;
    return RouteProjection{start_m + nearest->fraction * leg_m,
                           nearest->side < 0.0 ? -nearest->distance_m : nearest->distance_m, nearest->leg,
                           nearest->fraction, frame->to_geo(nearest->at)};
}

} // namespace rillmark
