// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/two_peg.h"

#include "books.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

using namespace rillmark;
using namespace rillmark::books;

namespace {

const double kNan = std::numeric_limits<double>::quiet_NaN();
const double kInf = std::numeric_limits<double>::infinity();

bool has(const Findings& findings, const std::string& code) {
    return std::ranges::count(findings, code, &Finding::code) == 1;
}

std::string code_of(const std::vector<PegSetup>& setups, const TwoPegOptions& options = {}) {
    const auto result = two_peg(setups, options);
    return result ? "" : result.error().code;
}

/// What a level with that collimation reads, the instrument 1.5 m above A.
PegSetup setup(double rise_m, double collimation, double distance_a_m, double distance_b_m) {
    return {distance_a_m, 1.5 + collimation * distance_a_m, distance_b_m, 1.5 - rise_m + collimation * distance_b_m};
}

const std::vector<PegSetup> kGood{{40.0, 1.32, 40.0, 1.56}, {10.0, 1.11, 90.0, 1.39}};

} // namespace

TEST(TwoPeg, PublishedEightyMetres) {
    const auto check = checks::entry("level_instrument", "peg-80m");
    const auto& in = check.at("inputs");
    const auto& expected = check.at("expected");
    const double half_m = in.at("pegs_apart_m").get<double>() / 2.0;
    const auto r = two_peg({{half_m, in.at("mid_reading_a_m"), half_m, in.at("mid_reading_b_m")},
                            {in.at("second_distance_a_m"), in.at("second_reading_a_m"), in.at("second_distance_b_m"),
                             in.at("second_reading_b_m")}});
    ASSERT_TRUE(r);
    const double tolerance = check.at("tolerance").at("abs_m");
    EXPECT_NEAR(-r->rise.value, expected.at("true_difference_m"), tolerance); // rB - rA: B is lower
    EXPECT_NEAR(r->collimation.value * 100.0, expected.at("e_m_per_100m"), tolerance);
    EXPECT_NEAR(r->right_readings[1].a_m, expected.at("corrected_a_m"), tolerance);
    EXPECT_NEAR(r->right_readings[1].b_m, expected.at("corrected_b_m"), tolerance);
    EXPECT_FALSE(r->within);
    EXPECT_TRUE(has(r->findings, "levels.collimation_beyond_limit"));
}

TEST(TwoPeg, ComputedBeyondAPeg) {
    const auto check = checks::entry("level_instrument", "peg-100m-beyond");
    const auto& in = check.at("inputs");
    const auto& expected = check.at("expected");
    const double half_m = in.at("pegs_apart_m").get<double>() / 2.0;
    const auto r = two_peg({{half_m, in.at("mid_reading_c_m"), half_m, in.at("mid_reading_d_m")},
                            {in.at("second_distance_c_m"), in.at("second_reading_c_m"), in.at("second_distance_d_m"),
                             in.at("second_reading_d_m")}});
    ASSERT_TRUE(r);
    const double tolerance = check.at("tolerance").at("abs_m");
    EXPECT_NEAR(-r->rise.value, expected.at("true_difference_m"), tolerance);
    EXPECT_NEAR(r->collimation.value * 100.0, expected.at("e_m_per_100m"), tolerance);
    EXPECT_NEAR(r->right_readings[1].a_m, expected.at("corrected_c_m"), tolerance);
    EXPECT_NEAR(r->right_readings[1].b_m, expected.at("corrected_d_m"), tolerance);
}

TEST(TwoPeg, PublishedContradictionIsRefusedAndNamed) {
    const auto check = checks::entry("level_instrument", "peg-25-50-contradiction");
    const auto& in = check.at("inputs");
    const PegSetup one{in.at("distance_a_m"), in.at("reading_a_m"), in.at("distance_b_m"), in.at("reading_b_m")};
    TwoPegOptions options;
    options.known_rise = Estimate{in.at("rl_b_m").get<double>() - in.at("rl_a_m").get<double>(), 0.001};
    const auto r = two_peg({one}, options);
    ASSERT_FALSE(r);
    EXPECT_EQ(r.error().code, "levels.peg_contradicts_known_rise");
    const auto value = [&](const char* name) {
        return std::get<double>(std::ranges::find(r.error().args, name, &Arg::name)->value);
    };
    const double tolerance = check.at("tolerance").at("abs_m");
    EXPECT_NEAR(value("error"), check.at("expected").at("value_with_correct_signs_m_per_100m"), tolerance);
    EXPECT_NEAR(std::abs(value("error_if_swapped")), check.at("expected").at("page_answer_m_per_100m"), tolerance);
}

TEST(TwoPeg, AKnownRiseTakesThePlaceOfOneSetup) {
    TwoPegOptions options;
    options.known_rise = Estimate{0.63, 0.0005};
    const auto r = two_peg({setup(0.63, 4e-5, 5.0, 65.0)}, options);
    ASSERT_TRUE(r);
    EXPECT_NEAR(r->collimation.value, 4e-5, 1e-12);
    EXPECT_NEAR(r->collimation.standard_uncertainty, std::hypot(std::sqrt(2.0) * 0.001, 0.0005) / 60.0, 1e-12);
    EXPECT_NEAR(r->rise.value, 0.63, 1e-12);
}

