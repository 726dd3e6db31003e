// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <memory>
#include <optional>

namespace GeographicLib {
class LocalCartesian;
}

namespace rillmark {

/// A point on WGS 84 in degrees, north and east positive.
struct GeoPoint {
    double latitude_deg = 0.0;
    double longitude_deg = 0.0;
};

/// A point of the site's plan, in metres from its origin.
struct LocalPoint {
    double east_m = 0.0;
    double north_m = 0.0;
};

struct EnuPoint {
    double east_m = 0.0;
    double north_m = 0.0;
    double up_m = 0.0;
};

/// Refuses coordinates that are not finite (`position.not_finite`) or outside +-90 and +-180 degrees
/// (`position.out_of_range`).
[[nodiscard]] Expected<void> check_point(const GeoPoint& point);

/// East and north of a site about its origin (GeographicLib::LocalCartesian, WGS 84). Cheap to copy.
///
/// For the plan, points are taken on the ellipsoid: lengths near the origin are ellipsoidal ones (0.016 % short on the
/// ground at 1000 m height). Accuracy: nanometres; as a plan, a length d from the origin is short by d^3 / (6 R^2), which
/// is 0.004 mm at 1 km and 33 mm at 20 km.
class LocalFrame {
public:
    /// Refuses as check_point(), and a height that is not finite (`position.not_finite`).
    [[nodiscard]] static Expected<LocalFrame> make(const GeoPoint& origin, double height_m = 0.0);

    /// The plan position. Coordinates must have passed check_point(); others give NaN.
    [[nodiscard]] LocalPoint to_local(const GeoPoint& point) const;
    /// The inverse of to_local(), for sites up to some 100 km across.
    [[nodiscard]] GeoPoint to_geo(const LocalPoint& local) const;
    /// Rectangular east, north, up of a point at an ellipsoidal height. The up of a far point is not its height
    /// difference: the Earth curves (7.8 mm at 316 m, 78 mm at 1 km).
    [[nodiscard]] EnuPoint to_enu(const GeoPoint& point, double height_ellipsoid_m) const;
    [[nodiscard]] GeoPoint origin() const { return m_origin; }

private:
    LocalFrame(const GeoPoint& origin, double height_m);
    GeoPoint m_origin;
    double m_height_m = 0.0;
    std::shared_ptr<const GeographicLib::LocalCartesian> m_cartesian;
};

/// The shortest line between two points on the ellipsoid. Azimuths in degrees, clockwise from north, -180..180, both in
/// the direction of travel.
struct GeodesicLine {
    double distance_m = 0.0;
    double azimuth_start_deg = 0.0;
    double azimuth_end_deg = 0.0;
};

/// Geodesic on WGS 84 (C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87, 2013; GeographicLib). Accuracy 15 nm.
/// Works for coincident, very close and antipodal points. Refuses as check_point().
[[nodiscard]] Expected<GeodesicLine> geodesic(const GeoPoint& from, const GeoPoint& to);

/// The point reached from `from` along an azimuth. Refuses as check_point(), and an azimuth or distance that is not
/// finite (`position.not_finite`).
[[nodiscard]] Expected<GeoPoint> travel(const GeoPoint& from, double azimuth_deg, double distance_m);

/// A grid position for display and for setting a map; compute with geodesic() or LocalFrame, not with these.
struct UtmPosition {
    int zone = 0; // 1..60
    bool north = true; // hemisphere
    double easting_m = 0.0;
    double northing_m = 0.0;
    double convergence_deg = 0.0; // grid north clockwise of true north
    double scale = 1.0;           // grid length over ellipsoidal length
};

/// Universal Transverse Mercator on WGS 84 (GeographicLib, Krueger series of order 6, 5 nm), in the standard zone with
/// its exceptions for Norway and Svalbard or in the zone asked for. Refuses as check_point(), latitudes outside 80 S to
/// 84 N, and a zone that is not 1 to 60 or more than 30 degrees away (`position.outside_utm`).
[[nodiscard]] Expected<UtmPosition> utm(const GeoPoint& point, std::optional<int> zone = {});

} // namespace rillmark
