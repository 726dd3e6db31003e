// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/interpolated_variance.h"

#include "flow/velocity_area.h"
#include "flow_fixtures.h"

#include <cmath>
#include <random>

namespace rillmark {
namespace {

using flow_fixtures::bank;
using flow_fixtures::one_point;

// The formula is from memory, unconfirmed: what is tested is that it estimates the variance of single values.
TEST(InterpolatedVariance, ScatterOfKnownNoise) {
    const unsigned seed = 99;
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    std::normal_distribution<double> noise(0.0, 0.03);
    std::uniform_real_distribution<double> step(0.1, 1.0);
    NeighbourScatter all;
    for (int turn = 0; turn < 2000; ++turn) {
        std::vector<PlacedValue> values;
        double x = 0.0;
        for (int i = 0; i < 20; ++i) {
            x += step(random);
            values.push_back({x, 0.5 + 0.1 * x + noise(random)});
        }
        const NeighbourScatter one = neighbour_scatter(values);
        EXPECT_EQ(one.count, 18);
        all.sum_of_squares += one.sum_of_squares;
        all.count += one.count;
    }
    EXPECT_NEAR(std::sqrt(all.sum_of_squares / all.count), 0.03, 0.0006);
}

TEST(InterpolatedVariance, StraightLinesAndFewValuesHaveNone) {
    EXPECT_NEAR(
        neighbour_scatter(std::vector<PlacedValue>{{0.0, 1.0}, {1.0, 2.0}, {3.0, 4.0}, {3.5, 4.5}}).sum_of_squares, 0.0,
        1e-28);
    EXPECT_EQ(neighbour_scatter({}).count, 0);
    EXPECT_EQ(neighbour_scatter(std::vector<PlacedValue>{{0.0, 1.0}, {1.0, 2.0}}).count, 0);
    // By hand, even spacing: D = 1 - (0 + 0)/2, divided by 1 + 1/4 + 1/4.
    EXPECT_NEAR(neighbour_scatter(std::vector<PlacedValue>{{0.0, 0.0}, {1.0, 1.0}, {2.0, 0.0}}).sum_of_squares,
                1.0 / 1.5, 1e-15);
}

std::vector<Vertical> even_section(int count) {
    std::vector<Vertical> section{bank(0.0)};
    for (int i = 1; i <= count; ++i)
        section.push_back(one_point(0.2 * i, 0.5, 0.4));
    section.push_back(bank(0.2 * (count + 1)));
    return section;
}

TEST(InterpolatedVariance, EvenWaterLeavesWhatIsSystematic) {
    const auto result = velocity_area(even_section(20));
    ASSERT_TRUE(result.ok() && result->by_interpolation);
    const Estimate flow = result->by_interpolation->estimate;
    EXPECT_EQ(flow.value, result->flow.discharge.estimate.value);
    EXPECT_NEAR(flow.standard_uncertainty / flow.value, iso748::kSystematic, 1e-12);
}

TEST(InterpolatedVariance, OneWrongVelocityShows) {
    auto section = even_section(20);
    const double even = velocity_area(section)->by_interpolation->estimate.standard_uncertainty;
    section[9].points[0].velocity_ms = 0.8;
    EXPECT_GT(velocity_area(section)->by_interpolation->estimate.standard_uncertainty, 2.0 * even);
}

TEST(InterpolatedVariance, NeedsVerticalsBetweenVerticals) {
    EXPECT_FALSE(velocity_area(even_section(6))->by_interpolation);
    EXPECT_TRUE(velocity_area(even_section(7))->by_interpolation);
    // Two parts of six: four with neighbours in each, eight in all.
    auto parts = even_section(6);
    for (const Vertical& at : even_section(6)) {
        parts.push_back(at);
        parts.back().distance_m += 10.0;
    }
    EXPECT_TRUE(velocity_area(parts)->by_interpolation);
}

} // namespace
} // namespace rillmark
