// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/clinometer.h"

#include "checks/checks.h"
#include "heights/sum_of_rises.h"
#include "heights_fixtures.h"

namespace rillmark {
namespace {

using namespace heights_fixtures;

ClinometerReading degrees(double angle) {
    return {angle * kDegree_rad, std::nullopt};
}
ClinometerReading per_cent(double slope) {
    return {std::nullopt, slope / 100.0};
}

ClinometerSight sight_of(ClinometerReading forward, double distance_m = 25.0,
                         SightDistance is = SightDistance::Slope) {
    ClinometerSight sight;
    sight.forward = forward;
    sight.distance_m = distance_m;
    sight.distance_u_m = 0.05;
    sight.distance_is = is;
    sight.eye_height_m = {1.6, 0.01};
    sight.target_height_m = {1.6, 0.01};
    sight.run = "r";
    return sight;
}

TEST(Clinometer, GuideExample) {
    const auto check = checks::entry("heights", "clino-25m-9deg");
    const auto& in = check["inputs"];
    const auto ground = clinometer(sight_of(degrees(in["slope_deg"]), in["ground_m"]));
    ASSERT_TRUE(ground.ok());
    const double level_m = ground->level_distance_m.value;
    EXPECT_NEAR(level_m, check["expected"]["horizontal_m"].get<double>(), check["tolerance"]["horizontal_m"].get<double>());
    const auto top = clinometer(sight_of(per_cent(in["top_percent"]), level_m, SightDistance::Level));
    const auto bottom =
        clinometer(sight_of(per_cent(-in["bottom_percent"].get<double>()), level_m, SightDistance::Level));
    ASSERT_TRUE(top.ok() && bottom.ok());
    EXPECT_NEAR(top->rise.rise_m - bottom->rise.rise_m, check["expected"]["height_m_computed"].get<double>(),
                check["tolerance"]["height_m"].get<double>());
}

TEST(Clinometer, AngleErrorCheck) {
    const auto check = checks::entry("heights", "clino-error");
    const auto& in = check["inputs"];
    for (std::size_t i = 0; i < in["angle_deg"].size(); ++i) {
        ClinometerSight sight = sight_of(degrees(in["angle_deg"][i]), in["slope_m"]);
        sight.reading_u_rad = in["angle_error_deg"][i].get<double>() * kDegree_rad;
        sight.index_correction_rad = {0.0, sight.reading_u_rad};
        sight.distance_u_m = 0.0;
        const auto result = clinometer(sight);
        ASSERT_TRUE(result.ok());
        const double expected_m = check["expected"]["height_error_m"][i];
        EXPECT_NEAR(result->rise.random_m, expected_m, check["tolerance"]["abs_m"].get<double>()) << i;
        EXPECT_NEAR(effect_of(result->rise, "clinometer-index:r"), expected_m, check["tolerance"]["abs_m"].get<double>());
    }
}

TEST(Clinometer, PerCentOfALevelAndOfASlopeDistance) {
    EXPECT_NEAR(clinometer(sight_of(per_cent(20.0), 50.0, SightDistance::Level))->rise.rise_m, 10.0, 1e-12);
    EXPECT_NEAR(clinometer(sight_of(per_cent(100.0), 50.0))->rise.rise_m, 50.0 / std::sqrt(2.0), 1e-9);
    EXPECT_NEAR(clinometer(sight_of(degrees(45.0), 50.0))->rise.rise_m, 50.0 / std::sqrt(2.0), 1e-9);
}

TEST(Clinometer, HeightsOfEyeAndMark) {
    ClinometerSight sight = sight_of(degrees(0.0), 30.0);
    sight.target_height_m = {0.2, 0.01};
    const auto result = clinometer(sight);
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result->rise.rise_m, 1.4, 1e-12);
    EXPECT_NEAR(result->slope_distance_m.value, std::hypot(30.0, 1.4), 1e-9);
    EXPECT_GT(effect_of(result->rise, "eye-height:r"), 0.0);
    EXPECT_LT(effect_of(result->rise, "target-height:r"), 0.0);
}

TEST(Clinometer, BackSightIsTheForeSightWithAMinus) {
    for (const double angle : {-31.0, -5.0, 0.5, 12.0}) {
        const auto there = clinometer(sight_of(degrees(angle), 60.0));
        const auto back = clinometer(sight_of(degrees(-angle), 60.0));
        ASSERT_TRUE(there.ok() && back.ok());
        EXPECT_NEAR(there->rise.rise_m, -back->rise.rise_m, 1e-12);
        EXPECT_NEAR(there->rise.random_m, back->rise.random_m, 1e-12);
        EXPECT_NEAR(there->level_distance_m.value, back->level_distance_m.value, 1e-12);
    }
}

TEST(Clinometer, BothWaysCancelIndexAndHeights) {
    ClinometerSight sight = sight_of(degrees(9.4), 60.0);
    sight.reverse = degrees(-8.6); // true 9.0, index +0.4
    sight.index_correction_rad = {0.0, 0.25 * kDegree_rad};
    sight.target_height_m = {1.0, 0.01};
    sight.forward.angle_rad = *sight.forward.angle_rad - std::asin(0.6 / 60.0);
    sight.reverse->angle_rad = *sight.reverse->angle_rad - std::asin(0.6 / 60.0);
    const auto result = clinometer(sight);
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result->rise.rise_m, 60.0 * std::sin(9.0 * kDegree_rad), 0.02);
    EXPECT_EQ(effect_of(result->rise, "eye-height:r"), 0.0);
    EXPECT_NEAR(effect_of(result->rise, "clinometer-index:r"), 0.0, 0.002);
    EXPECT_FALSE(has_code(result->rise.findings, "levels.both_ways_disagree"));
    EXPECT_FALSE(has_code(result->rise.findings, "levels.sight_one_way"));
    sight.index_correction_rad = {-0.4 * kDegree_rad, 0.05 * kDegree_rad};
    EXPECT_NEAR(clinometer(sight)->rise.rise_m, result->rise.rise_m, 0.001);
}

