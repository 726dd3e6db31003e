// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/local_frame.h"

#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/LocalCartesian.hpp>
#include <GeographicLib/UTMUPS.hpp>

#include <cmath>
#include <cstdint>

namespace rillmark {

namespace {

// The limits of UTM; towards the poles the polar grid takes over (GeographicLib UTMUPS; DMA TM 8358.2, 1989).
constexpr double kUtmSouth_deg = -80.0;
constexpr double kUtmNorth_deg = 84.0;

// Further from the meridian of the zone asked for, grid lengths are off by more than a tenth (own choice).
constexpr double kFurthest_deg = 30.0;

bool far_from(int zone, double longitude_deg) {
    const double central_deg = 6.0 * zone - 183.0;
    return std::abs(std::remainder(longitude_deg - central_deg, 360.0)) > kFurthest_deg;
}

Finding outside_utm(const GeoPoint& point, int zone) {
    return refusal("position.outside_utm", {},
                   {{"latitude", point.latitude_deg, Quantity::Coordinate},
                    {"longitude", point.longitude_deg, Quantity::Coordinate},
                    {"zone", std::int64_t{zone}}});
}

} // namespace

Expected<void> check_point(const GeoPoint& point) {
    if (!std::isfinite(point.latitude_deg) || !std::isfinite(point.longitude_deg))
        return refusal("position.not_finite");
    if (std::abs(point.latitude_deg) > 90.0 || std::abs(point.longitude_deg) > 180.0)
        return refusal("position.out_of_range", {},
                       {{"latitude", point.latitude_deg, Quantity::Coordinate},
                        {"longitude", point.longitude_deg, Quantity::Coordinate}});
    return {};
}

LocalFrame::LocalFrame(const GeoPoint& origin, double height_m)
    : m_origin(origin), m_height_m(height_m),
      m_cartesian(std::make_shared<const GeographicLib::LocalCartesian>(origin.latitude_deg, origin.longitude_deg,
                                                                        height_m)) {}

Expected<LocalFrame> LocalFrame::make(const GeoPoint& origin, double height_m) {
    if (const Expected<void> checked = check_point(origin); !checked)
        return checked.error();
    if (!std::isfinite(height_m))
        return refusal("position.not_finite");
    return LocalFrame(origin, height_m);
}

LocalPoint LocalFrame::to_local(const GeoPoint& point) const {
    const EnuPoint enu = to_enu(point, m_height_m);
    return {enu.east_m, enu.north_m};
}

GeoPoint LocalFrame::to_geo(const LocalPoint& local) const {
    // The plan point lies in the tangent plane; put it where the ellipsoid of the origin's height is below it, or the
    // way back would miss by a part of the Earth's curve. Three rounds settle it to nanometres within 100 km.
    GeoPoint geo;
    double up_m = 0.0;
    for (int round = 0; round < 3; ++round) {
        double height_m = 0.0;
        m_cartesian->Reverse(local.east_m, local.north_m, up_m, geo.latitude_deg, geo.longitude_deg, height_m);
        up_m -= height_m - m_height_m;
    }
    return geo;
}

EnuPoint LocalFrame::to_enu(const GeoPoint& point, double height_ellipsoid_m) const {
    EnuPoint enu;
    m_cartesian->Forward(point.latitude_deg, point.longitude_deg, height_ellipsoid_m, enu.east_m, enu.north_m,
                         enu.up_m);
    return enu;
}

Expected<GeodesicLine> geodesic(const GeoPoint& from, const GeoPoint& to) {
    for (const GeoPoint& point : {from, to})
        if (const Expected<void> checked = check_point(point); !checked)
            return checked.error();
    GeodesicLine line;
    GeographicLib::Geodesic::WGS84().Inverse(from.latitude_deg, from.longitude_deg, to.latitude_deg, to.longitude_deg,
                                             line.distance_m, line.azimuth_start_deg, line.azimuth_end_deg);
    return line;
}

Expected<GeoPoint> travel(const GeoPoint& from, double azimuth_deg, double distance_m) {
    if (const Expected<void> checked = check_point(from); !checked)
        return checked.error();
    if (!std::isfinite(azimuth_deg) || !std::isfinite(distance_m))
        return refusal("position.not_finite");
    GeoPoint to;
    GeographicLib::Geodesic::WGS84().Direct(from.latitude_deg, from.longitude_deg, azimuth_deg, distance_m,
                                            to.latitude_deg, to.longitude_deg);
    return to;
}

Expected<UtmPosition> utm(const GeoPoint& point, std::optional<int> zone) {
    if (const Expected<void> checked = check_point(point); !checked)
        return checked.error();
    if (point.latitude_deg < kUtmSouth_deg || point.latitude_deg >= kUtmNorth_deg ||
        (zone && (*zone < GeographicLib::UTMUPS::MINUTMZONE || *zone > GeographicLib::UTMUPS::MAXUTMZONE ||
                  far_from(*zone, point.longitude_deg))))
        return outside_utm(point, zone.value_or(0));
    UtmPosition grid;
    try {
        GeographicLib::UTMUPS::Forward(point.latitude_deg, point.longitude_deg, grid.zone, grid.north, grid.easting_m,
                                       grid.northing_m, grid.convergence_deg, grid.scale,
                                       zone.value_or(GeographicLib::UTMUPS::STANDARD));
    } catch (const GeographicLib::GeographicErr&) { // its own limits of easting and northing
        return outside_utm(point, zone.value_or(0));
    }
    return grid;
}

} // namespace rillmark
