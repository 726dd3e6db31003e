// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/hand_level.h"

#include "checks/checks.h"
#include "heights/sum_of_rises.h"
#include "heights_fixtures.h"

namespace rillmark {
namespace {

using namespace heights_fixtures;

HandLevelLine line_of(int sights, double part_m = 0.0) {
    HandLevelLine line;
    line.sights = sights;
    line.eye_height_m = {1.62, 0.01};
    line.part_m = part_m;
    line.run = "anna";
    return line;
}

// The sum is computed; the eye height is that of the source.
TEST(HandLevel, SteppingCheck) {
    const auto check = checks::entry("heights", "handlevel-stepping");
    const auto& in = check["inputs"];
    HandLevelLine line;
    line.sights = in["full_sights"];
    line.eye_height_m = {in["eye_height_m"], in["eye_height_error_m"]};
    line.part_m = in["last_partial_m"];
    line.pointing_m = in["random_per_sight_m"];
    const auto result = hand_level(line);
    ASSERT_TRUE(result.ok());
    const double tolerance = check["tolerance"]["abs_m"];
    EXPECT_NEAR(result->rise_m, check["expected"]["rise_m"].get<double>(), tolerance);
    EXPECT_NEAR(result->random_m, check["expected"]["random_m"].get<double>(), tolerance);
    EXPECT_NEAR(effect_of(*result, "eye-height:"), check["expected"]["systematic_m"].get<double>(), tolerance);
    EXPECT_TRUE(has_code(result->findings, "levels.eye_height_governs"));
}

TEST(HandLevel, ALineDownIsTheLineUpWithAMinus) {
    HandLevelLine line = line_of(7, 0.4);
    const auto up = hand_level(line);
    line.downwards = true;
    const auto down = hand_level(line);
    ASSERT_TRUE(up.ok() && down.ok());
    EXPECT_DOUBLE_EQ(up->rise_m, -down->rise_m);
    EXPECT_DOUBLE_EQ(up->random_m, down->random_m);
    EXPECT_DOUBLE_EQ(effect_of(*up, "eye-height:anna"), -effect_of(*down, "eye-height:anna"));
    // there and back: the shared eye height cancels, the pointings do not
    const auto loop = sum_of_rises({*up, *down});
    ASSERT_TRUE(loop.ok());
    EXPECT_NEAR(loop->estimate().value, 0.0, 1e-12);
    EXPECT_NEAR(loop->estimate().standard_uncertainty, up->random_m * std::sqrt(2.0), 1e-12);
}

TEST(HandLevel, StretchesAddUpToTheWholeLine) {
    const auto whole = hand_level(line_of(15));
    const auto sum = sum_of_rises({*hand_level(line_of(4)), *hand_level(line_of(11))});
    ASSERT_TRUE(whole.ok() && sum.ok());
    EXPECT_NEAR(sum->rise_m, whole->rise_m, 1e-12);
    EXPECT_NEAR(sum->estimate().standard_uncertainty, whole->estimate().standard_uncertainty, 1e-12);
    EXPECT_EQ(sum->shared.size(), 1U);
}

TEST(HandLevel, LastStaffReadingTakesTheEyeHeightOnceMore) {
    HandLevelLine line = line_of(3);
    line.last_staff_reading_m = 2.10; // above the eye: the end lies below the last stand
    const auto result = hand_level(line);
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result->rise_m, 4 * 1.62 - 2.10, 1e-12);
    EXPECT_NEAR(effect_of(*result, "eye-height:anna"), 0.04, 1e-12);
    EXPECT_NEAR(result->random_m, 2.0 * kHandLevelPointing_m, 1e-12);
    line.sights = 0;
    EXPECT_NEAR(hand_level(line)->rise_m, 1.62 - 2.10, 1e-12);
}

TEST(HandLevel, WarnsOfAPartInWhichASightWouldFit) {
    EXPECT_TRUE(has_code(hand_level(line_of(3, 1.7))->findings, "levels.part_above_eye_height"));
    EXPECT_FALSE(has_code(hand_level(line_of(3, 1.6))->findings, "levels.part_above_eye_height"));
    EXPECT_FALSE(has_code(hand_level(line_of(3, 1.6))->findings, "levels.eye_height_governs"));
}

TEST(HandLevel, CoverageOfSimulatedLines) {
    const double seen = coverage(12 * 1.62, 4101, [](Errors& error) {
        HandLevelLine line = line_of(12);
        line.eye_height_m.value = 1.62 + error(0.01);
        MeasuredRise rise = *hand_level(line);
        for (int i = 0; i < 12; ++i)
            rise.rise_m += error(kHandLevelPointing_m);
        return rise.estimate();
    });
    EXPECT_GT(seen, 0.93);
    EXPECT_LT(seen, 0.97);
}

TEST(HandLevel, RefusesBadInput) {
    for (const double bad : {kNaN, kInfinity, -kInfinity, -1.0, 1e300}) {
        HandLevelLine line = line_of(3, bad);
        expect_out_of_range(hand_level(line), "levels.part");
        line = line_of(3);
        line.eye_height_m.value = bad;
        expect_out_of_range(hand_level(line), "levels.eye_height");
        line = line_of(3);
        line.eye_height_m.standard_uncertainty = bad;
        expect_out_of_range(hand_level(line), "levels.eye_height_uncertainty");
        line = line_of(3);
        line.pointing_m = bad;
        expect_out_of_range(hand_level(line), "levels.pointing");
        line = line_of(3);
        line.last_staff_reading_m = bad;
        expect_out_of_range(hand_level(line), "levels.last_staff_reading");
    }
    expect_out_of_range(hand_level(line_of(-1)), "levels.sights");
    EXPECT_EQ(hand_level(line_of(0)).error().code, "levels.nothing_measured");
    HandLevelLine both = line_of(3, 0.5);
    both.last_staff_reading_m = 0.5;
    EXPECT_EQ(hand_level(both).error().code, "levels.part_given_twice");
    EXPECT_EQ(sum_of_rises({}).error().code, "levels.nothing_measured");
}

} // namespace
} // namespace rillmark
