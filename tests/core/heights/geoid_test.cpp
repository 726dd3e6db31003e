// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/geoid.h"

#include "checks/checks.h"

#include <GeographicLib/Geoid.hpp>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <limits>
#include <random>
#include <vector>

namespace rillmark {
namespace {

constexpr std::size_t kGridBytes = 721 * 1440 * 2;

// 3:00:34W 16:46:33N of GeoidEval(1); its value is from a finer grid, the second figure from this one.
TEST(Geoid, Timbuktu) {
    const auto check = checks::entry("geoid", "egm96-timbuktu");
    const GeoPoint place{16.0 + 46.0 / 60.0 + 33.0 / 3600.0, -(3.0 + 0.0 / 60.0 + 34.0 / 3600.0)};
    const double tolerance = check["tolerance"]["abs_m"];
    EXPECT_NEAR(egm96().separation_m(place), check["expected"]["n_m"].get<double>(), tolerance);
    EXPECT_NEAR(egm96().separation_m(place), check["expected"]["n_bilinear_15min_computed_m"].get<double>(), tolerance);
    // computed from the source's own four nodes (28.725466, 28.705208, 28.598455, 28.667574): only the centimetres
    // differ
    EXPECT_NEAR(egm96().separation_m(place), 28.701735, 0.005);
}

// The place is UTM 18n 531595 4468135; back to degrees by search in utm(), which has tests of its own.
TEST(Geoid, HeightAboveTheSeaToHeightAboveTheEllipsoid) {
    const auto check = checks::entry("geoid", "egm96-msl-to-hae");
    const Expected<GeoPoint> place = [] {
        GeoPoint at{40.36, -74.63};
        for (int step = 0; step < 20; ++step) {
            const Expected<UtmPosition> grid = utm(at, 18);
            if (!grid)
                return Expected<GeoPoint>(grid.error());
            at.latitude_deg += (4468135.0 - grid->northing_m) / 111000.0;
            at.longitude_deg += (531595.0 - grid->easting_m) / 85000.0;
        }
        return Expected<GeoPoint>(at);
    }();
    ASSERT_TRUE(place.ok());
    const double separation = egm96().separation_m(*place);
    const double tolerance = check["tolerance"]["abs_m"];
    EXPECT_NEAR(separation, check["expected"]["n_m"].get<double>(), tolerance);
    EXPECT_NEAR(separation, check["expected"]["n_bilinear_15min_computed_m"].get<double>(), tolerance);
    EXPECT_NEAR(check["inputs"]["H_msl_m"].get<double>() + separation, check["expected"]["h_hae_m"].get<double>(),
                tolerance);
}

TEST(Geoid, ReceiversOfTheReferenceLogs) {
    const std::string path = std::string(RILLMARK_REFERENCE_DIR) + "/head/nmea/expected.json";
    if (!std::filesystem::exists(path))
        GTEST_SKIP() << "the logs are not part of the source tree";
    std::ifstream file(path);
    const nlohmann::json logs = nlohmann::json::parse(file)["files"];
    const auto check = checks::entry("geoid", "geoid-sep-receivers");
    const auto& names = check["inputs"]["file"];
    int compared = 0;
    double largest = 0.0;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string name = names[i];
        if (!logs.contains(name) || !logs[name].contains("mean"))
            continue;
        const auto& mean = logs[name]["mean"];
        const double separation = egm96().separation_m({mean["lat_deg"], mean["lon_deg"]});
        EXPECT_NEAR(separation, check["expected"]["egm96_bilinear_m"][i].get<double>(),
                    check["tolerance"]["abs_m"].get<double>())
            << name;
        largest = std::max(largest, std::abs(separation - check["expected"]["sep_in_gga_m"][i].get<double>()));
        ++compared;
    }
    EXPECT_GE(compared, 10);
    EXPECT_LE(largest, check["expected"]["max_abs_difference_m"].get<double>());
}

// Only where GeographicLib's own grid of EGM96 is installed: 5 or 15 minutes.
TEST(Geoid, AgreesWithGeographicLib) {
    for (const char* name : {"egm96-15", "egm96-5"}) {
        const std::string path = GeographicLib::Geoid::DefaultGeoidPath();
        if (!std::filesystem::exists(path + "/" + name + ".pgm"))
            continue;
        const GeographicLib::Geoid other(name, path, false); // bilinear
        std::mt19937 random(20240501);
        for (int i = 0; i < 1000; ++i) {
            const GeoPoint at{std::uniform_real_distribution(-60.0, 70.0)(random),
                              std::uniform_real_distribution(-180.0, 180.0)(random)};
            EXPECT_NEAR(egm96().separation_m(at), other(at.latitude_deg, at.longitude_deg), 0.6);
        }
        return;
    }
    GTEST_SKIP() << "no grid installed";
}

TEST(Geoid, RoundTheEarthAndAtThePoles) {
    // extremes of EGM96, south of India and in New Guinea (from memory, unconfirmed: -107.0 and 85.4 m)
    EXPECT_NEAR(egm96().separation_m({4.7, 78.8}), -107.0, 0.5);
    EXPECT_NEAR(egm96().separation_m({-8.4, 147.3}), 85.4, 1.0);
    for (const double latitude : {-90.0, -45.1, 0.0, 33.3, 89.9, 90.0}) {
        EXPECT_DOUBLE_EQ(egm96().separation_m({latitude, 180.0}), egm96().separation_m({latitude, -180.0}));
        EXPECT_NEAR(egm96().separation_m({latitude, 179.9999}), egm96().separation_m({latitude, -179.9999}), 0.001);
        EXPECT_NEAR(egm96().separation_m({latitude, 190.0}), egm96().separation_m({latitude, -170.0}), 1e-9);
    }
    for (const double longitude : {-180.0, -77.7, 0.0, 12.3, 179.99})
        for (const double pole : {-90.0, 90.0})
            EXPECT_DOUBLE_EQ(egm96().separation_m({pole, longitude}), egm96().separation_m({pole, 0.0}));
}

TEST(Geoid, IsContinuousAcrossTheCells) {
    std::mt19937 random(20240502);
    for (int i = 0; i < 2000; ++i) {
        const double edge = std::floor(std::uniform_real_distribution(-355.0, 355.0)(random)) * 0.25;
        const double other = std::uniform_real_distribution(-90.0, 90.0)(random);
        const double step = 1e-7;
        EXPECT_NEAR(egm96().separation_m({edge - step, other}), egm96().separation_m({edge + step, other}), 1e-5);
        EXPECT_NEAR(egm96().separation_m({other, edge - step}), egm96().separation_m({other, edge + step}), 1e-5);
    }
}

TEST(Geoid, TakesOnlyAWholeGrid) {
    std::vector<std::byte> bytes(kGridBytes);
    const auto flat = GeoidGrid::from_bytes(bytes);
    ASSERT_TRUE(flat.ok());
    EXPECT_EQ(flat->separation_m({12.3, 45.6}), 0.0);
    bytes[7] = std::byte{1};
    EXPECT_EQ(GeoidGrid::from_bytes(bytes).error().code, "levels.geoid_grid_damaged");
    bytes.resize(kGridBytes - 1);
    EXPECT_EQ(GeoidGrid::from_bytes(bytes).error().code, "levels.geoid_grid_damaged");
    EXPECT_FALSE(GeoidGrid::from_bytes({}).ok());
}

TEST(Geoid, NothingForNoPlace) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    EXPECT_TRUE(std::isnan(egm96().separation_m({nan, 0.0})));
    EXPECT_TRUE(std::isnan(egm96().separation_m({0.0, nan})));
    EXPECT_TRUE(std::isnan(egm96().separation_m({91.0, 0.0})));
    EXPECT_TRUE(std::isnan(egm96().separation_m({0.0, infinity})));
}

} // namespace
} // namespace rillmark
