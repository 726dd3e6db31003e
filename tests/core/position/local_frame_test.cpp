// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/local_frame.h"

#include "checks/checks.h"
#include "position/chainage.h"

#include <GeographicLib/TransverseMercator.hpp>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

namespace rillmark {

namespace {

using nlohmann::json;

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInf = std::numeric_limits<double>::infinity();

double dms(double degrees, double minutes, double seconds) {
    return degrees + minutes / 60.0 + seconds / 3600.0;
}

void expect_grid(const json& check, const GeoPoint& point, std::optional<int> zone, double tolerance_m) {
    const UtmPosition grid = utm(point, zone).value();
    EXPECT_NEAR(grid.easting_m, check["expected"]["easting_m"], tolerance_m);
    EXPECT_NEAR(grid.northing_m, check["expected"]["northing_m"], tolerance_m);
}

TEST(Utm, PublishedPoint38N) {
    const json check = checks::entry("position", "utm-38n");
    const GeoPoint point{check["expected"]["lat_deg"], check["expected"]["lon_deg"]};
    expect_grid(check, point, {}, check["tolerance"]["easting_m"]);
    EXPECT_EQ(utm(point)->zone, 38);
    EXPECT_TRUE(utm(point)->north);
}

TEST(Utm, PublishedPointOutsideItsZone) {
    const json check = checks::entry("position", "utm-32n-55-12");
    const GeoPoint point{check["inputs"]["lat_deg"], check["inputs"]["lon_deg"]};
    // The source computes on GRS 80, which is 0.1 mm smaller from equator to pole than WGS 84: more than the tolerance.
    // So the library is checked on GRS 80 with the tolerance, and ours against that with the difference.
    const double central_deg = 9.0;
    const GeographicLib::TransverseMercator grs80(6378137.0, 1.0 / 298.257222101, 0.9996);
    double easting_m = 0.0;
    double northing_m = 0.0;
    grs80.Forward(central_deg, point.latitude_deg, point.longitude_deg, easting_m, northing_m);
    easting_m += 500000.0;
    EXPECT_NEAR(easting_m, check["expected"]["easting_m"], check["tolerance"]["abs_m"]);
    EXPECT_NEAR(northing_m, check["expected"]["northing_m"], check["tolerance"]["abs_m"]);
    EXPECT_EQ(utm(point)->zone, 33); // the standard zone
    const UtmPosition grid = utm(point, check["inputs"]["zone"].get<int>()).value();
    EXPECT_NEAR(grid.easting_m, easting_m, 0.00015);
    EXPECT_NEAR(grid.northing_m, northing_m, 0.00015);
    EXPECT_NEAR(grid.convergence_deg, check["expected"]["convergence_deg_computed"], 1e-7);
    EXPECT_NEAR(grid.scale, check["expected"]["scale_computed"], 1e-9);
}

TEST(Utm, PublishedPointsInAdjoiningZonesOfTheSouth) {
    const json check = checks::entry("position", "utm-flinders");
    for (std::size_t i = 0; i < 2; ++i) {
        const json& point = check["inputs"]["points"][i];
        const UtmPosition grid = utm({point["lat_deg"], point["lon_deg"]}).value();
        EXPECT_EQ(grid.zone, point["zone"]);
        EXPECT_FALSE(grid.north);
        EXPECT_NEAR(grid.easting_m, check["expected"]["easting_m"][i], check["tolerance"]["abs_m"]);
        EXPECT_NEAR(grid.northing_m, check["expected"]["northing_m"][i], check["tolerance"]["abs_m"]);
        EXPECT_NEAR(grid.scale, check["expected"]["scale_computed"][i], 1e-8);
        EXPECT_NEAR(grid.convergence_deg, check["expected"]["convergence_deg_computed"][i], 1e-6);
    }
}

TEST(Utm, FurtherPublishedPoints) {
    for (const char* id : {"utm-anuga-60s", "utm-anuga-copenhagen", "utm-anuga-wollongong"}) {
        SCOPED_TRACE(id);
        const json check = checks::entry("position", id);
        const GeoPoint point{check["inputs"]["lat_deg"], check["inputs"]["lon_deg"]};
        expect_grid(check, point, {}, check["tolerance"]["abs_m"]);
        EXPECT_EQ(utm(point)->zone, check["inputs"]["zone"]);
    }
}

TEST(Utm, ExceptionsAndRefusals) {
    EXPECT_EQ(utm({60.4, 5.3})->zone, 32);  // western Norway
    EXPECT_EQ(utm({78.2, 15.6})->zone, 33); // Svalbard
    EXPECT_EQ(utm({84.0, 0.0}).error().code, "position.outside_utm");
    EXPECT_EQ(utm({-80.1, 0.0}).error().code, "position.outside_utm");
    EXPECT_EQ(utm({45.0, 3.0}, 0).error().code, "position.outside_utm");
    EXPECT_EQ(utm({45.0, 3.0}, 61).error().code, "position.outside_utm");
    EXPECT_EQ(utm({0.0, 93.0}, 1).error().code, "position.outside_utm"); // a quarter round the Earth from zone 1
    EXPECT_EQ(utm({kNan, 3.0}).error().code, "position.not_finite");
    EXPECT_EQ(utm({45.0, 181.0}).error().code, "position.out_of_range");
}

TEST(Geodesic, PublishedLines) {
    const json set = checks::entry("position", "geod-karney-set");
    for (std::size_t i = 0; i < set["inputs"]["lines"].size(); ++i) {
        const json& ends = set["inputs"]["lines"][i];
        const GeodesicLine line =
            geodesic({ends[0], std::remainder(ends[1].get<double>(), 360.0)},
                     {ends[2], std::remainder(ends[3].get<double>(), 360.0)}).value();
        EXPECT_NEAR(line.distance_m, set["expected"]["s12_m"][i], set["tolerance"]["s12_m"]);
        EXPECT_NEAR(line.azimuth_start_deg, set["expected"]["azi1_deg"][i], set["tolerance"]["azi_deg"]);
        EXPECT_NEAR(line.azimuth_end_deg, set["expected"]["azi2_deg"][i], set["tolerance"]["azi_deg"]);
    }
}

TEST(Geodesic, ManualExamples) {
    const json jfk = checks::entry("position", "geod-jfk-sin");
    const GeodesicLine to_sin =
        geodesic({dms(40, 38, 23), -dms(73, 46, 44)}, {dms(1, 21, 33), dms(103, 59, 22)}).value();
    EXPECT_NEAR(to_sin.distance_m, jfk["expected"]["s12_m"], jfk["tolerance"]["s12_m"]);
    const double arcsec = jfk["tolerance"]["azimuth_arcsec"];
    EXPECT_NEAR(to_sin.azimuth_start_deg, dms(3, 18, 29.9), arcsec / 3600.0);
    EXPECT_NEAR(to_sin.azimuth_end_deg, dms(177, 29, 9.2), arcsec / 3600.0);

    const json zero = checks::entry("position", "geod-0");
    const GeodesicLine line = geodesic({40.6, -73.8}, {dms(49, 1, 0), dms(2, 33, 0)}).value();
    EXPECT_NEAR(line.distance_m, zero["expected"]["s12_m"], zero["tolerance"]["s12_m"]);
    EXPECT_NEAR(line.azimuth_start_deg, zero["expected"]["azi1_deg"], zero["tolerance"]["azi_deg"]);
    EXPECT_NEAR(line.azimuth_end_deg, zero["expected"]["azi2_deg"], zero["tolerance"]["azi_deg"]);

    const json one = checks::entry("position", "geod-1");
    const GeoPoint reached =
        travel({dms(40, 38, 23), -dms(73, 46, 44)}, dms(53, 30, 0), one["inputs"]["s12_m"]).value();
    EXPECT_NEAR(reached.latitude_deg, one["expected"]["lat2_deg"], one["tolerance"]["abs_deg"]);
    EXPECT_NEAR(reached.longitude_deg, one["expected"]["lon2_deg"], one["tolerance"]["abs_deg"]);
}

TEST(Geodesic, ShortLineKeepsItsDigits) {
    const json check = checks::entry("position", "geod-short");
    const json& in = check["inputs"];
    const GeodesicLine line = geodesic({in["lat1_deg"], in["lon1_deg"]}, {in["lat2_deg"], in["lon2_deg"]}).value();
    EXPECT_NEAR(line.distance_m, check["expected"]["s12_m"], check["tolerance"]["abs_m"]);
}

TEST(Geodesic, SouthernLine) {
    const json check = checks::entry("position", "geod-flinders");
    const json& in = check["inputs"];
    const GeodesicLine line = geodesic({in["lat1_deg"], in["lon1_deg"]}, {in["lat2_deg"], in["lon2_deg"]}).value();
    const double degrees = check["tolerance"]["azimuth_arcsec"].get<double>() / 3600.0;
    EXPECT_NEAR(line.distance_m, check["expected"]["s12_m"], check["tolerance"]["s12_m"]);
    EXPECT_NEAR(line.azimuth_start_deg + 360.0, dms(306, 52, 5.37), degrees);
    EXPECT_NEAR(line.azimuth_end_deg + 180.0, dms(127, 10, 25.07), degrees);
}

TEST(Geodesic, BadInput) {
    EXPECT_EQ(geodesic({kNan, 0.0}, {0.0, 0.0}).error().code, "position.not_finite");
    EXPECT_EQ(geodesic({0.0, 0.0}, {91.0, 0.0}).error().code, "position.out_of_range");
    EXPECT_EQ(travel({0.0, 0.0}, kInf, 1.0).error().code, "position.not_finite");
    EXPECT_EQ(geodesic({45.0, 7.0}, {45.0, 7.0})->distance_m, 0.0);
}

TEST(LocalFrame, PublishedEastNorthUp) {
    const json check = checks::entry("position", "enu-33-44");
    const json& in = check["inputs"];
    const LocalFrame frame = LocalFrame::make({in["lat0_deg"], in["lon0_deg"]}, in["h0_m"]).value();
    const EnuPoint enu = frame.to_enu({in["lat_deg"], in["lon_deg"]}, in["h_m"]);
    EXPECT_NEAR(enu.east_m, check["expected"]["e_m"], check["tolerance"]["abs_m"]);
    EXPECT_NEAR(enu.north_m, check["expected"]["n_m"], check["tolerance"]["abs_m"]);
    EXPECT_NEAR(enu.up_m, check["expected"]["u_m"], check["tolerance"]["abs_m"]);
}

// The geocentric axes are the local ones of 0 N 0 E, turned and moved to the centre.
TEST(LocalFrame, PublishedGeocentric) {
    const json check = checks::entry("position", "ecef-33-44");
    const json& in = check["inputs"];
    constexpr double kEquatorialRadius_m = 6378137.0; // WGS 84
    const LocalFrame frame = LocalFrame::make({0.0, 0.0}, -kEquatorialRadius_m).value();
    const EnuPoint enu = frame.to_enu({in["lat_deg"], in["lon_deg"]}, in["h_m"]);
    EXPECT_NEAR(enu.up_m, check["expected"]["x_m"], check["tolerance"]["abs_m"]);
    EXPECT_NEAR(enu.east_m, check["expected"]["y_m"], check["tolerance"]["abs_m"]);
    EXPECT_NEAR(enu.north_m, check["expected"]["z_m"], check["tolerance"]["abs_m"]);
}

TEST(LocalFrame, ThereAndBackAndNearGeodesic) {
    constexpr unsigned kSeed = 11;
    SCOPED_TRACE(kSeed);
    std::mt19937 random(kSeed);
    std::uniform_real_distribution<double> latitude(-85.0, 85.0);
    std::uniform_real_distribution<double> longitude(-180.0, 180.0);
    std::uniform_real_distribution<double> metres(-20000.0, 20000.0);
    for (int i = 0; i < 200; ++i) {
        const GeoPoint origin{latitude(random), longitude(random)};
        const LocalFrame frame = LocalFrame::make(origin).value();
        const LocalPoint local{metres(random), metres(random)};
        const GeoPoint geo = frame.to_geo(local);
        const LocalPoint back = frame.to_local(geo);
        EXPECT_NEAR(back.east_m, local.east_m, 1e-6);
        EXPECT_NEAR(back.north_m, local.north_m, 1e-6);
        const double flat_m = std::hypot(local.east_m, local.north_m);
        constexpr double kEarthRadius_m = 6371000.0; // good to 1 %, for a correction of centimetres
        const double curved_m = flat_m + std::pow(flat_m, 3) / (6.0 * kEarthRadius_m * kEarthRadius_m);
        EXPECT_NEAR(geodesic(origin, geo)->distance_m, curved_m, 0.002);
    }
}

TEST(LocalFrame, Refusals) {
    EXPECT_EQ(LocalFrame::make({kNan, 0.0}).error().code, "position.not_finite");
    EXPECT_EQ(LocalFrame::make({0.0, 200.0}).error().code, "position.out_of_range");
    EXPECT_EQ(LocalFrame::make({0.0, 20.0}, kInf).error().code, "position.not_finite");
}

// A line of three legs in local metres: north 300, east 400, north 100, with heights 100, 60, 60, none.
std::vector<RoutePoint> dog_leg() {
    const LocalFrame frame = LocalFrame::make({44.7, -119.6}).value();
    return {{frame.to_geo({0.0, 0.0}), 100.0},
            {frame.to_geo({0.0, 300.0}), 60.0},
            {frame.to_geo({400.0, 300.0}), 60.0},
            {frame.to_geo({400.0, 400.0}), std::nullopt}};
}

TEST(Chainage, HorizontalAndSlope) {
    const Chainage chainage = chainage_along(dog_leg()).value();
    EXPECT_NEAR(chainage.horizontal_m[1], 300.0, 1e-3);
    EXPECT_NEAR(chainage.horizontal_m[3], 800.0, 1e-3);
    EXPECT_NEAR(chainage.slope_m[1], std::hypot(300.0, 40.0), 1e-3);
    EXPECT_NEAR(chainage.slope_m[3] - chainage.slope_m[1], 500.0, 1e-3);
    EXPECT_EQ(chainage.legs_without_height, 1u);
    EXPECT_EQ(chainage_along(std::vector<RoutePoint>{{{1.0, 2.0}, {}}})->horizontal_m, std::vector<double>{0.0});
}

TEST(Chainage, WalkedBackwardsItIsTheSameLength) {
    std::vector<RoutePoint> route = dog_leg();
    const Chainage there = chainage_along(route).value();
    std::reverse(route.begin(), route.end());
    const Chainage back = chainage_along(route).value();
    EXPECT_NEAR(there.horizontal_m.back(), back.horizontal_m.back(), 1e-6);
    EXPECT_NEAR(there.slope_m.back(), back.slope_m.back(), 1e-6);
}

TEST(Chainage, ProjectsOnTheNearestLegWithItsSide) {
    const LocalFrame frame = LocalFrame::make({44.7, -119.6}).value();
    const std::vector<RoutePoint> route = dog_leg();
    const RouteProjection right = project_on_route(route, frame.to_geo({10.0, 100.0})).value();
    EXPECT_NEAR(right.chainage_m, 100.0, 1e-3);
    EXPECT_NEAR(right.offset_m, 10.0, 1e-3);
    EXPECT_EQ(right.leg, 0u);
    EXPECT_NEAR(right.fraction, 1.0 / 3.0, 1e-5);
    const RouteProjection left = project_on_route(route, frame.to_geo({150.0, 325.0})).value();
    EXPECT_NEAR(left.chainage_m, 450.0, 1e-3);
    EXPECT_NEAR(left.offset_m, -25.0, 1e-3);
    EXPECT_EQ(left.leg, 1u);
    EXPECT_NEAR(frame.to_local(left.foot).north_m, 300.0, 1e-3);
    const RouteProjection beyond = project_on_route(route, frame.to_geo({400.0, 450.0})).value();
    EXPECT_NEAR(beyond.chainage_m, 800.0, 1e-3);
    EXPECT_NEAR(std::abs(beyond.offset_m), 50.0, 1e-3);
    const RouteProjection on_vertex = project_on_route(route, route[2].point).value();
    EXPECT_NEAR(on_vertex.chainage_m, 700.0, 1e-3);
    EXPECT_NEAR(on_vertex.offset_m, 0.0, 1e-6);
}

TEST(Chainage, ALegOfNoLengthDoesNoHarm) {
    std::vector<RoutePoint> route = dog_leg();
    route.insert(route.begin() + 1, route[1]);
    const LocalFrame frame = LocalFrame::make({44.7, -119.6}).value();
    EXPECT_NEAR(project_on_route(route, frame.to_geo({150.0, 325.0}))->chainage_m, 450.0, 1e-3);
}

TEST(Chainage, Refusals) {
    EXPECT_EQ(chainage_along({}).error().code, "position.route_empty");
    std::vector<RoutePoint> route = dog_leg();
    EXPECT_EQ(project_on_route({route.data(), 1}, {44.0, -119.0}).error().code, "position.route_too_short");
    EXPECT_EQ(project_on_route(route, {kNan, -119.0}).error().code, "position.not_finite");
    route[1].height_m = kInf;
    EXPECT_EQ(chainage_along(route).error().where, "2");
    route[2].point.latitude_deg = 95.0;
    route[1].height_m.reset();
    EXPECT_EQ(chainage_along(route).error().code, "position.out_of_range");
    EXPECT_EQ(chainage_along(route).error().where, "3");
}

} // namespace

} // namespace rillmark
