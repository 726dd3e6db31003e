// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/sight_observations.h"

#include "books.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

using namespace rillmark;
using namespace rillmark::books;

namespace {

std::vector<Sight> numbered(std::vector<Sight> sights) {
    for (std::size_t i = 0; i < sights.size(); ++i)
        sights[i].id = static_cast<std::int64_t>(i) + 101;
    return sights;
}

/// Intake to powerhouse in two set-ups with an intermediate sight, and back in one.
std::vector<Sight> line() {
    return numbered({bs("intake", 0.5), is("bend", 2.1), fs("CP", 4.0), bs("CP", 0.3), fs("house", 4.2),
                     bs("house", 4.6), fs("intake", -2.8)});
}

} // namespace

TEST(SightObservations, LevelsAreThoseOfTheBook) {
    for (const char* id : {"lev-rf-tbm175", "lev-both-acet108", "lev-rf-chain-380", "lev-hpc-usm"}) {
        SCOPED_TRACE(id);
        const auto check = checks::entry("levelling", id);
        const double start_m = check.at("inputs").at("start_rl_m");
        const std::vector<Sight> sights = sights_of(check.at("inputs").at("rows"));
        const auto book = reduce(sights, start_m);
        const auto observations = observations_of(sights, "book");
        ASSERT_TRUE(book && observations);
        const auto network = adjust(*observations, {{sights[0].point, {start_m, 0.0}, true}});
        ASSERT_TRUE(network);
        EXPECT_EQ(network->heights().size(), book->rows.size()); // no set-ups among them
        for (const BookRow& row : book->rows)
            EXPECT_NEAR(network->height(row.point)->value, row.reduced_level_m, kAdjustmentError_m) << row.point;
    }
}

TEST(SightObservations, OneReadingEach) {
    std::vector<Sight> sights = line();
    sights[0].distance_m = 40.0;
    const auto observations = observations_of(sights, "b", {0.002, 1e-4});
    ASSERT_TRUE(observations);
    ASSERT_EQ(observations->size(), sights.size());
    const HeightDifference& first = observations->front();
    EXPECT_EQ(first.id, 101);
    EXPECT_EQ(first.from, "intake");
    EXPECT_TRUE(is_instrument_node(first.to));
    EXPECT_EQ(first.to, instrument_node("b", 1));
    EXPECT_EQ(first.rise_m, 0.5);
    EXPECT_EQ(first.source, "levels.staff_reading");
    EXPECT_EQ(first.subject, "intake");
    EXPECT_NEAR(first.standard_uncertainty_m, std::hypot(0.002, 0.004), 1e-15);
    EXPECT_EQ((*observations)[1].standard_uncertainty_m, 0.002);
    EXPECT_EQ((*observations)[2].rise_m, -4.0);
    EXPECT_EQ((*observations)[3].to, instrument_node("b", 2));
    EXPECT_EQ((*observations)[4].from, instrument_node("b", 2));
    EXPECT_NE(instrument_node("a", 1), instrument_node("b", 1));
    EXPECT_FALSE(is_instrument_node(""));
    EXPECT_FALSE(is_instrument_node("b#1"));
}

TEST(SightObservations, HeadWithItsUncertaintyByHand) {
    // Only the way down: four readings, u = 2 mm each.
    std::vector<Sight> down = line();
    down.resize(5);
    const auto open = adjust(observations_of(down, "b", {0.002, 0.0}).value());
    ASSERT_TRUE(open);
    EXPECT_NEAR(open->difference("house", "intake")->value, 7.4, 1e-12);
    EXPECT_NEAR(open->difference("house", "intake")->standard_uncertainty, 0.004, 1e-12);
    // And back in one set-up (2 readings, variance half of that): mean of 7.4 (weight 1) and 7.4 (weight 2).
    const auto closed = adjust(observations_of(line(), "b", {0.002, 0.0}).value());
    ASSERT_TRUE(closed);
    EXPECT_NEAR(closed->difference("house", "intake")->value, 7.4, 1e-12);
    EXPECT_NEAR(closed->difference("house", "intake")->standard_uncertainty, std::sqrt(16e-6 * 8e-6 / 24e-6), 1e-12);
    EXPECT_EQ(closed->global_test()->degrees_of_freedom, 1U);
    const auto budget = closed->difference_budget("house", "intake");
    ASSERT_TRUE(budget);
    ASSERT_EQ(budget->ids.size(), 6U);                           // the intermediate sight has no part in it
    EXPECT_TRUE(budget->ids[0] == 106 || budget->ids[0] == 107); // a reading of the single set-up back
}

TEST(SightObservations, SightsOfOneSetUpShareItsBacksight) {
    const auto network =
        adjust(observations_of(numbered({bs("A", 1.0), is("B", 2.0), fs("C", 3.0)}), "b", {0.002, 0.0}).value());
    ASSERT_TRUE(network);
    // Every difference within a set-up rests on two readings, also that of two points that share the backsight.
    for (const auto& [from, to] : {std::pair("A", "B"), std::pair("A", "C"), std::pair("B", "C")})
        EXPECT_NEAR(network->difference(from, to)->standard_uncertainty, 0.002 * std::sqrt(2.0), 1e-12);
}

TEST(SightObservations, RunBackwardsGivesMinusTheHead) {
    std::vector<Sight> sights = line();
    sights.resize(5);
    std::vector<Sight> back(sights.rbegin(), sights.rend());
    for (Sight& s : back)
        if (s.kind != SightKind::Intermediate)
            s.kind = s.kind == SightKind::Backsight ? SightKind::Foresight : SightKind::Backsight;
    const Estimate there = adjust(observations_of(sights, "b").value())->difference("intake", "house").value();
    const Estimate returned = adjust(observations_of(back, "b").value())->difference("house", "intake").value();
    EXPECT_NEAR(there.value, -returned.value, 1e-12);
    EXPECT_NEAR(there.standard_uncertainty, returned.standard_uncertainty, 1e-12);
}

TEST(SightObservations, StruckSightsAreNoObservations) {
    std::vector<Sight> sights = line();
    Sight wrong = is("bend", 3.1);
    wrong.id = 200;
    wrong.struck = true;
    sights.insert(sights.begin() + 1, wrong);
    Sight wrong_setup = bs("CP", 9.0);
    wrong_setup.struck = true;
    sights.insert(sights.begin() + 4, wrong_setup);
    const auto with = observations_of(sights, "b");
    const auto without = observations_of(line(), "b");
    ASSERT_TRUE(with && without);
    ASSERT_EQ(with->size(), without->size());
    for (std::size_t i = 0; i < with->size(); ++i) {
        EXPECT_EQ((*with)[i].id, (*without)[i].id);
        EXPECT_EQ((*with)[i].from, (*without)[i].from);
        EXPECT_EQ((*with)[i].to, (*without)[i].to);
    }
}

TEST(SightObservations, Refusals) {
    EXPECT_EQ(observations_of({}, "b").error().code, "levels.book_empty");
    EXPECT_EQ(observations_of({fs("A", 1.0)}, "b").error().code, "levels.no_setup");
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const double bad : {0.0, -0.001, nan, std::numeric_limits<double>::infinity()})
        EXPECT_EQ(observations_of(line(), "b", {bad, 0.0}).error().code, "levels.uncertainty_impossible") << bad;
    for (const double bad : {-1e-5, nan, std::numeric_limits<double>::infinity()})
        EXPECT_EQ(observations_of(line(), "b", {0.001, bad}).error().code, "levels.uncertainty_impossible") << bad;
}
