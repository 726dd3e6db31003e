// SPDX-License-Identifier: GPL-3.0-or-later
#include "water/gravity.h"

#include "checks/checks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace rillmark {
namespace {

TEST(Gravity, OnTheEllipsoid) {
    const nlohmann::json check = checks::entry("water", "grav-wgs84");
    const nlohmann::json& latitudes = check["inputs"]["lat_deg"];
    const double tolerance = check["tolerance"]["abs"];
    for (std::size_t i = 0; i < latitudes.size(); ++i)
        EXPECT_NEAR(normal_gravity_ms2({latitudes[i].get<double>(), 0.0}).value(),
                    check["expected"]["g_m_s2"][i].get<double>(), tolerance)
            << latitudes[i];
}

TEST(Gravity, WithHeight) {
    const nlohmann::json check = checks::entry("water", "grav-height");
    const nlohmann::json& places = check["inputs"]["lat_deg_and_height_m"];
    const double tolerance = check["tolerance"]["abs"];
    for (std::size_t i = 0; i < places.size(); ++i)
        EXPECT_NEAR(normal_gravity_ms2({places[i][0].get<double>(), places[i][1].get<double>()}).value(),
                    check["expected"]["g_m_s2"][i].get<double>(), tolerance)
            << places[i];
}

TEST(Gravity, SaysHowFarTheUsualFigureIsOff) {
    const nlohmann::json check = checks::entry("water", "grav-effect-on-power");
    const nlohmann::json& places = check["inputs"]["lat_deg_and_height_m"];
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double g = normal_gravity_ms2({places[i][0].get<double>(), places[i][1].get<double>()}).value();
        EXPECT_NEAR((9.81 / g - 1.0) * 100.0, check["expected"]["percent_error_of_9_81"][i].get<double>(),
                    check["tolerance"]["abs"].get<double>())
            << places[i];
    }
}

TEST(Gravity, IsTheSameNorthAndSouthAndFallsWithHeight) {
    for (double latitude = 0.0; latitude <= 90.0; latitude += 7.5) {
        EXPECT_EQ(normal_gravity_ms2({latitude, 300.0}).value(), normal_gravity_ms2({-latitude, 300.0}).value());
        EXPECT_GT(normal_gravity_ms2({latitude, 0.0}).value(), normal_gravity_ms2({latitude, 2000.0}).value());
    }
}

TEST(Gravity, RefusesPlacesThatAreNone) {
    const auto code = [](double latitude, double height) {
        const auto g = normal_gravity_ms2({latitude, height});
        return g ? std::string("accepted") : g.error().code;
    };
    EXPECT_EQ(code(90.001, 0.0), "power.latitude_out_of_range");
    EXPECT_EQ(code(-1e9, 0.0), "power.latitude_out_of_range");
    EXPECT_EQ(code(45.0, 9000.5), "power.height_out_of_range");
    EXPECT_EQ(code(45.0, -501.0), "power.height_out_of_range");
    EXPECT_EQ(code(std::nan(""), 0.0), "uncertainty.not_finite");
    EXPECT_EQ(code(45.0, std::numeric_limits<double>::infinity()), "uncertainty.not_finite");
}

} // namespace
} // namespace rillmark