TEST(Clinometer, DegreesAndPerCentMixedUp) {
    // 15 degrees is 26.8 %: the way back was read on the per cent scale and booked as degrees
    ClinometerSight sight = sight_of(degrees(15.0), 40.0);
    sight.reverse = degrees(-26.8);
    auto result = clinometer(sight);
    ASSERT_TRUE(result.ok());
    EXPECT_EQ(where_of(result->rise.findings, "levels.degrees_per_cent_mixed"), "levels.reverse_reading");
    sight.forward = per_cent(15.0); // degrees booked as per cent
    sight.reverse = per_cent(-26.8);
    result = clinometer(sight);
    EXPECT_EQ(where_of(result->rise.findings, "levels.degrees_per_cent_mixed"), "levels.forward_reading");
    sight.reverse = per_cent(-60.0); // no mix-up explains this
    result = clinometer(sight);
    EXPECT_FALSE(has_code(result->rise.findings, "levels.degrees_per_cent_mixed"));
    EXPECT_TRUE(has_code(result->rise.findings, "levels.both_ways_disagree"));
    sight.reverse = per_cent(-15.2);
    EXPECT_TRUE(clinometer(sight)->rise.findings.empty());
}

TEST(Clinometer, SteepAndLongSights) {
    EXPECT_EQ(where_of(clinometer(sight_of(degrees(50.0)))->rise.findings, "levels.sight_steep"), "levels.forward_reading");
    EXPECT_FALSE(has_code(clinometer(sight_of(per_cent(99.0)))->rise.findings, "levels.sight_steep"));
    EXPECT_TRUE(has_code(clinometer(sight_of(degrees(5.0), 101.0))->rise.findings, "levels.sight_long"));
    EXPECT_FALSE(has_code(clinometer(sight_of(degrees(5.0), 99.0))->rise.findings, "levels.sight_long"));
    ClinometerSight sight = sight_of(degrees(5.0), 40.0);
    EXPECT_TRUE(has_code(clinometer(sight)->rise.findings, "levels.sight_one_way"));
    sight.index_correction_rad.standard_uncertainty = 0.1 * kClinometerIndex_rad;
    EXPECT_FALSE(has_code(clinometer(sight)->rise.findings, "levels.sight_one_way"));
}

