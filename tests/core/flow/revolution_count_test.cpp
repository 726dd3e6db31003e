// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/revolution_count.h"

#include <gtest/gtest.h>

namespace rillmark {
namespace {

using Goal = RevolutionCount::Goal;

TEST(RevolutionCount, EndsWithTheFirstTapAfterTheTime) {
    RevolutionCount count(Goal{40.0, {}});
    EXPECT_FALSE(count.running());
    for (int i = 0; i < 45; ++i)
        ASSERT_FALSE(count.tap(100.0 + 0.9 * i)) << i;
    EXPECT_TRUE(count.running());
    EXPECT_EQ(count.count(), 44);
    EXPECT_NEAR(count.elapsed_s(140.0), 40.0, 1e-12);
    const auto result = count.tap(100.0 + 0.9 * 45);
    ASSERT_TRUE(result);
    EXPECT_EQ(result->count, 45);
    EXPECT_NEAR(result->time_s, 40.5, 1e-9); // whole revolutions over their own time: 1/0.9 a second, exactly
    EXPECT_FALSE(count.running());
}

TEST(RevolutionCount, EndsWithASetCount) {
    RevolutionCount count(Goal{{}, 20});
    for (int i = 0; i < 20; ++i)
        ASSERT_FALSE(count.tap(0.5 * i));
    const auto result = count.tap(10.0);
    ASSERT_TRUE(result);
    EXPECT_EQ(result->count, 20);
    EXPECT_NEAR(result->time_s, 10.0, 1e-12);
}

TEST(RevolutionCount, StoppedByHandItEndsAtTheLastTap) {
    RevolutionCount count;
    EXPECT_FALSE(count.stop(1.0));
    count.tap(1.0);
    count.tap(2.0);
    count.tap(3.5);
    const auto result = count.stop(9.0);
    ASSERT_TRUE(result);
    EXPECT_EQ(result->count, 2);
    EXPECT_NEAR(result->time_s, 2.5, 1e-12);
}

TEST(RevolutionCount, ARotorThatStandsIsNoRevolutionOverTheWholeTime) {
    RevolutionCount count;
    count.tap(5.0);
    const auto result = count.stop(65.0);
    ASSERT_TRUE(result);
    EXPECT_EQ(result->count, 0);
    EXPECT_NEAR(result->time_s, 60.0, 1e-12);
}

TEST(RevolutionCount, AnUnsteadyTapCountsOnce) {
    RevolutionCount count;
    count.tap(0.0);
    count.tap(0.02);
    count.tap(1.0);
    count.tap(1.06);
    EXPECT_EQ(count.count(), 1);
    count.tap(1.07);
    EXPECT_EQ(count.count(), 2);
}

TEST(RevolutionCount, ANewCountBeginsAtNothing) {
    RevolutionCount count(Goal{{}, 2});
    count.tap(0.0);
    count.tap(1.0);
    ASSERT_TRUE(count.tap(2.0));
    EXPECT_FALSE(count.tap(10.0));
    EXPECT_EQ(count.count(), 0);
    EXPECT_TRUE(count.running());
}

} // namespace
} // namespace rillmark
