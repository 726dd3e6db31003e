// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/sight_judgement.h"

#include "books.h"

#include <gtest/gtest.h>

#include <limits>

using namespace rillmark;
using namespace rillmark::books;

namespace {

constexpr double kMillimetre = 0.001;

std::string code_of(double reading_m, double expected_m, double u_m = 0.001, double last_digit_m = kMillimetre) {
    const auto finding = judge_sight(fs("A", reading_m), {expected_m, u_m}, last_digit_m);
    return finding ? finding->code : "";
}

} // namespace

TEST(SightJudgement, SilentWithinTheLimit) {
    EXPECT_EQ(code_of(1.525, 1.5282), "");
    EXPECT_EQ(code_of(1.525, 1.5284, 0.0011), "");
    EXPECT_NE(code_of(1.525, 1.5284, 0.001), "");
}

TEST(SightJudgement, NamesTheSlip) {
    EXPECT_EQ(code_of(2.525, 1.526), "levels.reading_maybe_metre");
    EXPECT_EQ(code_of(0.525, 1.524), "levels.reading_maybe_metre");
    EXPECT_EQ(code_of(1.625, 1.526), "levels.reading_maybe_tenth");
    EXPECT_EQ(code_of(1.525 + kFoot_m, 1.526), "levels.reading_maybe_foot");
    EXPECT_EQ(code_of(1.252, 1.525), "levels.reading_improbable"); // three digits turned round is no swap of two
    EXPECT_EQ(code_of(1.255, 1.525), "levels.reading_maybe_swapped");
    EXPECT_EQ(code_of(2.130, -2.131), "levels.reading_maybe_inverted");
    EXPECT_EQ(code_of(1.525, 1.725), "levels.reading_improbable");
    const auto finding = judge_sight(fs("A", 1.255), {1.525, 0.001});
    ASSERT_TRUE(finding);
    EXPECT_EQ(finding->severity, Severity::Warning);
    EXPECT_EQ(finding->where, "A");
    EXPECT_EQ(finding->args.back().name, "suggested");
    EXPECT_NEAR(std::get<double>(finding->args.back().value), 1.525, 1e-9);
}

TEST(SightJudgement, NamesSixForNineFeetAndExchange) {
    EXPECT_EQ(code_of(1.625, 1.925), "levels.reading_maybe_six_nine");
    EXPECT_EQ(code_of(1.529, 1.526, 0.0002), "levels.reading_maybe_six_nine");
    EXPECT_EQ(code_of(4.870, 4.870 * kFoot_m), "levels.reading_maybe_feet");
    // Backsight 2.950 and foresight 0.512 booked the other way round: the foresight booked is 2.950, the height of
    // instrument is 2.438 too low, and the rest of the evidence expects 0.512 - 2.438.
    const auto exchanged = judge_sight(fs("A", 2.950), {0.512 - 2.438, 0.002}, kMillimetre, 0.512);
    ASSERT_TRUE(exchanged);
    EXPECT_EQ(exchanged->code, "levels.reading_maybe_exchanged");
    EXPECT_NEAR(std::get<double>(exchanged->args.back().value), 0.512, 1e-12);
}

TEST(SightJudgement, SwapsDigitsInTheUnitAsTyped) {
    // 5.36 ft typed for 5.63 ft: the swap shows only in feet.
    const double centifoot_m = 0.01 * kFoot_m;
    EXPECT_EQ(code_of(5.36 * kFoot_m, 5.63 * kFoot_m, 0.0005, centifoot_m), "levels.reading_maybe_swapped");
    EXPECT_EQ(code_of(5.36 * kFoot_m, 5.63 * kFoot_m, 0.0005, kMillimetre), "levels.reading_improbable");
}

TEST(SightJudgement, PoorEvidenceNamesNoSlip) {
    EXPECT_EQ(code_of(2.525, 1.520, 0.110), "levels.reading_improbable"); // +/- 0.22 m says nothing about 1 m
    EXPECT_EQ(code_of(1.625, 1.525, 0.020), "levels.reading_improbable");
}

TEST(SightJudgement, BadNumbersJudgeNothing) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    for (const double bad : {nan, inf, -inf}) {
        EXPECT_EQ(code_of(bad, 1.0), "");
        EXPECT_EQ(code_of(1.0, bad), "");
        EXPECT_EQ(code_of(1.0, 5.0, bad), "");
        EXPECT_FALSE(judge_against_expected(bad, {1.0, 0.1}));
        EXPECT_FALSE(guess_slip({bad, 1.0, 0.001, kMillimetre}));
        EXPECT_FALSE(guess_slip({1.0, bad, 0.001, kMillimetre}));
    }
    EXPECT_EQ(code_of(1.0, 5.0, 0.0), "");
    EXPECT_EQ(code_of(1.0, 5.0, -0.1), "");
    EXPECT_FALSE(guess_slip({1.525, 1.0, -0.001, kMillimetre}));
    EXPECT_FALSE(guess_slip({1.525, 1.0, 0.001, 0.0}));
    EXPECT_FALSE(guess_slip({1e300, 1.0, 0.001, kMillimetre}));
}

TEST(SightJudgement, RiseAgainstOtherEvidence) {
    EXPECT_FALSE(judge_against_expected(12.0, {12.5, 0.16}));
    const auto finding = judge_against_expected(12.0, {12.5, 0.15});
    ASSERT_TRUE(finding);
    EXPECT_EQ(finding->code, "levels.rise_improbable");
    EXPECT_EQ(finding->severity, Severity::Warning);
}
