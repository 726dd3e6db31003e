// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/level_book.h"

#include "books.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

using namespace rillmark;
using namespace rillmark::books;

namespace {

constexpr double kExact = 1e-9; // sums of readings to 1 mm in doubles
const double kNan = std::numeric_limits<double>::quiet_NaN();
const double kInf = std::numeric_limits<double>::infinity();

std::vector<Sight> small_book() {
    return {bs("BM", 1.4), is("A", 1.235), fs("B", 1.87), bs("B", 1.355), fs("C", 0.855)};
}

std::string refused(const std::vector<Sight>& sights, double start_m = 100.0) {
    const auto book = reduce(sights, start_m);
    return book ? "" : book.error().code;
}

/// The book walked the other way: last sight first, backsights and foresights changing places.
std::vector<Sight> backwards(std::vector<Sight> sights) {
    std::reverse(sights.begin(), sights.end());
    for (Sight& s : sights)
        if (s.kind != SightKind::Intermediate)
            s.kind = s.kind == SightKind::Backsight ? SightKind::Foresight : SightKind::Backsight;
    return sights;
}

std::vector<Sight> random_book(std::mt19937& random, int sights) {
    std::uniform_real_distribution<double> reading(-0.5, 4.9);
    std::uniform_int_distribution<int> intermediates(0, 3);
    std::vector<Sight> book;
    int point = 0;
    while (static_cast<int>(book.size()) < sights) {
        book.push_back(bs("P" + std::to_string(point), reading(random)));
        for (int i = intermediates(random); i > 0; --i)
            book.push_back(is("P" + std::to_string(++point), reading(random)));
        book.push_back(fs("P" + std::to_string(++point), reading(random)));
    }
    return book;
}

} // namespace

TEST(LevelBook, HeightOfInstrumentUsm) {
    const auto check = checks::entry("levelling", "lev-hpc-usm");
    const auto& expected = check.at("expected");
    const auto book = reduce(sights_of(check.at("inputs").at("rows")), check.at("inputs").at("start_rl_m"));
    ASSERT_TRUE(book);
    EXPECT_LIST(levels(*book), expected.at("rl_initial_m"), 1.0, check.at("tolerance").at("rl_initial_m"));
    EXPECT_LIST(instrument_heights(*book), expected.at("hi_m"), 1.0, check.at("tolerance").at("rl_initial_m"));
    EXPECT_NEAR(book->sum_backsights_m, expected.at("sum_bs_m"), check.at("tolerance").at("sums_m"));
    EXPECT_NEAR(book->sum_foresights_m, expected.at("sum_fs_m"), check.at("tolerance").at("sums_m"));
    EXPECT_NEAR(book->last_minus_first_m, expected.at("last_minus_first_m"), kExact);
    EXPECT_EQ(book->setups, 5U);
    EXPECT_TRUE(book->checks.hold());
    EXPECT_TRUE(book->findings.empty());
}

TEST(LevelBook, HeightOfInstrumentInFeet) {
    for (const char* id : {"lev-hi-bma-bmb", "lev-hi-ghilani-rock"}) {
        SCOPED_TRACE(id);
        const auto check = checks::entry("levelling", id);
        const auto& expected = check.at("expected");
        const double tolerance = check.at("tolerance").at("abs_ft");
        const auto book = reduce(sights_of(check.at("inputs").at("rows"), "_ft"),
                                 check.at("inputs").at("start_elev_ft").get<double>() * kFoot_m);
        ASSERT_TRUE(book);
        EXPECT_LIST(levels(*book), expected.at("elev_ft"), kFoot_m, tolerance);
        if (expected.contains("hi_ft")) {
            EXPECT_LIST(instrument_heights(*book), expected.at("hi_ft"), kFoot_m, tolerance);
        }
        EXPECT_NEAR(book->sum_backsights_m / kFoot_m, expected.at("sum_bs_ft"), tolerance);
        EXPECT_NEAR(book->sum_foresights_m / kFoot_m, expected.at("sum_fs_ft"), tolerance);
        EXPECT_TRUE(book->checks.hold());
    }
}

