// SPDX-License-Identifier: GPL-3.0-or-later
#include "water/water.h"

#include "checks/checks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace rillmark {
namespace {

void expect_densities(const char* id) {
    const nlohmann::json check = checks::entry("water", id);
    const double tolerance = check["tolerance"]["abs_kg_m3"];
    const nlohmann::json& temperatures = check["inputs"]["t_c"];
    const nlohmann::json& densities = check["expected"]["rho_kg_m3"];
    ASSERT_GT(temperatures.size(), 0U);
    for (std::size_t i = 0; i < temperatures.size(); ++i)
        EXPECT_NEAR(water_density_kgm3(temperatures[i].get<double>()).value(), densities[i].get<double>(), tolerance)
            << id << " at " << temperatures[i];
}

TEST(Water, DensityAsPrintedForTheFormula) {
    expect_densities("water-tanaka");
    expect_densities("water-tanaka-table");
}

TEST(Water, DensityAgreesWithIndependentWeighing) {
    expect_densities("water-16c");
}

TEST(Water, DensityAndViscosityAgreeWithATableOfValues) {
    for (const char* id : {"WP-01", "WP-02", "WP-03", "WP-04", "WP-05"}) {
        const nlohmann::json check = checks::entry("water", id);
        const double t = check["inputs"]["T_C"];
        EXPECT_NEAR(water_density_kgm3(t).value(), check["expected"]["rho_kgm3"].get<double>(),
                    check["tolerance"]["rho_kgm3"]["abs"].get<double>())
            << id;
        EXPECT_NEAR(water_dynamic_viscosity_Pas(t).value() * 1e3, check["expected"]["mu_mPas"].get<double>(),
                    check["tolerance"]["mu_mPas"]["abs"].get<double>())
            << id;
    }
}

TEST(Water, ViscosityAgreesWithSteamTables) {
    const nlohmann::json check = checks::entry("water", "WP-06");
    const double expected = check["expected"]["mu_uPas"];
    EXPECT_NEAR(water_dynamic_viscosity_Pas(check["inputs"]["T_C"].get<double>()).value() * 1e6, expected,
                expected * check["tolerance"]["mu_uPas"]["rel"].get<double>());
}

TEST(Water, KinematicIsDynamicByDensity) {
    for (double t = kWaterTemperatureMin_C; t <= kWaterTemperatureMax_C; t += 1.0)
        EXPECT_DOUBLE_EQ(water_kinematic_viscosity_m2s(t).value() * water_density_kgm3(t).value(),
                         water_dynamic_viscosity_Pas(t).value());
}

TEST(Water, IsDensestNearFourDegreesAndThinsAsItWarms) {
    for (double t = 4.5; t <= 40.0; t += 0.5)
        EXPECT_LT(water_density_kgm3(t).value(), water_density_kgm3(t - 0.5).value()) << t;
    for (double t = 0.5; t <= 3.5; t += 0.5)
        EXPECT_GT(water_density_kgm3(t).value(), water_density_kgm3(t - 0.5).value()) << t;
    for (double t = 0.5; t <= 40.0; t += 0.5)
        EXPECT_LT(water_dynamic_viscosity_Pas(t).value(), water_dynamic_viscosity_Pas(t - 0.5).value()) << t;
}

TEST(Water, RefusesWhatItsSourcesDoNotCover) {
    for (const double t : {-0.01, 40.01, -273.15, 1e9}) {
        for (const auto& value :
             {water_density_kgm3(t), water_dynamic_viscosity_Pas(t), water_kinematic_viscosity_m2s(t)}) {
            ASSERT_FALSE(value) << t;
            EXPECT_EQ(value.error().code, "power.water_temperature_out_of_range");
        }
    }
    for (const double t : {std::nan(""), std::numeric_limits<double>::infinity()}) {
        const auto value = water_density_kgm3(t);
        ASSERT_FALSE(value);
        EXPECT_EQ(value.error().code, "uncertainty.not_finite");
    }
}

} // namespace
} // namespace rillmark
