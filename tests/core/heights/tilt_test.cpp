// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/tilt.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <vector>

namespace rillmark {

namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kDegree = std::numbers::pi / 180.0;

/// A phone held at rest with its top raised by `elevation`, rolled about its long edge.
TiltSample held(double elevation_rad, double roll_rad = 0.0) {
    const double across = 9.81 * std::cos(elevation_rad);
    return {across * std::sin(roll_rad), 9.81 * std::sin(elevation_rad), across * std::cos(roll_rad)};
}

std::vector<TiltSample> hand(std::mt19937_64& random, double elevation_rad, double tremor_ms2, std::size_t n = 200) {
    std::normal_distribution<double> tremor(0.0, tremor_ms2);
    std::vector<TiltSample> samples(n, held(elevation_rad, 0.3));
    for (TiltSample& sample : samples) {
        sample.x_ms2 += tremor(random);
        sample.y_ms2 += tremor(random);
        sample.z_ms2 += tremor(random);
    }
    return samples;
}

} // namespace

TEST(Tilt, ElevationOfTheLongEdge) {
    EXPECT_EQ(*elevation_rad({0.0, 0.0, 9.81}, SightAxis::TowardsTop), 0.0);                     // flat on a table
    EXPECT_NEAR(*elevation_rad({0.0, 9.81, 0.0}, SightAxis::TowardsTop), 90.0 * kDegree, 1e-15); // upright
    EXPECT_NEAR(*elevation_rad({0.0, -9.81, 0.0}, SightAxis::TowardsTop), -90.0 * kDegree, 1e-15);
    // sides 3, 4, 5
    EXPECT_NEAR(*elevation_rad({0.0, 3.0, 4.0}, SightAxis::TowardsTop), std::asin(0.6), 1e-15);
    EXPECT_NEAR(*elevation_rad({3.0, 0.0, -4.0}, SightAxis::TowardsRight), std::asin(0.6), 1e-15);
}

TEST(Tilt, RollAndTheLengthOfTheVectorDoNotMatter) {
    for (const double elevation : {-80.0, -12.5, 0.0, 3.0, 45.0, 89.9})
        for (const double roll : {-170.0, -90.0, 0.0, 31.0, 90.0}) {
            TiltSample sample = held(elevation * kDegree, roll * kDegree);
            EXPECT_NEAR(*elevation_rad(sample, SightAxis::TowardsTop), elevation * kDegree, 1e-13);
            sample.x_ms2 *= 1.03;
            sample.y_ms2 *= 1.03;
            sample.z_ms2 *= 1.03;
            EXPECT_NEAR(*elevation_rad(sample, SightAxis::TowardsTop), elevation * kDegree, 1e-13);
        }
}

TEST(Tilt, TheMeanOfAHeldSightHoldsTheTruthAsOftenAsStated) {
    constexpr double kElevation = 8.0 * kDegree;
    constexpr int kSights = 500;
    std::mt19937_64 random(77);
    int covered = 0;
    for (int i = 0; i < kSights; ++i) {
        const Expected<AveragedTilt> tilt = average_tilt(hand(random, kElevation, 0.15), SightAxis::TowardsTop);
        ASSERT_TRUE(tilt.ok());
        covered +=
            std::abs(tilt->elevation_rad.value - kElevation) <= 2.0 * tilt->elevation_rad.standard_uncertainty ? 1 : 0;
    }
    // never less than stated; here the floor is not above the scatter's part (0.15/9.81/sqrt(200) = 0.00108 rad)
    EXPECT_GE(covered, kSights * 92 / 100);
    EXPECT_LE(covered, kSights * 99 / 100);
}

TEST(Tilt, ReportsScatterCountAndFeltGravity) {
    std::vector<TiltSample> samples;
    for (int i = 0; i < 20; ++i)
        samples.push_back(held((i % 2 == 0 ? 5.4 : 4.6) * kDegree));
    const Expected<AveragedTilt> tilt = average_tilt(samples, SightAxis::TowardsTop);
    ASSERT_TRUE(tilt.ok());
    EXPECT_NEAR(tilt->elevation_rad.value, 5.0 * kDegree, 1e-9);
    EXPECT_NEAR(tilt->scatter_rad, 0.4 * kDegree * std::sqrt(20.0 / 19.0), 1e-9);
    EXPECT_NEAR(tilt->elevation_rad.standard_uncertainty, 0.4 * kDegree / std::sqrt(19.0), 1e-4 * kDegree);
    EXPECT_NEAR(tilt->felt_ms2, 9.81, 1e-12);
    EXPECT_EQ(tilt->n, 20u);
    EXPECT_TRUE(tilt->findings.empty());
}

TEST(Tilt, AMeanIsNeverBetterThanTheFloor) {
    const std::vector<TiltSample> still(500, held(4.0 * kDegree));
    const Expected<AveragedTilt> tilt = average_tilt(still, SightAxis::TowardsTop);
    EXPECT_EQ(tilt->elevation_rad.standard_uncertainty, kTiltFloor_rad);
}