TEST(LevelBook, RiseAndFall) {
    for (const char* id : {"lev-rf-tbm175", "lev-both-acet108", "lev-rf-nptel-13-1", "lev-rf-chain-380"}) {
        SCOPED_TRACE(id);
        const auto check = checks::entry("levelling", id);
        const auto& expected = check.at("expected");
        const double tolerance = check.at("tolerance").at("abs_m");
        const auto book = reduce(sights_of(check.at("inputs").at("rows")), check.at("inputs").at("start_rl_m"));
        ASSERT_TRUE(book);
        EXPECT_LIST(levels(*book), expected.at("rl_m"), 1.0, tolerance);
        EXPECT_NEAR(book->sum_backsights_m, expected.at("sum_bs_m"), tolerance);
        EXPECT_NEAR(book->sum_foresights_m, expected.at("sum_fs_m"), tolerance);
        if (expected.contains("sum_rise_m")) {
            EXPECT_NEAR(book->sum_rises_m, expected.at("sum_rise_m"), tolerance);
            EXPECT_NEAR(book->sum_falls_m, expected.at("sum_fall_m"), tolerance);
        }
        if (expected.contains("check_m")) {
            EXPECT_NEAR(book->checks.sights.left_m, expected.at("check_m"), tolerance);
        }
        if (expected.contains("hi_m")) {
            EXPECT_LIST(instrument_heights(*book), expected.at("hi_m"), 1.0, tolerance);
        }
        EXPECT_TRUE(book->checks.hold());
    }
}

TEST(LevelBook, EachLineHasItsRiseOrFall) {
    const auto check = checks::entry("levelling", "lev-rf-nptel-13-1");
    const auto book = reduce(sights_of(check.at("inputs").at("rows")), check.at("inputs").at("start_rl_m"));
    ASSERT_TRUE(book);
    const auto& steps = check.at("expected").at("rise_fall_m");
    ASSERT_EQ(book->rows.size(), steps.size());
    EXPECT_FALSE(book->rows[0].rise_m || book->rows[0].fall_m);
    for (std::size_t i = 1; i < steps.size(); ++i) {
        const double step = steps[i];
        EXPECT_EQ(book->rows[i].rise_m.has_value(), step >= 0.0);
        EXPECT_NE(book->rows[i].rise_m.has_value(), book->rows[i].fall_m.has_value());
        EXPECT_NEAR(book->rows[i].rise_m.value_or(0.0) - book->rows[i].fall_m.value_or(0.0), step,
                    check.at("tolerance").at("abs_m"));
    }
}

TEST(LevelBook, LongStaffOfGhilaniBm7IsWarnedAboutNotRefused) {
    const auto check = checks::entry("levelling", "lev-hi-ghilani-bm7");
    const auto book = reduce(sights_of(check.at("inputs").at("rows")), check.at("inputs").at("start_elev_m"));
    ASSERT_TRUE(book);
    EXPECT_LIST(levels(*book), check.at("expected").at("elev_m"), 1.0, check.at("tolerance").at("abs_m"));
    EXPECT_NEAR(book->sum_backsights_m, check.at("expected").at("sum_bs_m"), check.at("tolerance").at("abs_m"));
    const auto is_long = [](const Finding& f) { return f.code == "levels.reading_long"; };
    EXPECT_EQ(std::count_if(book->findings.begin(), book->findings.end(), is_long), 5); // 6.907 8.800 5.978 5.245 8.464
}

