// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/point_velocity.h"

#include "checks/checks.h"
#include "flow_fixtures.h"

#include <cmath>

namespace rillmark {
namespace {

using flow_fixtures::at_fraction;
using flow_fixtures::kInfinity;
using flow_fixtures::kNaN;

const MeterRating kDirect{};

double mean_of(const std::vector<PointReading>& points) {
    const auto mean = vertical_velocity(points, kDirect);
    return mean.ok() ? mean->velocity_ms : kNaN;
}

// Analytic (1/7-power profile); the three-point rule itself is from memory, unconfirmed.
TEST(PointVelocity, PowerLawProfile) {
    const auto check = checks::entry("flow", "pv-rules-power-law");
    const auto& out = check["expected"];
    const double tolerance = check["tolerance"]["relative"];
    const auto v = [](double y) { return std::pow(1.0 - y, 1.0 / 7.0); };
    const auto at = [v](double y) { return at_fraction(y, v(y)); };
    const double one = out["one_point_0.6_m_s"];
    EXPECT_NEAR(mean_of({at(0.6)}), one, tolerance * one);
    const double two = out["two_point_0.2_0.8_m_s"];
    EXPECT_NEAR(mean_of({at(0.2), at(0.8)}), two, tolerance * two);
    const double three = out["three_point_m_s"];
    EXPECT_NEAR(mean_of({at(0.2), at(0.6), at(0.8)}), three, tolerance * three);
}

// The accuracy stated in the header.
TEST(PointVelocity, StatedBiasOnAPowerLawProfile) {
    const auto out = checks::entry("flow", "pv-rules-power-law")["expected"];
    const double exact = out["exact_mean_m_s"];
    EXPECT_NEAR(out["one_point_0.6_m_s"].get<double>() / exact - 1.0, 0.003, 0.0005);
    EXPECT_NEAR(out["two_point_0.2_0.8_m_s"].get<double>() / exact - 1.0, 0.008, 0.0005);
    EXPECT_NEAR(out["three_point_m_s"].get<double>() / exact - 1.0, 0.005, 0.0005);
}

TEST(PointVelocity, AnyOrderAndPointsFromTheSurfaceDown) {
    EXPECT_DOUBLE_EQ(mean_of({at_fraction(0.8, 0.3), at_fraction(0.2, 0.5), at_fraction(0.6, 0.4)}), 0.4);
    const auto mean = vertical_velocity({at_fraction(0.8, 0.3), at_fraction(0.2, 0.5)}, kDirect);
    ASSERT_TRUE(mean.ok());
    EXPECT_EQ(mean->points.front().depth_fraction, 0.2);
}

TEST(PointVelocity, RepeatedReadingsAreAveragedAndTheirTimesAdded) {
    const auto mean = vertical_velocity({at_fraction(0.6, 0.4, 30.0), at_fraction(0.6, 0.5, 40.0)}, kDirect);
    ASSERT_TRUE(mean.ok());
    EXPECT_DOUBLE_EQ(mean->velocity_ms, 0.45);
    EXPECT_EQ(mean->points[0].exposure_s, 70.0);
    PointReading untimed = at_fraction(0.6, 0.5);
    untimed.time_s.reset();
    EXPECT_FALSE(vertical_velocity({at_fraction(0.6, 0.4), untimed}, kDirect)->points[0].exposure_s.has_value());
}

TEST(PointVelocity, RevolutionsGoThroughTheRating) {
    const MeterRating meter{"m", {{0.0, 0.25, 0.01}}, std::nullopt, std::nullopt, false};
    PointReading reading;
    reading.revolutions = 120.0;
    reading.time_s = 60.0;
    EXPECT_DOUBLE_EQ(vertical_velocity({reading}, meter)->velocity_ms, 0.51);
    reading.revolutions = 0.0;
    const auto still = vertical_velocity({reading}, meter);
    ASSERT_TRUE(still.ok());
    EXPECT_EQ(still->velocity_ms, 0.0);
    EXPECT_EQ(still->points[0].starting_velocity_ms, 0.01);
}

TEST(PointVelocity, StruckReadingsAreLeftOut) {
    PointReading struck = at_fraction(0.37, kNaN);
    struck.struck = true;
    EXPECT_EQ(mean_of({struck, at_fraction(0.6, 0.4)}), 0.4);
    EXPECT_EQ(vertical_velocity({struck}, kDirect).error().code, "flow.no_velocity");
}

TEST(PointVelocity, AbnormalProfileOnlyWithTwoPoints) {
    const auto abnormal = [](const std::vector<PointReading>& points) {
        return vertical_velocity(points, kDirect)->abnormal_profile();
    };
    EXPECT_TRUE(abnormal({at_fraction(0.2, 0.3), at_fraction(0.8, 0.4)}));
    EXPECT_TRUE(abnormal({at_fraction(0.2, 0.9), at_fraction(0.8, 0.4)}));
    EXPECT_FALSE(abnormal({at_fraction(0.2, 0.5), at_fraction(0.8, 0.4)}));
    EXPECT_FALSE(abnormal({at_fraction(0.2, 0.3), at_fraction(0.6, 0.35), at_fraction(0.8, 0.4)}));
}

TEST(PointVelocity, RefusesOtherCombinations) {
    const std::vector<std::vector<double>> bad{{0.2}, {0.8}, {0.2, 0.6}, {0.6, 0.8}};
    for (const auto& fractions : bad) {
        std::vector<PointReading> points;
        for (const double fraction : fractions)
            points.push_back(at_fraction(fraction, 0.4));
        const auto mean = vertical_velocity(points, kDirect);
        ASSERT_FALSE(mean.ok());
        EXPECT_EQ(mean.error().code, "flow.points_not_accepted");
    }
    for (const double fraction : {0.0, 0.4, 0.62, 1.0, -0.6, 20.0, kNaN, kInfinity})
        EXPECT_EQ(vertical_velocity({at_fraction(fraction, 0.4)}, kDirect).error().code, "flow.depth_not_accepted");
    EXPECT_EQ(vertical_velocity({}, kDirect).error().code, "flow.no_velocity");
}

TEST(PointVelocity, RefusesImpossibleReadings) {
    for (const double bad : {kNaN, kInfinity, -kInfinity, 25.6, -11.0})
        EXPECT_EQ(vertical_velocity({at_fraction(0.6, bad)}, kDirect).error().code, "flow.bad_velocity") << bad;
    for (const double bad : {kNaN, kInfinity, -1.0})
        EXPECT_EQ(vertical_velocity({at_fraction(0.6, 0.4, bad)}, kDirect).error().code, "flow.bad_time") << bad;
    PointReading empty;
    EXPECT_EQ(vertical_velocity({empty}, kDirect).error().code, "flow.reading_incomplete");
    PointReading both = at_fraction(0.6, 0.4);
    both.revolutions = 10.0;
    EXPECT_EQ(vertical_velocity({both}, kDirect).error().code, "flow.reading_double");
    // Revolutions a second written into the count's place and the other way round: the classic slip.
    const MeterRating meter{"m", {{0.0, 0.32, 0.032}}, std::nullopt, std::nullopt, false};
    PointReading slip;
    slip.revolutions = 80.0;
    slip.time_s = 1.0;
    EXPECT_EQ(vertical_velocity({slip}, meter).error().code, "flow.bad_velocity");
    slip.time_s.reset();
    EXPECT_EQ(vertical_velocity({slip}, meter).error().where, "time_s");
}

} // namespace
} // namespace rillmark
