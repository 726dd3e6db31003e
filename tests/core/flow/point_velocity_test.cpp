// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/point_velocity.h"

#include "checks/checks.h"
#include "flow_fixtures.h"

#include <cmath>
#include <memory>

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

// Analytic (1/7-power profile); the rules of three, five and six points and of the surface are from memory,
// unconfirmed.
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
    const double five = out["five_point_m_s"];
    EXPECT_NEAR(mean_of({at(0.0), at(0.2), at(0.6), at(0.8), at(0.98)}), five, tolerance * five);
    const double six = (v(0.0) + 2.0 * (v(0.2) + v(0.4) + v(0.6) + v(0.8)) + v(0.98)) / 10.0;
    EXPECT_NEAR(mean_of({at(0.0), at(0.2), at(0.4), at(0.6), at(0.8), at(0.98)}), six, tolerance * six);
    const auto surface = vertical_velocity({at(0.0)}, kDirect, 0.875);
    ASSERT_TRUE(surface.ok());
    const double exact = out["exact_mean_m_s"];
    EXPECT_NEAR(surface->velocity_ms, exact, tolerance * exact);
    EXPECT_TRUE(surface->surface_only);
    EXPECT_EQ(surface->points.front().weight, 0.875);
}

TEST(PointVelocity, EvenWaterHasItsVelocityByEveryRule) {
    const std::vector<std::vector<double>> rules{
        {0.6}, {0.2, 0.8}, {0.2, 0.6, 0.8}, {0.0, 0.2, 0.6, 0.8, 1.0}, {0.0, 0.2, 0.4, 0.6, 0.8, 1.0}};
    for (const auto& rule : rules) {
        std::vector<PointReading> points;
        for (const double fraction : rule)
            points.push_back(at_fraction(fraction, 0.4));
        const auto mean = vertical_velocity(points, kDirect);
        ASSERT_TRUE(mean.ok());
        EXPECT_NEAR(mean->velocity_ms, 0.4, 1e-15);
        EXPECT_FALSE(mean->surface_only);
        double weights = 0.0;
        for (const PointVelocity& point : mean->points)
            weights += point.weight;
        EXPECT_NEAR(weights, 1.0, 1e-15);
    }
}

TEST(PointVelocity, EachReadingByItsOwnMeter) {
    const MeterRating slow{"slow", {{0.0, 0.25, 0.0}}, 0.05, 1.0, true};
    const auto fast = std::make_shared<MeterRating>(MeterRating{"fast", {{0.0, 0.5, 0.0}}, 0.1, 3.0, false});
    PointReading one;
    one.revolutions = 60.0;
    one.time_s = 60.0;
    PointReading other = one;
    other.meter = fast;
    EXPECT_DOUBLE_EQ(vertical_velocity({one}, slow)->velocity_ms, 0.25);
    EXPECT_TRUE(vertical_velocity({one}, slow)->points[0].individual_rating);
    EXPECT_DOUBLE_EQ(vertical_velocity({other}, slow)->velocity_ms, 0.5);
    const auto both = vertical_velocity({one, other}, slow);
    ASSERT_TRUE(both.ok());
    EXPECT_DOUBLE_EQ(both->velocity_ms, 0.375);
    EXPECT_FALSE(both->points[0].individual_rating);
    EXPECT_EQ(both->points[0].rated_from_ms, 0.1);
    EXPECT_EQ(both->points[0].rated_to_ms, 1.0);
}

// The accuracy stated in the header.
TEST(PointVelocity, StatedBiasOnAPowerLawProfile) {
    const auto out = checks::entry("flow", "pv-rules-power-law")["expected"];
    const double exact = out["exact_mean_m_s"];
    EXPECT_NEAR(out["one_point_0.6_m_s"].get<double>() / exact - 1.0, 0.003, 0.0005);
    EXPECT_NEAR(out["two_point_0.2_0.8_m_s"].get<double>() / exact - 1.0, 0.008, 0.0005);
    EXPECT_NEAR(out["three_point_m_s"].get<double>() / exact - 1.0, 0.005, 0.0005);
    EXPECT_NEAR(out["five_point_m_s"].get<double>() / exact - 1.0, -0.006, 0.0005);
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
    const std::vector<std::vector<double>> bad{{0.2},      {0.8},      {0.4},      {1.0},
                                               {0.2, 0.6}, {0.6, 0.8}, {0.0, 0.6}, {0.0, 0.2, 0.8, 1.0}};
    for (const auto& fractions : bad) {
        std::vector<PointReading> points;
        for (const double fraction : fractions)
            points.push_back(at_fraction(fraction, 0.4));
        const auto mean = vertical_velocity(points, kDirect);
        ASSERT_FALSE(mean.ok());
        EXPECT_EQ(mean.error().code, "flow.points_not_accepted");
    }
    for (const double fraction : {0.1, 0.3, 0.62, 0.9, 1.01, -0.01, -0.6, 20.0, kNaN, kInfinity})
        EXPECT_EQ(vertical_velocity({at_fraction(fraction, 0.4)}, kDirect).error().code, "flow.depth_not_accepted");
    EXPECT_EQ(vertical_velocity({}, kDirect).error().code, "flow.no_velocity");
    for (const double share : {0.0, -0.5, 1.01, kNaN, kInfinity})
        EXPECT_EQ(vertical_velocity({at_fraction(0.0, 0.4)}, kDirect, share).error().code, "flow.bad_option") << share;
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