TEST(LevelBook, FullCheckCoversIntermediateSights) {
    // The slides give sums only; any book with these sums has the same two sides. The share of sum BS between the
    // second and third set-up, and of sum IS among its three sights, is ours.
    const auto check = checks::entry("levelling", "lev-hpc-fullcheck");
    const auto& in = check.at("inputs");
    const std::vector<double> hi = in.at("hi_m");
    const double first = in.at("first_rl_m");
    const double bs1 = hi[0] - first;
    const double bs2 = 1.2;
    const double bs3 = in.at("sum_bs_m").get<double>() - bs1 - bs2;
    const double cp1 = hi[1] - bs2;
    const double cp2 = hi[2] - bs3;
    const double end = in.at("last_rl_m");
    const double sum_is = in.at("sum_is_m");
    const auto book = reduce({bs("BM1", bs1), fs("CP1", hi[0] - cp1), bs("CP1", bs2), is("A", 1.5), is("B", -2.0),
                              is("C", sum_is + 0.5), fs("CP2", hi[1] - cp2), bs("CP2", bs3), fs("BM2", hi[2] - end)},
                             first);
    ASSERT_TRUE(book);
    const double tolerance = check.at("tolerance").at("abs_m");
    EXPECT_NEAR(book->sum_intermediates_m, sum_is, tolerance);
    EXPECT_NEAR(book->sum_foresights_m, in.at("sum_fs_m"), tolerance);
    EXPECT_NEAR(book->checks.height_of_instrument.left_m, check.at("expected").at("lhs_m"), tolerance);
    EXPECT_NEAR(book->checks.height_of_instrument.right_m, check.at("expected").at("rhs_m"), tolerance);
    EXPECT_NEAR(-book->checks.sights.left_m, check.at("expected").at("simple_check_m"), tolerance);

    // A slip in the level of an intermediate sight passes the simple check and fails this one.
    std::vector<BookRow> page = book->rows;
    page[2].reduced_level_m += 0.010;
    EXPECT_TRUE(check_page(page).sights.holds());
    EXPECT_FALSE(check_page(page).height_of_instrument.holds());
    EXPECT_NEAR(check_page(page).height_of_instrument.difference_m(), 0.010, kExact);
}

TEST(LevelBook, RiseBookedAsFallIsCaught) {
    const auto check = checks::entry("levelling", "lev-rf-blunder");
    const auto& expected = check.at("expected");
    const auto book = reduce(sights_of(check.at("inputs").at("rows")), check.at("inputs").at("start_rl_m"));
    ASSERT_TRUE(book);
    EXPECT_LIST(levels(*book), expected.at("correct_rl_m"), 1.0, check.at("tolerance").at("abs_m"));
    std::vector<BookRow> page = book->rows;
    page.back().rise_m.reset();
    page.back().fall_m = -check.at("inputs").at("booked_last_rise_fall_m").get<double>();
    page.back().reduced_level_m = check.at("inputs").at("booked_last_rl_m");
    const PageChecks checks = check_page(page);
    EXPECT_NEAR(checks.sights.left_m, expected.at("sum_bs_minus_fs_m"), kExact);
    EXPECT_NEAR(checks.sights.right_m, expected.at("booked_last_minus_first_m"), kExact);
    EXPECT_NEAR(checks.sights.difference_m(), expected.at("difference_m"), kExact);
    EXPECT_FALSE(checks.hold());
}

TEST(LevelBook, MeansOfThreeWires) {
    const auto mean = [](const nlohmann::json& wires) {
        return (wires[0].get<double>() + wires[1].get<double>() + wires[2].get<double>()) / 3.0;
    };
    for (const auto& [id, suffix, unit_m] :
         {std::tuple("lev-3wire-ghilani-524", "_m", 1.0), std::tuple("lev-3wire-ghilani-525", "_ft", kFoot_m)}) {
        SCOPED_TRACE(id);
        const auto check = checks::entry("levelling", id);
        const auto& in = check.at("inputs");
        const std::string u = suffix;
        std::vector<Sight> sights;
        for (std::size_t i = 0; i < 2; ++i) {
            sights.push_back(bs(i == 0 ? "BM X" : "TP", mean(in.at("bs_wires" + u)[i]) * unit_m));
            sights.push_back(fs(i == 0 ? "TP" : "BM Y", mean(in.at("fs_wires" + u)[i]) * unit_m));
        }
        const auto book = reduce(sights, in.at("bm_x" + u).get<double>() * unit_m);
        ASSERT_TRUE(book);
        const auto& tolerance = check.at("tolerance");
        EXPECT_NEAR(book->sum_backsights_m / unit_m, check.at("expected").at("sum_bs_mean" + u),
                    tolerance.value("sum_m", tolerance.value("abs_ft", 0.0)));
        EXPECT_NEAR(book->sum_foresights_m / unit_m, check.at("expected").at("sum_fs_mean" + u),
                    tolerance.value("sum_m", tolerance.value("abs_ft", 0.0)));
        EXPECT_NEAR(book->rows.back().reduced_level_m / unit_m, check.at("expected").at("bm_y" + u),
                    tolerance.value("elev_m", tolerance.value("abs_ft", 0.0)));
    }
    const auto check = checks::entry("levelling", "lev-3wire-setup");
    const auto& in = check.at("inputs");
    const auto book =
        reduce({bs("A", mean(in.at("bs_wires_ft")) * kFoot_m), fs("B", in.at("fs_mean_ft").get<double>() * kFoot_m)},
               in.at("elev_a_ft").get<double>() * kFoot_m);
    ASSERT_TRUE(book);
    EXPECT_NEAR(*book->rows[0].height_of_instrument_m / kFoot_m, check.at("expected").at("hi_ft"),
                check.at("tolerance").at("abs_ft"));
    EXPECT_NEAR(book->rows[1].reduced_level_m / kFoot_m, check.at("expected").at("elev_b_ft"),
                check.at("tolerance").at("abs_ft"));
}

