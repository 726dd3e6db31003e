// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange_fixtures.h"

#include "checks/checks.h"

#include <fmt/format.h>

#include <cmath>

namespace rillmark {
namespace {

using namespace exchange_fixtures;

bool warned(const Reduction& reduction, const std::string& code) {
    return std::ranges::find(reduction.findings, code, &Finding::code) != reduction.findings.end();
}

Estimate cell(const Reduction& reduction, std::size_t row, std::size_t column) {
    return std::get<Estimate>(reduction.tables.at(0).rows.at(row).at(column));
}

TEST(ReduceHandLevel, SteppingCheck) {
    const auto check = checks::entry("heights", "handlevel-stepping");
    const auto& in = check["inputs"];
    const Reduction r =
        reduced("hand-level", fmt::format("from,to,sights,eye_height,part\nA,B,{},{},{}\n", in["full_sights"].get<int>(),
                                          in["eye_height_m"].get<double>(), in["last_partial_m"].get<double>()),
                {{"eye_height_uncertainty", in["eye_height_error_m"].dump()}, {"pointing", in["random_per_sight_m"].dump()}});
    EXPECT_NEAR(result(r, "rise").value, check["expected"]["rise_m"].get<double>(), 0.001);
    EXPECT_NEAR(result(r, "rise").standard_uncertainty,
                std::hypot(check["expected"]["systematic_m"].get<double>(), check["expected"]["random_m"].get<double>()), 0.001);
    EXPECT_DOUBLE_EQ(result(r, "fall").value, -result(r, "rise").value);
}

TEST(ReduceHandLevel, RowsOfOneObserverShareTheEyeHeight) {
    const std::string head = "from,to,sights,eye_height,observer,direction\n";
    const double whole = result(reduced("hand-level", head + "A,C,20,1.6,x,\n"), "rise").standard_uncertainty;
    const Reduction parts = reduced("hand-level", head + "A,B,12,1.6,x,\nB,C,8,1.6,x,up\n");
    EXPECT_NEAR(result(parts, "rise").standard_uncertainty, whole, 1e-12);
    EXPECT_NEAR(result(parts, "rise").value, 32.0, 1e-12);
    EXPECT_NEAR(cell(parts, 0, 2).value, 19.2, 1e-12);
    EXPECT_EQ(result(parts, "stretches").value, 2.0);
    const Reduction two = reduced("hand-level", head + "A,B,12,1.6,x,\nB,C,8,1.6,y,\n");
    EXPECT_LT(result(two, "rise").standard_uncertainty, 0.9 * whole);
    const Reduction loop = reduced("hand-level", head + "A,B,12,1.6,x,\nB,A,12,1.6,x,down\n");
    EXPECT_NEAR(result(loop, "rise").value, 0.0, 1e-12);
    EXPECT_NEAR(result(loop, "rise").standard_uncertainty, 0.03 * std::sqrt(24.0), 1e-12);
}

TEST(ReduceHeights, NoSumWhereTheRowsDoNotJoin) {
    const Reduction r = reduced("hand-level", "from,to,sights,eye_height\nA,B,2,1.6\nA,B,2,1.6\n");
    EXPECT_TRUE(warned(r, "exchange.stretches_not_joined"));
    EXPECT_EQ(std::ranges::find(r.results, "exchange.result.rise", &NamedResult::code), r.results.end());
    EXPECT_EQ(r.tables.at(0).rows.size(), 2U);
    EXPECT_FALSE(warned(reduced("hand-level", "sights,eye_height\n2,1.6\n2,1.6\n"), "exchange.stretches_not_joined"));
}

TEST(ReduceClinometer, GuideExample) {
    const auto check = checks::entry("heights", "clino-25m-9deg");
    const Reduction r =
        reduced("clinometer", "angle,slope_distance,eye_height,target_height\n9,25,1.6,1.6\n");
    EXPECT_NEAR(cell(r, 0, 3).value, check["expected"]["horizontal_m"].get<double>(),
                check["tolerance"]["horizontal_m"].get<double>());
    const Reduction top = reduced("clinometer", "slope_pct,level_distance,eye_height,target_height\n"
                                                "29,24.692,0,0\n");
    const Reduction bottom = reduced("clinometer", "slope,level_distance,eye_height,target_height\n-23 %,24.692,0,0\n");
    EXPECT_NEAR(result(top, "rise").value - result(bottom, "rise").value,
                check["expected"]["height_m_computed"].get<double>(), check["tolerance"]["height_m"].get<double>());
}

TEST(ReduceClinometer, BothWaysAndTheSharedIndex) {
    const std::string head = "from,to,angle,reverse_angle,level_distance,eye_height,target_height\n";
    const Reduction one_way = reduced("clinometer", head + "A,B,10,,50,1.6,1.6\nB,C,10,,50,1.6,1.6\n");
    const double one_m = cell(one_way, 0, 2).standard_uncertainty;
    EXPECT_GT(result(one_way, "rise").standard_uncertainty, 1.5 * one_m); // more than sqrt(2)
    const Reduction both = reduced("clinometer", head + "A,B,10,-10,50,1.6,1.6\nB,C,10,-10,50,1.6,1.6\n");
    EXPECT_NEAR(result(both, "rise").standard_uncertainty, std::sqrt(2.0) * cell(both, 0, 2).standard_uncertainty, 1e-12);
    const Reduction mixed = reduced("clinometer", head + "A,B,15,-26.8,40,1.6,1.6\n");
    ASSERT_TRUE(warned(mixed, "levels.degrees_per_cent_mixed"));
    EXPECT_EQ(argument(mixed.findings[0], "column"), "reverse_angle");
    EXPECT_EQ(argument(mixed.findings[0], "line"), "2");
}

TEST(ReduceZenith, TrigonometricLevellingExample) {
    const auto check = checks::entry("heights", "trig-mahun");
    // +4 24 10, -6 00 25 and -2 58 30 from the horizontal
    const Reduction r = reduced("zenith", "zenith,slope_distance_ft,instrument_height_ft,target_height_ft\n"
                                          "85.597222,145.25,5.41,5.64\n96.006944,89.32,5.41,5.64\n92.975,118.95,5.41,5.64\n");
    const double foot_m = find_unit(Quantity::Length, "ft")->factor;
    for (std::size_t i = 0; i < 3; ++i)
        EXPECT_NEAR(check["inputs"]["elev_q_ft"].get<double>() + cell(r, i, 2).value / foot_m,
                    check["expected"]["elev_ft"][i].get<double>(), check["tolerance"]["abs_ft"].get<double>());
}

TEST(ReduceZenith, BothWays) {
    const Reduction r = reduced("zenith", "zenith,level_distance,instrument_height,target_height,reverse_zenith,"
                                          "reverse_level_distance,reverse_instrument_height,reverse_target_height\n"
                                          "80,100,1.5,1.5,100,100,1.5,1.5\n");
    EXPECT_NEAR(result(r, "rise").value, 100.0 / std::tan(80.0 * std::acos(-1.0) / 180.0), 1e-9);
    EXPECT_TRUE(r.findings.empty());
}

TEST(ReduceWaterTube, SetUpsAddUp) {
    const Reduction r = reduced("water-tube", "from,to,from_reading,to_reading,leg_height,from_temperature,to_temperature\n"
                                              "A,B,1.9,0.3,,,\nB,C,1.5,0.5,5,10,30\n");
    EXPECT_NEAR(result(r, "rise").value, 2.6 + 0.02036, 2e-5);
    EXPECT_NEAR(cell(r, 0, 2).standard_uncertainty, 0.005, 1e-12);
    EXPECT_TRUE(warned(r, "levels.tube_temperature"));
    EXPECT_EQ(argument(r.findings[0], "line"), "3");
}

TEST(ReduceHoseGauge, StretchesOfOneGauge) {
    const std::string head = "from,to,pressure_bar,zero_bar,full_scale_bar,resolution_bar,gauge_height,water_height,gauge\n";
    const std::string row = ",5,0,6,0.05,0.5,0.2,";
    const Reduction r = reduced("hose-gauge", head + "A,B" + row + "g\nB,C" + row + "g\n", {{"class", "1 %"}});
    const Estimate one = cell(r, 0, 2);
    EXPECT_NEAR(one.value, 51.1 + 0.3, 0.1); // 1 bar is 10.2 m
    EXPECT_NEAR(result(r, "rise").value, 2.0 * one.value, 1e-12);
    EXPECT_GT(result(r, "rise").standard_uncertainty, 1.8 * one.standard_uncertainty);
    const Reduction two = reduced("hose-gauge", head + "A,B" + row + "g\nB,C" + row + "h\n", {{"class", "1 %"}});
    EXPECT_LT(result(two, "rise").standard_uncertainty, 1.6 * one.standard_uncertainty);
    EXPECT_TRUE(r.findings.empty());
}

TEST(ReduceHeights, Refusals) {
    const std::string hand = "sights,eye_height,part,direction\n";
    expect_refused(reduce("hand-level", hand + "2,1.6,,\n2.5,1.6,,\n"), "exchange.not_whole", 3, "sights");
    expect_refused(reduce("hand-level", hand + "2,16,,\n"), "levels.input_out_of_range", 2, "eye_height");
    expect_refused(reduce("hand-level", hand + "2,1.6,-1,\n"), "levels.input_out_of_range", 2, "part");
    expect_refused(reduce("hand-level", hand + "2,1.6,,left\n"), "exchange.direction_unknown", 2, "direction");
    expect_refused(reduce("hand-level", hand + "0,1.6,,\n"), "levels.nothing_measured", 2, "");
    const std::string clino = "angle,slope,slope_distance,level_distance,eye_height,target_height\n";
    expect_refused(reduce("clinometer", clino + "5,,10,10,1.6,1.6\n"), "exchange.one_distance", 2, "slope_distance");
    expect_refused(reduce("clinometer", clino + "5,0.1,10,,1.6,1.6\n"), "levels.degrees_or_per_cent", 2, "angle");
    expect_refused(reduce("clinometer", clino + "85,,10,,1.6,1.6\n"), "levels.input_out_of_range", 2, "angle");
    const std::string zenith = "zenith,slope_distance,instrument_height,target_height,reverse_zenith,reverse_slope_distance\n";
    expect_refused(reduce("zenith", zenith + "5,100,1.5,1.5,,\n"), "levels.input_out_of_range", 2, "zenith");
    expect_refused(reduce("zenith", zenith + "85,100,1.5,1.5,95,\n"), "exchange.one_distance", 2, "reverse_slope_distance");
    expect_refused(reduce("zenith", zenith + "85,100,1.5,1.5,95,100\n"), "exchange.cell_empty", 2,
                   "reverse_instrument_height");
    const std::string tube = "from_reading,to_reading,leg_height,from_temperature,to_temperature\n";
    expect_refused(reduce("water-tube", tube + "1,1,,,\n1,-1,,,\n"), "levels.input_out_of_range", 3, "to_reading");
    expect_refused(reduce("water-tube", tube + "1,1,2,10,\n"), "exchange.cell_empty", 2, "to_temperature");
    const std::string hose = "pressure_bar,full_scale_bar,resolution_bar,gauge_height,water_height\n";
    expect_refused(reduce("hose-gauge", hose + "7,6,0.05,0,0\n"), "levels.gauge_over_range", 2, "pressure");
    expect_refused(reduce("hose-gauge", hose + "0,6,0.05,0,0\n"), "levels.gauge_no_pressure", 2, "pressure");
    expect_refused(reduce("hose-gauge", hose + "4,6,0,0,0\n"), "levels.input_out_of_range", 2, "resolution");
}

} // namespace
} // namespace rillmark
