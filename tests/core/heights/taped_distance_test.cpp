// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/taped_distance.h"

#include "heights_fixtures.h"

namespace rillmark {
namespace {

using namespace heights_fixtures;

TapedDistance taped(double length_m, SightDistance is = SightDistance::Slope) {
    TapedDistance distance;
    distance.length_m = length_m;
    distance.is = is;
    return distance;
}

TEST(TapedDistance, PythagoreanTriangle) {
    const auto slope = taped_distance(taped(50.0), {30.0, 0.0});
    ASSERT_TRUE(slope.ok());
    EXPECT_NEAR(slope->level_m.value, 40.0, 1e-12);
    EXPECT_NEAR(slope->slope_m.value, 50.0, 1e-12);
    const auto level = taped_distance(taped(40.0, SightDistance::Level), {-30.0, 0.0});
    ASSERT_TRUE(level.ok());
    EXPECT_NEAR(level->slope_m.value, 50.0, 1e-12);
}

TEST(TapedDistance, UncertaintyOfLengthsAndScale) {
    TapedDistance distance = taped(90.0, SightDistance::Level);
    distance.laid = 9;
    distance.precision = {0.001, 0.01};
    EXPECT_NEAR(taped_distance(distance, {0.0, 0.0})->level_m.standard_uncertainty, std::hypot(0.09, 0.03), 1e-12);
    distance.precision = kLaserPrecision;
    distance.laid = 1;
    EXPECT_NEAR(taped_distance(distance, {0.0, 0.0})->level_m.standard_uncertainty, 0.01, 1e-12);
}

TEST(TapedDistance, SignOfTheRiseDoesNotMatter) {
    const auto up = taped_distance(taped(50.0), {12.0, 0.2});
    const auto down = taped_distance(taped(50.0), {-12.0, 0.2});
    ASSERT_TRUE(up.ok() && down.ok());
    EXPECT_DOUBLE_EQ(up->level_m.value, down->level_m.value);
    EXPECT_DOUBLE_EQ(up->level_m.standard_uncertainty, down->level_m.standard_uncertainty);
}

TEST(TapedDistance, CoverageOfSimulatedTapings) {
    for (const SightDistance is : {SightDistance::Slope, SightDistance::Level}) {
        const bool slope = is == SightDistance::Slope;
        const double seen = coverage(slope ? 40.0 : 50.0, 4104, [&](Errors& error) {
            TapedDistance distance = taped((slope ? 50.0 : 40.0), is);
            distance.laid = 2;
            distance.length_m *= 1.0 + error(0.001);
            distance.length_m += error(0.01) + error(0.01);
            const auto reduced = taped_distance(distance, {30.0 + error(0.05), 0.05});
            return slope ? reduced->level_m : reduced->slope_m;
        });
        EXPECT_GT(seen, 0.93);
        EXPECT_LT(seen, 0.97);
    }
}

TEST(TapedDistance, ImpossibleDistances) {
    EXPECT_EQ(taped_distance(taped(50.0), {50.0, 0.1}).error().code, "levels.rise_beyond_distance");
    EXPECT_EQ(taped_distance(taped(50.0), {-80.0, 0.1}).error().code, "levels.rise_beyond_distance");
    EXPECT_TRUE(judge_distances({{40.0, 0.05}, {50.0, 0.05}}, {30.0, 0.1}).empty());
    EXPECT_TRUE(judge_distances({{50.1, 0.05}, {50.0, 0.05}}, {0.0, 0.1}).empty()); // within their uncertainty
    EXPECT_TRUE(has_code(judge_distances({{51.0, 0.05}, {50.0, 0.05}}, {1.0, 0.1}), "levels.level_beyond_slope"));
    EXPECT_TRUE(has_code(judge_distances({{40.0, 0.05}, {50.0, 0.05}}, {-60.0, 0.1}), "levels.rise_beyond_distance"));
    EXPECT_TRUE(has_code(judge_distances({{40.0, 0.05}, {50.0, 0.05}}, {33.0, 0.1}), "levels.distances_against_rise"));
    EXPECT_TRUE(has_code(judge_distances({{40.0, 0.05}, {50.0, 0.05}}, {-20.0, 0.1}), "levels.distances_against_rise"));
    EXPECT_TRUE(judge_distances({{kNaN, 0.05}, {50.0, 0.05}}, {kNaN, 0.1}).empty());
}

TEST(TapedDistance, RefusesBadInput) {
    for (const double bad : {kNaN, kInfinity, -kInfinity, -1.0, 1e300}) {
        expect_out_of_range(taped_distance(taped(bad), {1.0, 0.1}), "levels.distance");
        expect_out_of_range(taped_distance(taped(50.0), {1.0, bad}), "levels.rise_uncertainty");
        TapedDistance distance = taped(50.0);
        distance.precision.per_length = bad;
        expect_out_of_range(taped_distance(distance, {1.0, 0.1}), "levels.distance_uncertainty");
        distance = taped(50.0);
        distance.precision.fixed_m = bad;
        expect_out_of_range(taped_distance(distance, {1.0, 0.1}), "levels.distance_uncertainty");
    }
    expect_out_of_range(taped_distance(taped(50.0), {kNaN, 0.1}), "levels.rise");
    TapedDistance none = taped(50.0);
    none.laid = 0;
    expect_out_of_range(taped_distance(none, {1.0, 0.1}), "levels.tape_lengths");
}

} // namespace
} // namespace rillmark
