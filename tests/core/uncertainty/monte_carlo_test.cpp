// SPDX-License-Identifier: GPL-3.0-or-later
#include "uncertainty/monte_carlo.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace rillmark {
namespace {

constexpr std::uint64_t kSeed = 101;

std::vector<ModelInput> two_inputs(double u1, double u2) {
    return {{"flow.a", {}, {10.0, u1}}, {"flow.b", {}, {4.0, u2}}};
}

double sum(std::span<const double> x) {
    return x[0] + x[1];
}

TEST(MonteCarlo, DrawsHaveTheMomentsOfTheNormalDistribution) {
    std::mt19937_64 engine(kSeed);
    NormalDraws normal(engine);
    constexpr int kCount = 400'000;
    double moments[5] = {};
    int beyond_two = 0;
    for (int i = 0; i < kCount; ++i) {
        const double z = normal.next();
        for (int power = 1; power < 5; ++power)
            moments[power] += std::pow(z, power) / kCount;
        beyond_two += std::abs(z) > 2.0 ? 1 : 0;
    }
    // five standard deviations of each mean
    const double root = 5.0 / std::sqrt(double{kCount});
    EXPECT_NEAR(moments[1], 0.0, root);
    EXPECT_NEAR(moments[2], 1.0, root * std::sqrt(2.0));
    EXPECT_NEAR(moments[3], 0.0, root * std::sqrt(15.0));
    EXPECT_NEAR(moments[4], 3.0, root * std::sqrt(96.0));
    EXPECT_NEAR(beyond_two / double{kCount}, 0.0455, 0.002);
}

TEST(MonteCarlo, ARectangularInputHasItsLimitsAndItsSpread) {
    std::mt19937_64 engine(kSeed);
    const std::vector<ModelInput> one = {{"power.bore", {}, {10.0, 1.0}}};
    double lowest = 10.0;
    double highest = 10.0;
    DrawOptions options;
    options.rectangular = {0, 7}; // there is no eighth: passed over
    const auto seen = [&](std::span<const double> x) {
        lowest = std::min(lowest, x[0]);
        highest = std::max(highest, x[0]);
        return x[0];
    };
    const DrawnEstimate drawn = draw_estimate(one, seen, engine, options).value();
    EXPECT_NEAR(drawn.estimate.value, 10.0, 5.0 / std::sqrt(1e5));
    EXPECT_NEAR(drawn.estimate.standard_uncertainty, 1.0, 0.01);
    EXPECT_GE(lowest, 10.0 - std::sqrt(3.0));
    EXPECT_LE(highest, 10.0 + std::sqrt(3.0));
    // 95.45 % of it lie within sqrt(3) times that: narrower than +/- 2, by more than a twentieth
    EXPECT_NEAR(drawn.high, 10.0 + 0.9545 * std::sqrt(3.0), 0.02);
    EXPECT_TRUE(first_order_differs(one[0].estimate, drawn));
}

TEST(MonteCarlo, ASumIsKnownExactly) {
    std::mt19937_64 engine(kSeed);
    const DrawnEstimate drawn = draw_estimate(two_inputs(0.3, 0.4), sum, engine).value();
    EXPECT_EQ(drawn.draws, kUsualDraws);
    EXPECT_NEAR(drawn.estimate.value, 14.0, 5.0 * 0.5 / std::sqrt(1e5));
    EXPECT_NEAR(drawn.estimate.standard_uncertainty, 0.5, 0.01 * 0.5);
    EXPECT_NEAR(drawn.low, 13.0, 0.04 * 0.5);
    EXPECT_NEAR(drawn.high, 15.0, 0.04 * 0.5);
    EXPECT_FALSE(first_order_differs(propagate(two_inputs(0.3, 0.4), sum).value().estimate, drawn));
}

TEST(MonteCarlo, TheSameSeedGivesTheSameFigures) {
    std::mt19937_64 one(kSeed);
    std::mt19937_64 two(kSeed);
    std::mt19937_64 other(kSeed + 1);
    const DrawnEstimate a = draw_estimate(two_inputs(0.3, 0.4), sum, one).value();
    const DrawnEstimate b = draw_estimate(two_inputs(0.3, 0.4), sum, two).value();
    const DrawnEstimate c = draw_estimate(two_inputs(0.3, 0.4), sum, other).value();
    EXPECT_EQ(a.estimate.value, b.estimate.value);
    EXPECT_EQ(a.low, b.low);
    EXPECT_NE(a.estimate.value, c.estimate.value);
}

TEST(MonteCarlo, ACurvedModelTellsAnotherStoryThanFirstOrder) {
    // A square around zero: its first derivative is nothing there, its mean is not.
    const std::vector<ModelInput> inputs = {{"flow.a", {}, {0.5, 1.0}}};
    const auto square = [](std::span<const double> x) { return x[0] * x[0]; };
    std::mt19937_64 engine(kSeed);
    const DrawnEstimate drawn = draw_estimate(inputs, square, engine).value();
    EXPECT_NEAR(drawn.estimate.value, 1.25, 0.03);                          // value^2 + u^2
    EXPECT_NEAR(drawn.estimate.standard_uncertainty, std::sqrt(3.0), 0.03); // sqrt(2 u^4 + 4 value^2 u^2)
    EXPECT_TRUE(first_order_differs(propagate(inputs, square).value().estimate, drawn));
}

TEST(MonteCarlo, TellsItsProgressAndStops) {
    std::mt19937_64 engine(kSeed);
    std::vector<double> told;
    DrawOptions options{10'000, [&](double done) {
                            told.push_back(done);
                            return true;
                        },
                        {}};
    ASSERT_TRUE(draw_estimate(two_inputs(0.3, 0.4), sum, engine, options));
    ASSERT_EQ(told.size(), 5U);
    EXPECT_EQ(told.front(), 0.0);
    EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
    options.keep_going = [](double done) { return done < 0.5; };
    EXPECT_EQ(draw_estimate(two_inputs(0.3, 0.4), sum, engine, options).error().code, "uncertainty.cancelled");
}

TEST(MonteCarlo, RefusesWhatCannotBe) {
    std::mt19937_64 engine(kSeed);
    constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(draw_estimate(two_inputs(kNan, 0.4), sum, engine).error().code, "uncertainty.not_finite");
    EXPECT_EQ(draw_estimate(two_inputs(-0.1, 0.4), sum, engine).error().code, "uncertainty.negative");
    for (const std::size_t bad : {std::size_t{0}, std::size_t{999}, std::size_t{10'000'001}})
        EXPECT_EQ(draw_estimate(two_inputs(0.3, 0.4), sum, engine, {bad, {}, {}}).error().code, "uncertainty.bad_draws");
    const auto root = [](std::span<const double> x) { return std::sqrt(x[0] - 10.0); };
    EXPECT_EQ(draw_estimate(two_inputs(0.3, 0.4), root, engine).error().code, "uncertainty.draw_without_result");
    const DrawnEstimate exact = draw_estimate(two_inputs(0.0, 0.0), sum, engine).value();
    EXPECT_EQ(exact.estimate.value, 14.0);
    EXPECT_EQ(exact.estimate.standard_uncertainty, 0.0);
}

} // namespace
} // namespace rillmark
