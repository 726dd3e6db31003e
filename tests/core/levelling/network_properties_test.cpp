// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/height_network.h"

#include "networks.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace rillmark;
using namespace rillmark::networks;

namespace {

constexpr unsigned kSeed = 20250117;
constexpr double kRelative = 1e-6; // of a standard uncertainty

class RandomNetworks : public ::testing::Test {
protected:
    std::mt19937 random{kSeed};
    ::testing::ScopedTrace trace{__FILE__, __LINE__, "seed " + std::to_string(kSeed)};
};

} // namespace

TEST_F(RandomNetworks, AgreeWithDenseNormalEquations) {
    for (int round = 0; round < 200; ++round) {
        const RandomNetwork given = random_network(random, 3 + round % 58, round % 97);
        const DenseSolution dense = solve_dense(given);
        const auto network = adjust(given.differences, given.known);
        ASSERT_TRUE(network);
        ASSERT_EQ(network->heights().size(), dense.index.size() + 1);
        for (const PointHeight& h : network->heights()) {
            EXPECT_NEAR(h.height.value, static_cast<double>(dense.height(h.point)), kAdjustmentError_m);
            const double wanted = dense.deviation(dense.fixed_point, h.point);
            EXPECT_NEAR(h.height.standard_uncertainty, wanted, kRelative * wanted);
        }
        const auto falls = network->falls_below("P1");
        ASSERT_TRUE(falls);
        for (const PointHeight& fall : *falls) {
            const double wanted = dense.deviation(fall.point, "P1");
            EXPECT_NEAR(fall.height.value, static_cast<double>(dense.height("P1") - dense.height(fall.point)),
                        2.0 * kAdjustmentError_m);
            EXPECT_NEAR(fall.height.standard_uncertainty, wanted, kRelative * wanted);
            const Estimate difference = network->difference(fall.point, "P1").value();
            EXPECT_NEAR(difference.standard_uncertainty, wanted, kRelative * wanted);
            EXPECT_EQ(difference.value, fall.height.value);
        }
        for (std::size_t i = 0; i < given.differences.size(); ++i) {
            const HeightDifference& d = given.differences[i];
            const double adjusted_u = dense.deviation(d.from, d.to);
            const double ratio = adjusted_u / d.standard_uncertainty_m;
            EXPECT_NEAR(network->observations()[i].redundancy, 1.0 - ratio * ratio, 1e-6);
        }
    }
}

TEST_F(RandomNetworks, BudgetIsThePartOfEachObservationInTheVariance) {
    for (int round = 0; round < 20; ++round) {
        const RandomNetwork given = random_network(random, 20, 25);
        const auto budget = adjust(given.differences, given.known)->difference_budget("P3", "P17");
        ASSERT_TRUE(budget);
        double variance = 0.0;
        double share = 0.0;
        for (const BudgetLine& line : budget->budget) {
            variance += line.contribution * line.contribution;
            share += line.share;
        }
        const double u = budget->difference.standard_uncertainty;
        EXPECT_NEAR(std::sqrt(variance), u, kRelative * u);
        EXPECT_NEAR(share, 1.0, 1e-9);
        // Independently: move the leading reading by its uncertainty, and the difference moves by its contribution.
        RandomNetwork moved = given;
        const std::int64_t id = budget->ids.front();
        if (id == 0)
            continue;
        HeightDifference& leading = moved.differences[static_cast<std::size_t>(id - 1)];
        leading.rise_m += leading.standard_uncertainty_m;
        const Estimate after = adjust(moved.differences, moved.known)->difference("P3", "P17").value();
        EXPECT_NEAR(std::abs(after.value - budget->difference.value), budget->budget.front().contribution, 1e-8);
    }
}

TEST_F(RandomNetworks, ShiftOfTheDatumShiftsEveryHeight) {
    const RandomNetwork given = random_network(random, 40, 40);
    std::vector<KnownHeight> shifted = given.known;
    for (KnownHeight& k : shifted)
        k.height.value += 1000.0;
    const auto before = adjust(given.differences, given.known);
    const auto after = adjust(given.differences, shifted);
    ASSERT_TRUE(before && after);
    for (const PointHeight& h : before->heights()) {
        EXPECT_NEAR(after->height(h.point)->value - h.height.value, 1000.0, kAdjustmentError_m);
        EXPECT_EQ(after->height(h.point)->standard_uncertainty, h.height.standard_uncertainty);
    }
    EXPECT_NEAR(after->global_test()->value, before->global_test()->value, 1e-6);
}

TEST_F(RandomNetworks, AnObservationSplitInTwoChangesNothing) {
    for (int round = 0; round < 20; ++round) {
        const RandomNetwork given = random_network(random, 15, 15);
        std::vector<HeightDifference> split = given.differences;
        HeightDifference half = split[5];
        half.standard_uncertainty_m *= std::sqrt(2.0); // twice the variance
        split[5] = half;
        split.push_back(half);
        const auto before = adjust(given.differences, given.known);
        const auto after = adjust(split, given.known);
        ASSERT_TRUE(before && after);
        for (const PointHeight& h : before->heights()) {
            EXPECT_NEAR(after->height(h.point)->value, h.height.value, kAdjustmentError_m);
            EXPECT_NEAR(after->height(h.point)->standard_uncertainty, h.height.standard_uncertainty, 1e-10);
        }
    }
}