TEST(LevelBook, InvertedStaffStandsAboveTheInstrument) {
    const auto book = reduce({bs("BM", 1.5), is("soffit", -2.25), fs("B", 1.0)}, 100.0);
    ASSERT_TRUE(book);
    EXPECT_NEAR(book->rows[1].reduced_level_m, 103.75, kExact);
    EXPECT_NEAR(book->rows[2].reduced_level_m, 100.5, kExact);
    EXPECT_TRUE(book->checks.hold());
}

TEST(LevelBook, StruckSightsAreLeftOut) {
    std::vector<Sight> sights = small_book();
    Sight wrong = is("A", 2.235);
    wrong.struck = true;
    Sight not_even_a_number = bs("", kNan);
    not_even_a_number.struck = true;
    std::vector<Sight> with = sights;
    with.insert(with.begin() + 1, wrong);
    with.insert(with.begin() + 3, not_even_a_number);
    const auto clean = reduce(sights, 50.0);
    const auto struck = reduce(with, 50.0);
    ASSERT_TRUE(clean && struck);
    EXPECT_EQ(levels(*struck), levels(*clean));
    EXPECT_EQ(struck->sum_backsights_m, clean->sum_backsights_m);
    EXPECT_EQ(struck->sum_intermediates_m, clean->sum_intermediates_m);
    // With the backsight of a set-up struck out, the set-up has nothing to stand on; row counts struck sights too.
    sights[3].struck = true;
    const auto none = reduce(sights, 50.0);
    ASSERT_FALSE(none);
    EXPECT_EQ(none.error().code, "levels.no_setup");
    EXPECT_EQ(std::get<std::int64_t>(none.error().args.at(0).value), 5);
    for (Sight& s : sights)
        s.struck = true;
    EXPECT_EQ(refused(sights), "levels.book_empty");
}

TEST(LevelBook, OpenBookIsReducedAsFarAsItGoes) {
    for (std::size_t length = 1; length <= 5; ++length) {
        std::vector<Sight> sights = small_book();
        sights.resize(length);
        const auto book = reduce(sights, 50.0);
        ASSERT_TRUE(book);
        const bool open = sights.back().kind != SightKind::Foresight;
        EXPECT_EQ(book->open, open);
        ASSERT_EQ(book->findings.size(), open ? 1U : 0U);
        if (open) {
            EXPECT_EQ(book->findings[0].code, "levels.book_open");
            EXPECT_EQ(book->findings[0].severity, Severity::Note);
        }
        EXPECT_TRUE(book->checks.hold());
    }
}

TEST(LevelBook, LengthOnlyWithAllDistancesOfTheLine) {
    std::vector<Sight> sights = small_book();
    for (const std::size_t i : {0U, 2U, 3U, 4U}) // an intermediate sight is no part of the line
        sights[i].distance_m = 10.0 + static_cast<double>(i);
    auto book = reduce(sights, 50.0);
    ASSERT_TRUE(book);
    ASSERT_TRUE(book->length_m());
    EXPECT_NEAR(*book->length_m(), 49.0, kExact);
    EXPECT_NEAR(book->length_to_setup_end_m[0], 22.0, kExact);
    sights[3].distance_m.reset();
    book = reduce(sights, 50.0);
    ASSERT_TRUE(book);
    EXPECT_FALSE(book->length_m());
}