TEST(Clinometer, SharedIndexGrowsWithTheNumberOfSights) {
    const MeasuredRise one = clinometer(sight_of(degrees(10.0)))->rise;
    const MeasuredRise four = *sum_of_rises({one, one, one, one});
    EXPECT_NEAR(effect_of(four, "clinometer-index:r"), 4.0 * effect_of(one, "clinometer-index:r"), 1e-12);
    EXPECT_NEAR(four.random_m, 2.0 * one.random_m, 1e-12);
}

TEST(Clinometer, CoverageOfSimulatedSights) {
    const double angle_rad = 12.0 * kDegree_rad;
    for (const bool both_ways : {false, true})
        for (const SightDistance is : {SightDistance::Slope, SightDistance::Level}) {
            const double truth = is == SightDistance::Slope ? 60.0 * std::sin(angle_rad) : 60.0 * std::tan(angle_rad);
            const double seen = coverage(truth, 4102, [&](Errors& error) {
                const double index_rad = error(kClinometerIndex_rad);
                ClinometerSight sight = sight_of(degrees(0.0), 60.0 + error(0.3), is);
                sight.distance_u_m = 0.3;
                sight.forward.angle_rad = angle_rad - index_rad + error(kClinometerReading_rad);
                if (both_ways)
                    sight.reverse = ClinometerReading{-angle_rad - index_rad + error(kClinometerReading_rad), {}};
                sight.eye_height_m.value += error(0.01);
                sight.target_height_m.value += error(0.01);
                return clinometer(sight)->rise.estimate();
            });
            EXPECT_GT(seen, 0.93) << both_ways;
            EXPECT_LT(seen, 0.97) << both_ways;
        }
}

TEST(Clinometer, RefusesBadInput) {
    for (const double bad : {kNaN, kInfinity, -kInfinity, 1e300}) {
        expect_out_of_range(clinometer(sight_of(degrees(bad))), "levels.forward_reading");
        expect_out_of_range(clinometer(sight_of(degrees(5.0), bad)), "levels.distance");
        ClinometerSight sight = sight_of(degrees(5.0));
        sight.reverse = degrees(bad);
        expect_out_of_range(clinometer(sight), "levels.reverse_reading");
        sight = sight_of(degrees(5.0));
        sight.reading_u_rad = bad;
        expect_out_of_range(clinometer(sight), "levels.angle_uncertainty");
        sight = sight_of(degrees(5.0));
        sight.distance_u_m = bad;
        expect_out_of_range(clinometer(sight), "levels.distance_uncertainty");
        sight = sight_of(degrees(5.0));
        sight.index_correction_rad.value = bad;
        expect_out_of_range(clinometer(sight), "levels.index_correction");
        sight = sight_of(degrees(5.0));
        sight.eye_height_m.value = bad;
        expect_out_of_range(clinometer(sight), "levels.eye_height");
        sight = sight_of(degrees(5.0));
        sight.target_height_m.standard_uncertainty = bad;
        expect_out_of_range(clinometer(sight), "levels.target_height_uncertainty");
    }
    expect_out_of_range(clinometer(sight_of(degrees(5.0), -20.0)), "levels.distance");
    expect_out_of_range(clinometer(sight_of(degrees(81.0))), "levels.forward_reading");
    EXPECT_EQ(clinometer(sight_of({})).error().code, "levels.degrees_or_per_cent");
    EXPECT_EQ(clinometer(sight_of({0.1, 0.1})).error().where, "levels.forward_reading");
    expect_out_of_range(clinometer(sight_of(per_cent(kNaN))), "levels.forward_reading");
}

} // namespace
} // namespace rillmark
