// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/meter_rating.h"

#include "checks/checks.h"
#include "flow_fixtures.h"

#include <string>
#include <utility>

namespace rillmark {
namespace {

using flow_fixtures::has_code;
using flow_fixtures::kInfinity;
using flow_fixtures::kNaN;

MeterRating two_ranges() {
    const auto in = checks::entry("flow", "meter-rating-two-range")["inputs"];
    return {"rotor 3",
            {{0.0, in["n_lt_0_69"]["a"], in["n_lt_0_69"]["b"]}, {0.69, in["n_gt_0_69"]["a"], in["n_gt_0_69"]["b"]}},
            std::nullopt,
            std::nullopt,
            true};
}

TEST(MeterRating, TwoRangesOfACertificate) {
    const auto check = checks::entry("flow", "meter-rating-two-range");
    const MeterRating meter = two_ranges();
    const auto judged = check_rating(meter);
    ASSERT_TRUE(judged.ok());
    EXPECT_TRUE(judged->empty());
    const std::vector<double> turns = check["inputs"]["rev_per_s"];
    for (std::size_t i = 0; i < turns.size(); ++i) {
        const auto velocity = meter_velocity(meter, turns[i] * 100.0, 100.0);
        ASSERT_TRUE(velocity.ok());
        const double expected = check["expected"]["velocity_m_s"][i];
        EXPECT_NEAR(velocity->velocity_ms, expected, check["tolerance"]["relative"].get<double>() * expected);
    }
}

// The coefficients of this check are from memory, unconfirmed: it tests the arithmetic only. In feet, as printed.
TEST(MeterRating, CupMetersFromMemory) {
    const auto check = checks::entry("flow", "meter-rating-price");
    const double tolerance = check["tolerance"]["relative"];
    const MeterRating large{"large", {{0.0, 2.2048, 0.0178}}, std::nullopt, std::nullopt, false};
    const MeterRating small{"small", {{0.0, 0.9604, 0.0312}}, std::nullopt, std::nullopt, false};
    const std::vector<double> turns = check["inputs"]["rev_per_s"];
    for (std::size_t i = 0; i < turns.size(); ++i) {
        const double expected_large = check["expected"]["aa_ft_s"][i];
        const double expected_small = check["expected"]["pygmy_ft_s"][i];
        EXPECT_NEAR(meter_velocity(large, turns[i] * 60.0, 60.0)->velocity_ms, expected_large,
                    tolerance * expected_large);
        EXPECT_NEAR(meter_velocity(small, turns[i] * 60.0, 60.0)->velocity_ms, expected_small,
                    tolerance * expected_small);
    }
}

TEST(MeterRating, NoRevolutionIsBelowTheStartingSpeedAndNotB) {
    MeterRating meter{"m", {{0.0, 0.32, 0.032}}, std::nullopt, std::nullopt, false};
    const auto still = meter_velocity(meter, 0.0, 60.0);
    ASSERT_TRUE(still.ok());
    EXPECT_EQ(still->velocity_ms, 0.0);
    EXPECT_EQ(still->starting_velocity_ms, 0.032);
    meter.min_velocity_ms = 0.05;
    EXPECT_EQ(meter_velocity(meter, 0.0, 0.0)->starting_velocity_ms, 0.05);
    EXPECT_FALSE(meter_velocity(meter, 1.0, 60.0)->starting_velocity_ms.has_value());
}

TEST(MeterRating, CountsAndTimesGoTogether) {
    const MeterRating meter = two_ranges();
    EXPECT_DOUBLE_EQ(meter_velocity(meter, 30.0, 60.0)->velocity_ms, meter_velocity(meter, 60.0, 120.0)->velocity_ms);
}

TEST(MeterRating, NegativeLineIsCutAtZero) {
    const MeterRating meter{"m", {{0.0, 0.25, -0.05}}, std::nullopt, std::nullopt, false};
    EXPECT_EQ(meter_velocity(meter, 1.0, 100.0)->velocity_ms, 0.0);
    EXPECT_EQ(meter_velocity(meter, 0.0, 100.0)->starting_velocity_ms, 0.0);
}

TEST(MeterRating, WarnsWhenRangesDoNotMeet) {
    MeterRating meter = two_ranges();
    meter.ranges[1].a_m = 0.525; // two digits of 0.252 swapped
    const auto judged = check_rating(meter);
    ASSERT_TRUE(judged.ok());
    EXPECT_TRUE(has_code(*judged, "flow.rating_ranges_part"));
}

TEST(MeterRating, RefusesImpossibleRatings) {
    const auto refused_at = [](const MeterRating& meter) {
        const auto judged = check_rating(meter);
        return judged.ok() ? std::string("accepted") : judged.error().where;
    };
    for (const double bad : {kNaN, kInfinity, -1.0, 1e9}) {
        MeterRating meter = two_ranges();
        meter.ranges[0].a_m = bad;
        EXPECT_EQ(refused_at(meter), "a_m") << bad;
        meter = two_ranges();
        meter.ranges[1].above_rev_per_s = bad;
        EXPECT_EQ(refused_at(meter), "above_rev_per_s") << bad;
        meter = two_ranges();
        meter.min_velocity_ms = bad;
        EXPECT_EQ(refused_at(meter), "velocity_limits") << bad;
        meter = two_ranges();
        meter.max_velocity_ms = bad;
        EXPECT_EQ(refused_at(meter), "velocity_limits") << bad;
    }
    for (const double bad : {kNaN, kInfinity, -2.0}) {
        MeterRating meter = two_ranges();
        meter.ranges[0].b_ms = bad;
        EXPECT_EQ(refused_at(meter), "b_ms") << bad;
    }
    MeterRating meter = two_ranges();
    std::swap(meter.ranges[0], meter.ranges[1]);
    EXPECT_EQ(refused_at(meter), "above_rev_per_s");
    meter = two_ranges();
    meter.min_velocity_ms = 2.0;
    meter.max_velocity_ms = 1.0;
    EXPECT_EQ(refused_at(meter), "velocity_limits");
    EXPECT_TRUE(check_rating(MeterRating{}).ok()); // a meter that shows the velocity
}

TEST(MeterRating, RefusesImpossibleReadings) {
    const MeterRating meter = two_ranges();
    for (const double bad : {kNaN, kInfinity, -1.0, 1e12}) {
        EXPECT_EQ(meter_velocity(meter, bad, 60.0).error().code, "flow.bad_revolutions") << bad;
        EXPECT_EQ(meter_velocity(meter, 10.0, bad).error().code, "flow.bad_time") << bad;
        EXPECT_EQ(meter_velocity(meter, 0.0, bad).error().code, "flow.bad_time") << bad;
    }
    EXPECT_EQ(meter_velocity(meter, 10.0, 0.0).error().code, "flow.bad_time");
    EXPECT_EQ(meter_velocity(MeterRating{}, 10.0, 60.0).error().code, "flow.no_rating");
}

} // namespace
} // namespace rillmark