TEST(TwoPeg, AnyLayoutGivesBackWhatWasPutIn) {
    std::mt19937 random(77);
    std::uniform_real_distribution<double> rise_m(-1.0, 1.0);
    std::uniform_real_distribution<double> slope(-9e-4, 9e-4);
    std::uniform_real_distribution<double> length_m(0.0, 90.0);
    for (int i = 0; i < 2000; ++i) {
        const double h = rise_m(random);
        const double e = slope(random);
        std::vector<PegSetup> setups;
        for (int n = 0; n < 2 + i % 3; ++n)
            setups.push_back(setup(h, e, length_m(random), length_m(random)));
        const auto r = two_peg(setups);
        if (!r) {
            EXPECT_EQ(r.error().code, "levels.peg_same_geometry");
            continue;
        }
        // Set-ups that are almost alike magnify the rounding of a reading.
        EXPECT_NEAR(r->collimation.value, e, 1e-13 + 1e-13 * r->collimation.standard_uncertainty / 1e-5);
        EXPECT_NEAR(r->rise.value, h, 1e-10);
        for (const RightReadings& right : r->right_readings)
            EXPECT_NEAR(right.a_m - right.b_m, h, 1e-10);
        EXPECT_EQ(r->disagreement.has_value(), setups.size() > 2);
    }
}

TEST(TwoPeg, PegsTheOtherWayRoundTurnTheRiseOnly) {
    const auto there = two_peg(kGood);
    std::vector<PegSetup> turned;
    for (const PegSetup& s : kGood)
        turned.push_back({s.distance_b_m, s.reading_b_m, s.distance_a_m, s.reading_a_m});
    const auto back = two_peg(turned);
    ASSERT_TRUE(there && back);
    EXPECT_NEAR(back->collimation.value, there->collimation.value, 1e-15);
    EXPECT_NEAR(back->rise.value, -there->rise.value, 1e-12);
    EXPECT_NEAR(back->rise.standard_uncertainty, there->rise.standard_uncertainty, 1e-12);
}

TEST(TwoPeg, UncertaintyCoversTheScatterOfReadings) {
    std::mt19937 random(4);
    constexpr double kReading_m = 0.001;
    std::normal_distribution<double> error_m(0.0, kReading_m);
    constexpr int kTests = 4000;
    int covered = 0;
    int rise_covered = 0;
    for (int i = 0; i < kTests; ++i) {
        std::vector<PegSetup> setups{setup(0.4, 2e-5, 30.0, 30.0), setup(0.4, 2e-5, 3.0, 57.0)};
        for (PegSetup& s : setups) {
            s.reading_a_m += error_m(random);
            s.reading_b_m += error_m(random);
        }
        const auto r = two_peg(setups);
        ASSERT_TRUE(r);
        covered += std::abs(r->collimation.value - 2e-5) <= r->collimation.expanded();
        rise_covered += std::abs(r->rise.value - 0.4) <= r->rise.expanded();
    }
    // 95.45 % of a normal error; three standard deviations of the count are 1 %.
    EXPECT_NEAR(covered / double(kTests), 0.9545, 0.01);
    EXPECT_NEAR(rise_covered / double(kTests), 0.9545, 0.01);
}

TEST(TwoPeg, VerdictAgainstTheUsgsLimitAndOnesOwn) {
    // tests/checks tol-usgs-gage: 0.03 mm per metre
    const auto usgs = checks::entry("levelling", "tol-usgs-gage");
    EXPECT_NEAR(kTwoPegLimit * 1000.0, usgs.at("expected").at("collimation_mm_per_m"), 1e-12);
    const auto at = [](double e, double limit) {
        TwoPegOptions options;
        options.limit = limit;
        options.reading_uncertainty_m = 1e-4;
        return *two_peg({setup(0.2, e, 40.0, 40.0), setup(0.2, e, 2.0, 82.0)}, options);
    };
    EXPECT_TRUE(at(3e-5, kTwoPegLimit).within);
    EXPECT_TRUE(at(-3e-5, kTwoPegLimit).findings.empty());
    EXPECT_FALSE(at(3.1e-5, kTwoPegLimit).within);
    EXPECT_FALSE(at(-3.1e-5, kTwoPegLimit).within);
    EXPECT_TRUE(at(8e-5, 1e-4).within);
}

TEST(TwoPeg, AWeakTestSaysSo) {
    const auto r = two_peg({setup(0.2, 0.0, 10.0, 10.0), setup(0.2, 0.0, 1.0, 19.0)});
    ASSERT_TRUE(r);
    EXPECT_TRUE(r->within);
    EXPECT_TRUE(has(r->findings, "levels.peg_test_weak"));
    // An error beyond the limit by more than its doubt is shown, however weak the test.
    EXPECT_FALSE(has(two_peg(kGood)->findings, "levels.peg_test_weak"));
}

