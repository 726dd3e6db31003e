// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/serial_mean.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <vector>

namespace rillmark {

namespace {

/// A first-order process of standard deviation 1 about `centre`.
std::vector<double> process(std::mt19937_64& random, double neighbour_correlation, int n, double centre) {
    std::normal_distribution<double> normal;
    std::vector<double> values;
    double departure = normal(random);
    for (int i = 0; i < n; ++i) {
        values.push_back(centre + departure);
        departure = neighbour_correlation * departure +
                    std::sqrt(1.0 - neighbour_correlation * neighbour_correlation) * normal(random);
    }
    return values;
}

double coverage(double neighbour_correlation, int n) {
    constexpr int kSeries = 2000;
    constexpr double kCentre = 95000.0; // digits of a pressure
    std::mt19937_64 random(20240607);
    int held = 0;
    for (int i = 0; i < kSeries; ++i) {
        const SerialMean mean = serial_mean(process(random, neighbour_correlation, n, kCentre));
        held += std::abs(mean.mean - kCentre) <= 2.0 * mean.standard_uncertainty ? 1 : 0;
    }
    return held / static_cast<double>(kSeries);
}

} // namespace

TEST(SerialMean, IndependentReadingsGiveTheTextbookUncertainty) {
    // worked by hand: 1 -1 1 -1, r(1) < 0, so tau = 1; s^2 = 4/3
    const SerialMean mean = serial_mean(std::array{11.0, 9.0, 11.0, 9.0});
    EXPECT_DOUBLE_EQ(mean.mean, 10.0);
    EXPECT_NEAR(mean.scatter, std::sqrt(4.0 / 3.0), 1e-12);
    EXPECT_DOUBLE_EQ(mean.effective_n, 4.0);
    EXPECT_NEAR(mean.standard_uncertainty, std::sqrt(1.0 / 3.0), 1e-12);
}

TEST(SerialMean, NeighboursThatGoTogetherCountAsFewer) {
    // worked by hand: 1 1 -1 -1 1 1 -1 -1 has r(1) = 1/8, r(2) < 0: tau = 1 + 2 (7/8)(1/8) = 39/32
    const SerialMean mean = serial_mean(std::array{1.0, 1.0, -1.0, -1.0, 1.0, 1.0, -1.0, -1.0});
    EXPECT_NEAR(mean.effective_n, 8.0 * 32.0 / 39.0, 1e-12);
    const double u = std::sqrt(8.0 / 7.0 * 7.0 / (8.0 - 39.0 / 32.0) * 39.0 / 32.0 / 8.0);
    EXPECT_NEAR(mean.standard_uncertainty, u, 1e-12);
}

TEST(SerialMean, TheTruthLiesWithinTwoUncertaintiesAsOftenAsStated) {
    // seed above; n (1 - c)/(1 + c) independent readings: 250, 83, 28, 13
    for (const double correlation : {0.0, 0.5, 0.8, 0.9}) {
        const double held = coverage(correlation, 250);
        EXPECT_GE(held, 0.89) << correlation;
        EXPECT_LE(held, 0.97) << correlation;
    }
    // the same readings taken for independent would hold it in a third of the cases; three are too few to tell
    EXPECT_LT(coverage(0.9, 50), 0.8);
    EXPECT_GT(coverage(0.9, 50), 0.65);
}

TEST(SerialMean, ASweepIsWorthHardlyMoreThanOneReading) {
    std::vector<double> sweep;
    for (int i = 0; i < 200; ++i)
        sweep.push_back(0.01 * i);
    const SerialMean mean = serial_mean(sweep);
    EXPECT_LT(mean.effective_n, 6.0);
    EXPECT_GT(mean.standard_uncertainty, mean.scatter / 3.0);
}

TEST(SerialMean, OneReadingAndEqualReadingsHaveNoScatter) {
    const SerialMean one = serial_mean(std::array{101325.0});
    EXPECT_EQ(one.mean, 101325.0);
    EXPECT_EQ(one.scatter, 0.0);
    EXPECT_EQ(one.effective_n, 1.0);
    const SerialMean same = serial_mean(std::vector<double>(50, 0.1));
    EXPECT_EQ(same.standard_uncertainty, 0.0);
    EXPECT_EQ(same.mean, 0.1);
    const SerialMean two = serial_mean(std::array{1.0, 3.0});
    EXPECT_NEAR(two.standard_uncertainty, 1.0, 1e-12);
}

} // namespace rillmark
