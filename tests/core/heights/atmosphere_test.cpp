// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/atmosphere.h"

#include "checks/checks.h"
#include "units/units.h"
#include "water/gravity.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace rillmark {
namespace {

using nlohmann::json;

json check(const std::string& id) {
    return checks::entry("barometer", id);
}

double feet(double number) {
    return to_si(*find_unit(Quantity::Length, "ft"), number);
}

TEST(Atmosphere, FeetToPressure) {
    const json c = check("isa-feet");
    for (std::size_t i = 0; i < c["inputs"]["alt_ft"].size(); ++i)
        EXPECT_NEAR(*standard_pressure_Pa(feet(c["inputs"]["alt_ft"][i])) / 100.0,
                    c["expected"]["p_hpa"][i].get<double>(), c["tolerance"]["abs_hpa"].get<double>());
}

TEST(Atmosphere, PressureToHeight) {
    const json c = check("isa-hpa-height");
    for (std::size_t i = 0; i < c["inputs"]["p_hpa"].size(); ++i)
        EXPECT_NEAR(*standard_height_m(100.0 * c["inputs"]["p_hpa"][i].get<double>()),
                    c["expected"]["height_m"][i].get<double>(), c["tolerance"]["abs_m"].get<double>());
}

TEST(Atmosphere, RoundMetres) {
    const json c = check("isa-metres");
    for (std::size_t i = 0; i < c["inputs"]["H_m"].size(); ++i) {
        const double height_m = c["inputs"]["H_m"][i];
        const double pressure_Pa = *standard_pressure_Pa(height_m);
        EXPECT_NEAR(pressure_Pa / 100.0, c["expected"]["p_hpa"][i].get<double>(),
                    c["tolerance"]["abs_hpa"].get<double>());
        EXPECT_NEAR(standard_temperature_K(height_m) - kZeroCelsius_K, c["expected"]["t_c"][i].get<double>(), 1e-9);
        EXPECT_NEAR(pressure_Pa / (kGasConstantOfDryAir_J_per_kg_K * standard_temperature_K(height_m)),
                    c["expected"]["rho_kg_m3"][i].get<double>(), 6e-6);
        EXPECT_NEAR(*standard_height_m(pressure_Pa), height_m, 1e-8);
    }
    EXPECT_NEAR(*standard_pressure_Pa(11000.0), 22632.1, 0.05); // the source's own figure, see the entry's note
}

// The page's gravity is that of 45.54 degrees, where normal gravity is the standard one.
TEST(Atmosphere, GeometricHeightAndGravity) {
    const json c = check("isa-gravity");
    const double psi = to_si(*find_unit(Quantity::Pressure, "psi"), 1.0);
    for (std::size_t i = 0; i < c["inputs"]["geometric_alt_ft"].size(); ++i) {
        const double geometric_m = feet(c["inputs"]["geometric_alt_ft"][i]);
        EXPECT_NEAR(*standard_pressure_Pa(geopotential_height_m(geometric_m)) / psi,
                    c["expected"]["p_psi"][i].get<double>(), c["tolerance"]["p_psi"].get<double>());
        EXPECT_NEAR(*normal_gravity_ms2({45.5425, geometric_m}) / feet(1.0), c["expected"]["g_ft_s2"][i].get<double>(),
                    c["tolerance"]["g_ft_s2"].get<double>());
    }
}

TEST(Atmosphere, ColumnWorkedStepByStep) {
    const json c = check("hypso-37f");
    const double temperature_K =
        to_si(*find_unit(Quantity::Temperature, "degF"), c["inputs"]["t_f"].get<double>()) + kZeroCelsius_K;
    const auto height =
        column_height_m({c["inputs"]["p0_pa"], 100.0 * c["inputs"]["p_hpa"].get<double>(), temperature_K, 9.8});
    EXPECT_NEAR(*height, c["expected"]["z_m"].get<double>(), c["tolerance"]["abs_m"].get<double>());
}

TEST(Atmosphere, ThicknessOfLayers) {
    const json c = check("hypso-thickness");
    const json& in = c["inputs"];
    for (std::size_t i = 0; i < in["p1_hpa"].size(); ++i)
        EXPECT_NEAR(*column_height_m({in["p1_hpa"][i], in["p2_hpa"][i], in["t_k"][i], in["g"]}), // hPa: a ratio counts
                    c["expected"]["dz_m"][i].get<double>(), c["tolerance"]["abs_m"].get<double>());
}

TEST(Atmosphere, StandardHeightsAgainstTrueTemperature) {
    const json c = check("baro-vs-isa");
    const json& in = c["inputs"];
    for (std::size_t i = 0; i < in["lower_p_hpa"].size(); ++i) {
        const double lower_Pa = 100.0 * in["lower_p_hpa"][i].get<double>();
        const double upper_Pa = 100.0 * in["upper_p_hpa"][i].get<double>();
        const double mean_K =
            0.5 * (in["lower_t_c"][i].get<double>() + in["upper_t_c"][i].get<double>()) + kZeroCelsius_K;
        const double true_m = *column_height_m({lower_Pa, upper_Pa, mean_K, kStandardGravity_ms2});
        const double standard_m = *standard_height_m(upper_Pa) - *standard_height_m(lower_Pa);
        const double tolerance = c["tolerance"]["abs_m"];
        EXPECT_NEAR(true_m, c["expected"]["dz_hypsometric_m"][i].get<double>(), tolerance);
        EXPECT_NEAR(standard_m, c["expected"]["dz_isa_m"][i].get<double>(), tolerance);
        EXPECT_NEAR(true_m / standard_m, c["expected"]["ratio"][i].get<double>(), 2.0 * tolerance / standard_m);
    }
}

TEST(Atmosphere, RuleOfTheAneroid) {
    const json c = check("baro-55000-rule");
    const json& in = c["inputs"];
    for (std::size_t i = 0; i < in["mean_t_f"].size(); ++i) {
        const double mean_K =
            to_si(*find_unit(Quantity::Temperature, "degF"), in["mean_t_f"][i].get<double>()) + kZeroCelsius_K;
        const double height_ft =
            *column_height_m({in["lower_in"], in["upper_in"], mean_K, kStandardGravity_ms2}) / feet(1.0);
        EXPECT_NEAR(height_ft, c["expected"]["hypsometric_ft"][i].get<double>(), 0.1);
        const double rule_ft = c["expected"]["height_ft"][i];
        EXPECT_NEAR(height_ft, rule_ft, c["tolerance"]["rel"].get<double>() * rule_ft);
    }
}

// Triple point 611.657 Pa (IAPWS), 2339 Pa at 20 C, 7384 Pa at 40 C (steam tables): from memory, unconfirmed.
TEST(Atmosphere, SaturationOverWater) {
    EXPECT_NEAR(saturation_vapour_pressure_Pa(0.01), 611.657, kSaturationError_rel * 611.657);
    EXPECT_NEAR(saturation_vapour_pressure_Pa(20.0), 2339.0, kSaturationError_rel * 2339.0);
    EXPECT_NEAR(saturation_vapour_pressure_Pa(40.0), 7384.0, kSaturationError_rel * 7384.0);
}

TEST(Atmosphere, MoistAirIsLight) {
    EXPECT_DOUBLE_EQ(*virtual_temperature_K({15.0, 90000.0, 0.0}), 288.15);
    for (const double temperature_C : {-10.0, 10.0, 30.0}) {
        const double vapour_Pa = saturation_vapour_pressure_Pa(temperature_C);
        const double mixing_ratio = 0.622 * vapour_Pa / (90000.0 - vapour_Pa);
        const double kelvin = temperature_C + kZeroCelsius_K;
        EXPECT_NEAR(*virtual_temperature_K({temperature_C, 90000.0, 1.0}), kelvin * (1.0 + 0.61 * mixing_ratio),
                    0.001 * kelvin);
    }
    const double warm = *virtual_temperature_K({25.0, 95000.0, 1.0}) / 298.15;
    EXPECT_NEAR(warm, 1.0126, 0.0005); // "warm saturated air adds about 1 %"
}

TEST(Atmosphere, ColumnsAddUpAndTurnRound) {
    const AirColumn whole{95000.0, 80000.0, 285.0, 9.79};
    const double height_m = *column_height_m(whole);
    EXPECT_NEAR(*column_height_m({95000.0, 87000.0, 285.0, 9.79}) + *column_height_m({87000.0, 80000.0, 285.0, 9.79}),
                height_m, 1e-9);
    EXPECT_NEAR(*column_height_m({80000.0, 95000.0, 285.0, 9.79}), -height_m, 1e-9);
    // mean of the ends of an even lapse rate, against the exact standard atmosphere
    const double lower_Pa = *standard_pressure_Pa(500.0);
    const double upper_Pa = *standard_pressure_Pa(1500.0);
    EXPECT_NEAR(*column_height_m({lower_Pa, upper_Pa, standard_temperature_K(1000.0), kStandardGravity_ms2}), 1000.0,
                0.1);
}

TEST(Atmosphere, RefusesWhatIsNoAir) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    for (const double bad : {nan, infinity, -infinity, 11001.0, -2001.0})
        EXPECT_EQ(standard_pressure_Pa(bad).error().code, "levels.standard_height_out_of_range") << bad;
    for (const double bad : {nan, infinity, 0.0, -5.0, 200000.0, 1013.25})
        EXPECT_EQ(standard_height_m(bad).error().code, "levels.standard_pressure_out_of_range") << bad;
    for (const double bad : {nan, infinity, -274.0, 300.0})
        EXPECT_EQ(virtual_temperature_K({bad, 90000.0, 0.5}).error().where, "temperature_C") << bad;
    for (const double bad : {nan, -0.1, 1.1, 55.0})
        EXPECT_EQ(virtual_temperature_K({15.0, 90000.0, bad}).error().where, "relative_humidity") << bad;
    for (const double bad : {nan, 0.0, 900.0, 1e9})
        EXPECT_EQ(virtual_temperature_K({15.0, bad, 0.5}).error().where, "pressure_Pa") << bad;
    EXPECT_EQ(virtual_temperature_K({15.0, 0.0, 0.5}).error().code, "levels.air_impossible");
    for (const double bad : {nan, infinity, 0.0, -1.0}) {
        EXPECT_FALSE(column_height_m({bad, 9e4, 288.0, 9.8}).ok());
        EXPECT_FALSE(column_height_m({9e4, bad, 288.0, 9.8}).ok());
        EXPECT_FALSE(column_height_m({9e4, 9e4, bad, 9.8}).ok());
        EXPECT_EQ(column_height_m({9e4, 9e4, 288.0, bad}).error().code, "levels.air_column_impossible");
    }
}

} // namespace
} // namespace rillmark