TEST(TwoPeg, ThreeSetupsAreHeldAgainstEachOther) {
    std::vector<PegSetup> setups{setup(0.2, 1e-5, 40.0, 40.0), setup(0.2, 1e-5, 2.0, 82.0), setup(0.2, 1e-5, 82.0, 2.0)};
    EXPECT_FALSE(has(two_peg(setups)->findings, "levels.peg_setups_disagree"));
    setups[0].reading_b_m += 0.010;
    EXPECT_TRUE(has(two_peg(setups)->findings, "levels.peg_setups_disagree"));
}

TEST(TwoPeg, CurvatureIsTakenOutWhereAsked) {
    std::vector<PegSetup> setups{setup(0.2, 2e-5, 50.0, 50.0), setup(0.2, 2e-5, 0.0, 100.0)};
    for (PegSetup& s : setups) {
        s.reading_a_m += *curvature_refraction_m(s.distance_a_m);
        s.reading_b_m += *curvature_refraction_m(s.distance_b_m);
    }
    TwoPegOptions options;
    options.curvature = EarthCurvature{};
    const auto r = two_peg(setups, options);
    ASSERT_TRUE(r);
    EXPECT_NEAR(r->collimation.value, 2e-5, 1e-13);
    EXPECT_NEAR(r->right_readings[1].b_m, 1.3, 1e-12);
    EXPECT_NEAR(two_peg(setups)->collimation.value - 2e-5, 0.0675 * 0.01 / 100.0, 1e-9); // 0.0675 m per km2
    options.curvature->refraction_k = 2.0;
    EXPECT_EQ(code_of(setups, options), "levels.curvature_impossible");
}

TEST(TwoPeg, ASwappedSetupIsNamed) {
    std::vector<PegSetup> setups = kGood;
    std::swap(setups[1].reading_a_m, setups[1].reading_b_m);
    const Finding found = two_peg(setups).error();
    EXPECT_EQ(found.code, "levels.pegs_swapped");
    EXPECT_EQ(std::get<std::int64_t>(std::ranges::find(found.args, "row", &Arg::name)->value), 2);
    // With a third set-up the wrong one stands out, wherever it is.
    std::vector<PegSetup> three{setup(0.4, 1e-5, 40.0, 40.0), setup(0.4, 1e-5, 3.0, 83.0), setup(0.4, 1e-5, 83.0, 3.0)};
    std::swap(three[1].reading_a_m, three[1].reading_b_m);
    const Finding middle = two_peg(three).error();
    EXPECT_EQ(middle.code, "levels.pegs_swapped");
    EXPECT_EQ(std::get<std::int64_t>(std::ranges::find(middle.args, "row", &Arg::name)->value), 2);
    // Pegs of nearly one height cannot be told apart, and a plausible error is no contradiction.
    EXPECT_EQ(code_of({setup(0.002, 0.0, 40.0, 40.0), setup(-0.002, 0.0, 2.0, 82.0)}), "");
}

TEST(TwoPeg, Refusals) {
    EXPECT_EQ(code_of({}), "levels.peg_setups_missing");
    EXPECT_EQ(code_of({kGood[0]}), "levels.peg_setups_missing");
    EXPECT_EQ(code_of({kGood[0], kGood[0]}), "levels.peg_same_geometry");
    EXPECT_EQ(code_of({setup(0.1, 0.02, 40.0, 40.0), setup(0.1, 0.02, 5.0, 75.0)}), "levels.collimation_impossible");
    const auto with = [](auto change) {
        std::vector<PegSetup> setups = kGood;
        change(setups[1]);
        return two_peg(setups).error();
    };
    for (const double bad : {kNan, kInf, -kInf, 1e300, 11.0}) {
        EXPECT_EQ(with([&](PegSetup& s) { s.reading_a_m = bad; }).code, "levels.field_reading_impossible");
        EXPECT_EQ(with([&](PegSetup& s) { s.reading_b_m = bad; }).where, "levels.reading_b");
    }
    for (const double bad : {kNan, kInf, -1.0, 1e300}) {
        EXPECT_EQ(with([&](PegSetup& s) { s.distance_a_m = bad; }).code, "levels.sight_length_impossible");
        EXPECT_EQ(with([&](PegSetup& s) { s.distance_b_m = bad; }).where, "levels.distance_b");
    }
    for (const double bad : {kNan, kInf, 0.0, -1.0}) {
        TwoPegOptions options;
        options.reading_uncertainty_m = bad;
        EXPECT_EQ(code_of(kGood, options), "levels.uncertainty_impossible");
        options = {};
        options.limit = bad;
        EXPECT_EQ(code_of(kGood, options), "levels.peg_limit_impossible");
        options = {};
        options.known_rise = Estimate{0.1, bad};
        EXPECT_EQ(code_of(kGood, options), "levels.uncertainty_impossible");
    }
    TwoPegOptions options;
    options.known_rise = Estimate{kNan, 0.001};
    EXPECT_EQ(code_of(kGood, options), "levels.rise_impossible");
}