TEST(Tilt, AMovingDeviceIsRefused) {
    std::mt19937_64 random(5);
    EXPECT_EQ(average_tilt(hand(random, 0.1, 0.5), SightAxis::TowardsTop).error().code, "levels.tilt_moving");
    // across the pull of gravity the length hardly changes, the angle does
    std::vector<TiltSample> swaying;
    for (int i = 0; i < 40; ++i)
        swaying.push_back(held((i % 2 == 0 ? 3.0 : -3.0) * kDegree));
    EXPECT_EQ(average_tilt(swaying, SightAxis::TowardsTop).error().code, "levels.tilt_unsteady");
    std::vector<TiltSample> lifted(50, held(0.1));
    for (TiltSample& sample : lifted)
        sample.z_ms2 += 0.8;
    EXPECT_EQ(average_tilt(lifted, SightAxis::TowardsTop).error().code, "levels.tilt_not_gravity");
    const std::vector<TiltSample> falling(50, TiltSample{0.0, 0.1, 0.0});
    EXPECT_EQ(average_tilt(falling, SightAxis::TowardsTop).error().code, "levels.tilt_not_gravity");
}

TEST(Tilt, ASlowSwayIsAShortHold) {
    std::vector<TiltSample> sweep;
    for (int i = 0; i < 100; ++i)
        sweep.push_back(held((5.0 + 0.01 * i) * kDegree));
    const Expected<AveragedTilt> tilt = average_tilt(sweep, SightAxis::TowardsTop);
    ASSERT_TRUE(tilt.ok());
    ASSERT_EQ(tilt->findings.size(), 1u);
    EXPECT_EQ(tilt->findings.front().code, "levels.tilt_short_hold");
}

TEST(Tilt, BadReadingsAreRefused) {
    EXPECT_EQ(average_tilt({}, SightAxis::TowardsTop).error().code, "levels.tilt_too_few");
    EXPECT_EQ(average_tilt(std::vector<TiltSample>(9, held(0.1)), SightAxis::TowardsTop).error().code,
              "levels.tilt_too_few");
    for (const TiltSample bad : {TiltSample{kNan, 0.0, 9.81}, {0.0, kInfinity, 0.0}, {0.0, 0.0, 0.0}}) {
        std::vector<TiltSample> samples(30, held(0.1));
        samples[17] = bad;
        EXPECT_EQ(average_tilt(samples, SightAxis::TowardsTop).error().code, "levels.tilt_bad_reading");
        EXPECT_FALSE(elevation_rad(bad, SightAxis::TowardsRight).ok());
    }
}

TEST(Tilt, HugeReadingsAreNotGravity) {
    const std::vector<TiltSample> huge(30, TiltSample{1e200, 1e200, 1e200});
    EXPECT_EQ(average_tilt(huge, SightAxis::TowardsTop).error().code, "levels.tilt_not_gravity");
}

TEST(TiltIndex, TwoPositionsPartTheIndexFromTheSurface) {
    // worked by hand: a surface of +1.2 degrees, an index of -0.7: shown 0.5, and turned -1.9
    const Expected<TiltIndex> index = tilt_index({0.5 * kDegree, 0.03 * kDegree}, {-1.9 * kDegree, 0.04 * kDegree});
    ASSERT_TRUE(index.ok());
    EXPECT_NEAR(index->index_rad.value, -0.7 * kDegree, 1e-15);
    EXPECT_NEAR(index->surface_rad.value, 1.2 * kDegree, 1e-15);
    EXPECT_NEAR(index->index_rad.standard_uncertainty, 0.025 * kDegree, 1e-15);
    EXPECT_EQ(index->surface_rad.standard_uncertainty, index->index_rad.standard_uncertainty);
}

TEST(TiltIndex, FindsTheOffsetOfASensorWhateverTheSurface) {
    std::mt19937_64 random(11);
    std::uniform_real_distribution<double> surface_deg(-4.0, 4.0);
    std::uniform_real_distribution<double> offset_ms2(-0.3, 0.3);
    for (int i = 0; i < 200; ++i) {
        const double surface = surface_deg(random) * kDegree;
        const double offset = offset_ms2(random);
        const auto felt = [offset](double elevation) {
            TiltSample sample = held(elevation);
            sample.y_ms2 += offset;
            return Estimate{*elevation_rad(sample, SightAxis::TowardsTop), 0.001};
        };
        const Expected<TiltIndex> index = tilt_index(felt(surface), felt(-surface));
        ASSERT_TRUE(index.ok());
        EXPECT_NEAR(index->index_rad.value, std::atan(offset / 9.81), 0.02 * kDegree);
        EXPECT_NEAR(index->surface_rad.value, surface, 0.02 * kDegree);
    }
}

TEST(TiltIndex, WhatIsNoCheckIsRefused) {
    const Estimate level{0.0, 0.001};
    EXPECT_EQ(tilt_index({0.2, 0.001}, {0.2, 0.001}).error().code, "levels.tilt_index_large"); // not turned
    EXPECT_EQ(tilt_index({0.2, 0.001}, {-0.2, 0.001}).error().code, "levels.tilt_surface_steep");
    for (const Estimate bad :
         {Estimate{kNan, 0.001}, {kInfinity, 0.001}, {2.0, 0.001}, {0.0, -0.001}, {0.0, kNan}, {0.0, kInfinity}}) {
        EXPECT_EQ(tilt_index(bad, level).error().code, "levels.tilt_bad_angle");
        EXPECT_EQ(tilt_index(level, bad).error().code, "levels.tilt_bad_angle");
    }
}

} // namespace rillmark