TEST(LevelBook, RefusesWhatIsNoBook) {
    EXPECT_EQ(refused({}), "levels.book_empty");
    EXPECT_EQ(refused({fs("A", 1.0)}), "levels.no_setup");
    EXPECT_EQ(refused({is("A", 1.0)}), "levels.no_setup");
    EXPECT_EQ(refused({bs("A", 1.0), fs("B", 1.0), is("C", 1.0)}), "levels.no_setup");
    EXPECT_EQ(refused({bs("A", 1.0), fs("B", 1.0), fs("C", 1.0)}), "levels.no_setup");
    EXPECT_EQ(refused({bs("A", 1.0), bs("A", 1.0)}), "levels.setup_not_finished");
    EXPECT_EQ(refused({bs("A", 1.0), is("B", 1.0), bs("B", 1.0)}), "levels.setup_not_finished");
    EXPECT_EQ(refused({bs("A", 1.0), fs("B", 1.0), bs("C", 1.0)}), "levels.change_point_mismatch");
    EXPECT_EQ(refused({bs("", 1.0)}), "levels.point_unnamed");
    for (const double reading : {kNan, kInf, -kInf, 10.001, -10.001, 1e300})
        EXPECT_EQ(refused({bs("A", reading)}), "levels.reading_impossible") << reading;
    EXPECT_EQ(refused({bs("A", 10.0), fs("B", -10.0)}), "");
    for (const double start : {kNan, kInf, -kInf, 9000.1, -500.1})
        EXPECT_EQ(refused(small_book(), start), "levels.start_level_impossible") << start;
    for (const double distance : {kNan, kInf, 0.0, -20.0}) {
        std::vector<Sight> sights = small_book();
        sights[2].distance_m = distance;
        EXPECT_EQ(refused(sights), "levels.distance_impossible") << distance;
    }
}

TEST(LevelBook, RefusalNamesPointAndRow) {
    const auto book = reduce({bs("A", 1.0), fs("CP 1", 1.0), bs("CP 2", 1.0)}, 10.0);
    ASSERT_FALSE(book);
    EXPECT_EQ(book.error().where, "CP 2");
    EXPECT_EQ(std::get<std::int64_t>(book.error().args.at(0).value), 3);
    EXPECT_EQ(std::get<std::string>(book.error().args.at(1).value), "CP 1");
}

TEST(LevelBook, RunBackwardsGivesMinusTheHead) {
    const unsigned seed = 20240611;
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    for (int i = 0; i < 200; ++i) {
        const std::vector<Sight> sights = random_book(random, 30);
        const auto there = reduce(sights, 100.0);
        const auto back = reduce(backwards(sights), 100.0);
        ASSERT_TRUE(there && back);
        EXPECT_NEAR(there->last_minus_first_m, -back->last_minus_first_m, kExact);
        EXPECT_TRUE(back->checks.hold());
    }
}

TEST(LevelBook, ShiftOfTheStartShiftsEveryLevel) {
    std::mt19937 random(7);
    const std::vector<Sight> sights = random_book(random, 40);
    const auto low = reduce(sights, 0.0);
    const auto high = reduce(sights, 1234.5);
    ASSERT_TRUE(low && high);
    for (std::size_t i = 0; i < low->rows.size(); ++i)
        EXPECT_NEAR(high->rows[i].reduced_level_m - low->rows[i].reduced_level_m, 1234.5, kExact);
}

TEST(LevelBook, LongBooksKeepTheStatedAccuracy) {
    const unsigned seed = 99;
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    const std::vector<Sight> sights = random_book(random, 10'000);
    for (const double start_m : {-500.0, 9000.0}) {
        const auto book = reduce(sights, start_m);
        ASSERT_TRUE(book);
        EXPECT_TRUE(book->checks.hold()) << book->checks.height_of_instrument.difference_m();
        long double level = start_m;
        for (const Sight& s : sights)
            if (s.kind != SightKind::Intermediate)
                level += s.kind == SightKind::Backsight ? static_cast<long double>(s.reading_m)
                                                        : -static_cast<long double>(s.reading_m);
        EXPECT_NEAR(book->rows.back().reduced_level_m, static_cast<double>(level), kReductionError_m);
    }
}

TEST(LevelBook, EmptyPageChecksNothing) {
    EXPECT_TRUE(check_page({}).hold());
}
