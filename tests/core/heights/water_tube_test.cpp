// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/water_tube.h"

#include "checks/checks.h"
#include "heights/sum_of_rises.h"
#include "heights_fixtures.h"

namespace rillmark {
namespace {

using namespace heights_fixtures;

TEST(WaterTube, TemperatureCheck) {
    const auto check = checks::entry("heights", "watertube-temperature");
    const auto& in = check["inputs"];
    for (std::size_t i = 0; i < in["leg_height_m"].size(); ++i) {
        const auto step = tube_temperature_step_m(in["leg_height_m"][i], in["t1_c"][i], in["t2_c"][i]);
        ASSERT_TRUE(step.ok());
        EXPECT_NEAR(*step * 1000.0, check["expected"]["error_mm"][i].get<double>(),
                    check["tolerance"]["abs_mm"].get<double>());
        EXPECT_DOUBLE_EQ(*tube_temperature_step_m(in["leg_height_m"][i], in["t2_c"][i], in["t1_c"][i]), -*step);
    }
}

TEST(WaterTube, StaffDifferencesAddUp) {
    const auto result = water_tube({{1.800, 0.200, {}}, {1.500, 0.400, {}}, {0.900, 1.000, {}}});
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result->rise_m, 1.6 + 1.1 - 0.1, 1e-12);
    EXPECT_NEAR(result->random_m, kTubeSetup_m * std::sqrt(3.0), 1e-12);
    EXPECT_TRUE(result->shared.empty());
    EXPECT_TRUE(result->findings.empty());
}

TEST(WaterTube, SwappingTheEndsChangesTheSign) {
    const TubeLegs warm_to{5.0, 10.0, 30.0};
    const TubeLegs warm_from{5.0, 30.0, 10.0};
    const auto up = water_tube({{1.9, 0.3, warm_to}});
    const auto down = water_tube({{0.3, 1.9, warm_from}});
    ASSERT_TRUE(up.ok() && down.ok());
    EXPECT_NEAR(up->rise_m, -down->rise_m, 1e-12);
    EXPECT_NEAR(up->random_m, down->random_m, 1e-12);
}

TEST(WaterTube, WarmLegIsTakenOff) {
    // true rise 1.5 m; the warm water at `to` stands 20.36 mm too high
    const auto result = water_tube({{1.9, 0.4 + 0.02036, TubeLegs{5.0, 10.0, 30.0}}});
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result->rise_m, 1.5, 2e-5);
    EXPECT_GT(result->random_m, kTubeSetup_m);
    EXPECT_TRUE(has_code(result->findings, "levels.tube_temperature"));
    EXPECT_FALSE(has_code(water_tube({{1.9, 0.4, TubeLegs{1.0, 10.0, 20.0}}})->findings, "levels.tube_temperature"));
}

TEST(WaterTube, SumOfStretchesIsTheWholeLine) {
    const std::vector<TubeSetup> all{{1.8, 0.2, {}}, {1.7, 0.3, TubeLegs{2.0, 8.0, 25.0}}, {1.6, 0.1, {}}};
    const auto whole = water_tube(all);
    const auto sum = sum_of_rises({*water_tube({all[0]}), *water_tube({all[1], all[2]})});
    ASSERT_TRUE(whole.ok() && sum.ok());
    EXPECT_NEAR(whole->rise_m, sum->rise_m, 1e-12);
    EXPECT_NEAR(whole->random_m, sum->random_m, 1e-12);
    EXPECT_EQ(whole->findings.size(), sum->findings.size());
}

TEST(WaterTube, CoverageOfSimulatedLines) {
    const double seen = coverage(10 * 1.5, 4105, [](Errors& error) {
        std::vector<TubeSetup> setups;
        for (int i = 0; i < 10; ++i) {
            const double from_C = 12.0 + error(kTubeTemperature_u_C);
            const double to_C = 24.0 + error(kTubeTemperature_u_C);
            const double step_m = *tube_temperature_step_m(4.0, from_C, to_C);
            setups.push_back({1.8, 0.3 + step_m + error(kTubeSetup_m), TubeLegs{4.0, 12.0, 24.0}});
        }
        return water_tube(setups)->estimate();
    });
    EXPECT_GT(seen, 0.93);
    EXPECT_LT(seen, 0.97);
}

TEST(WaterTube, RefusesBadInput) {
    for (const double bad : {kNaN, kInfinity, -kInfinity, -1.0, 1e300}) {
        expect_out_of_range(water_tube({{bad, 1.0, {}}}), "levels.tube_from_reading");
        expect_out_of_range(water_tube({{1.0, 1.0, {}}, {1.0, bad, {}}}), "levels.tube_to_reading");
        expect_out_of_range(water_tube({{1.0, 1.0, TubeLegs{bad, 10.0, 20.0}}}), "levels.tube_leg_height");
        expect_out_of_range(water_tube({{1.0, 1.0, TubeLegs{1.0, bad, 20.0}}}), "levels.tube_from_temperature");
        expect_out_of_range(water_tube({{1.0, 1.0, TubeLegs{1.0, 10.0, bad}}}), "levels.tube_to_temperature");
        expect_out_of_range(water_tube({{1.0, 1.0, TubeLegs{1.0, 10.0, 10.0, bad}}}),
                            "levels.tube_temperature_uncertainty");
        expect_out_of_range(water_tube({{1.0, 1.0, {}}}, {bad}), "levels.tube_uncertainty");
    }
    const Finding second = water_tube({{1.0, 1.0, {}}, {1.0, kNaN, {}}}).error();
    EXPECT_EQ(second.args.back().name, "row");
    EXPECT_EQ(std::get<std::int64_t>(second.args.back().value), 2);
    EXPECT_EQ(water_tube({}).error().code, "levels.nothing_measured");
}

} // namespace
} // namespace rillmark