TEST_F(RandomNetworks, ObservationTurnedRoundChangesNothing) {
    const RandomNetwork given = random_network(random, 25, 30);
    std::vector<HeightDifference> turned = given.differences;
    for (std::size_t i = 0; i < turned.size(); i += 2) {
        std::swap(turned[i].from, turned[i].to);
        turned[i].rise_m = -turned[i].rise_m;
    }
    const auto before = adjust(given.differences, given.known);
    const auto after = adjust(turned, given.known);
    ASSERT_TRUE(before && after);
    for (const PointHeight& h : before->heights())
        EXPECT_NEAR(after->height(h.point)->value, h.height.value, kAdjustmentError_m);
    EXPECT_NEAR(after->global_test()->value, before->global_test()->value, 1e-6);
}

TEST_F(RandomNetworks, RedundanciesSumToTheDegreesOfFreedom) {
    for (int round = 0; round < 20; ++round) {
        const RandomNetwork given = random_network(random, 30, 3 * round + 1);
        const auto network = adjust(given.differences, given.known);
        ASSERT_TRUE(network);
        double sum = 0.0;
        for (const AdjustedObservation& o : network->observations())
            sum += o.redundancy;
        EXPECT_NEAR(sum, static_cast<double>(network->global_test()->degrees_of_freedom), 1e-5);
    }
}

TEST_F(RandomNetworks, HonestReadingsPassTheGlobalTestNineteenTimesInTwenty) {
    int failed = 0;
    constexpr int kRounds = 400;
    for (int round = 0; round < kRounds; ++round) {
        RandomNetwork given = random_network(random, 12, 12);
        given.known.pop_back(); // its height is 0.1 m off on purpose
        failed += adjust(given.differences, given.known)->global_test()->passes() ? 0 : 1;
    }
    // 5 % of 400 is 20 with a standard deviation of 4.4; four of these either way.
    EXPECT_NEAR(failed, 20, 18);
}

TEST_F(RandomNetworks, PlantedErrorOfTenDeviationsIsFlagged) {
    int planted = 0;
    int flagged = 0;
    while (planted < 400) {
        RandomNetwork given = random_network(random, 15, 25);
        given.known.pop_back(); // its height is 0.1 m off on purpose
        const auto clean = adjust(given.differences, given.known);
        ASSERT_TRUE(clean);
        std::uniform_int_distribution<std::size_t> any(0, given.differences.size() - 1);
        const std::size_t which = any(random);
        if (clean->observations()[which].redundancy <= 0.5)
            continue;
        HeightDifference& wrong = given.differences[which];
        wrong.rise_m += (planted % 2 == 0 ? 10.0 : -10.0) * wrong.standard_uncertainty_m;
        ++planted;
        flagged += adjust(given.differences, given.known)->observations()[which].outlier ? 1 : 0;
    }
    EXPECT_GE(flagged, 380); // 95 % of 400
}

TEST_F(RandomNetworks, SmallestErrorFoundIsFoundFourTimesInFive) {
    int found = 0;
    constexpr int kRounds = 600;
    for (int round = 0; round < kRounds;) {
        RandomNetwork given = random_network(random, 8, 12);
        given.known.pop_back(); // its height is 0.1 m off on purpose
        const AdjustedObservation clean = adjust(given.differences, given.known)->observations()[3];
        if (clean.redundancy < 0.1)
            continue;
        ++round;
        ASSERT_TRUE(clean.smallest_found_m);
        given.differences[3].rise_m += *clean.smallest_found_m;
        found += adjust(given.differences, given.known)->observations()[3].outlier ? 1 : 0;
    }
    // 80 % of 600 is 480 with a standard deviation of 9.8; four of these either way
    EXPECT_NEAR(found, 480, 40);
}

TEST_F(RandomNetworks, UncertaintyWithAPlannedReadingIsWhatTheReadingThenGives) {
    for (int round = 0; round < 20; ++round) {
        RandomNetwork given = random_network(random, 20, 10);
        const auto network = adjust(given.differences, given.known);
        ASSERT_TRUE(network);
        const std::vector<PlannedDifference> planned = {{"P2", "P11", 0.01}, {"P0", "P5", 0.2}, {"P4", "nowhere", 0.1}};
        const auto with_each = network->uncertainty_with("P2", "P9", planned);
        ASSERT_TRUE(with_each);
        for (std::size_t i = 0; i < 2; ++i) {
            std::vector<HeightDifference> more = given.differences;
            more.push_back(difference(999, planned[i].from, planned[i].to, 1.0, planned[i].standard_uncertainty_m));
            const double measured = adjust(more, given.known)->difference("P2", "P9")->standard_uncertainty;
            EXPECT_NEAR((*with_each)[i], measured, kRelative * measured);
        }
        EXPECT_DOUBLE_EQ((*with_each)[2], network->difference("P2", "P9")->standard_uncertainty);
    }
}
