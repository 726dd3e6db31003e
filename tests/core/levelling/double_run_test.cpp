// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/closure.h"

#include "books.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

using namespace rillmark;
using namespace rillmark::books;

namespace {

/// One set-up of 2 x `sight_m`, or without distances.
ReducedBook run(const std::string& from, const std::string& to, double rise_m, std::optional<double> sight_m = {}) {
    std::vector<Sight> sights{bs(from, 2.0), fs(to, 2.0 - rise_m)};
    for (Sight& sight : sights)
        sight.distance_m = sight_m;
    return *reduce(sights, 100.0);
}

} // namespace

TEST(DoubleRun, MeanAndDifference) {
    const auto r = double_run(run("A", "B", 1.204), run("B", "A", -1.200), AllowanceId::SectionThirdOrder, 0.25);
    ASSERT_TRUE(r);
    EXPECT_NEAR(r->rise_m, 1.202, 1e-12);
    EXPECT_NEAR(r->difference_m, 0.004, 1e-12);
    EXPECT_NEAR(r->allowed_m, 0.006, 1e-12);
    EXPECT_TRUE(r->within);
    EXPECT_TRUE(r->findings.empty());
}

TEST(DoubleRun, TheOrderOfTheRunsTurnsTheRiseOnly) {
    const ReducedBook forth = run("A", "B", 1.204);
    const ReducedBook back = run("B", "A", -1.200);
    const auto a = double_run(forth, back, AllowanceId::SiteRule);
    const auto b = double_run(back, forth, AllowanceId::SiteRule);
    ASSERT_TRUE(a && b);
    EXPECT_DOUBLE_EQ(b->rise_m, -a->rise_m);
    EXPECT_DOUBLE_EQ(b->difference_m, a->difference_m);
    EXPECT_EQ(b->allowed_m, a->allowed_m);
    EXPECT_NEAR(a->allowed_m, 0.005 * std::sqrt(2.0), 1e-12); // the set-ups of both runs
}

TEST(DoubleRun, AboveTheAllowanceItIsWarnedOf) {
    const auto r = double_run(run("A", "B", 1.207), run("B", "A", -1.200), AllowanceId::SectionThirdOrder, 0.25);
    ASSERT_TRUE(r);
    EXPECT_FALSE(r->within);
    ASSERT_EQ(r->findings.size(), 1u);
    EXPECT_EQ(r->findings[0].code, "levels.double_run_differs");
}

TEST(DoubleRun, LengthFromTheBooks) {
    const auto allowed = [](std::optional<double> forth, std::optional<double> back, AllowanceId rule) {
        return double_run(run("A", "B", 1.2, forth), run("B", "A", -1.2, back), rule)->allowed_m;
    };
    // 2 x 45 m and 2 x 55 m: 0.1 km one way, 0.2 km as a loop
    EXPECT_NEAR(allowed(45.0, 55.0, AllowanceId::SectionThirdOrder), 0.012 * std::sqrt(0.1), 1e-12);
    EXPECT_NEAR(allowed(45.0, 55.0, AllowanceId::ThirdOrder), 0.012 * std::sqrt(0.2), 1e-12);
    EXPECT_NEAR(allowed(45.0, {}, AllowanceId::SectionThirdOrder), 0.012 * std::sqrt(0.09), 1e-12);
}

// The constants of sections are from memory, unconfirmed.
TEST(DoubleRun, SectionConstantsFromMemory) {
    const auto check = checks::entry("levelling", "tol-fgcs-loop");
    const auto& constants = check.at("expected").at("constants_section_mm");
    for (const auto& [id, name] : {std::pair{AllowanceId::SectionFirstOrderI, "1st I"},
                                   {AllowanceId::SectionFirstOrderII, "1st II"},
                                   {AllowanceId::SectionSecondOrderI, "2nd I"},
                                   {AllowanceId::SectionSecondOrderII, "2nd II"},
                                   {AllowanceId::SectionThirdOrder, "3rd"}}) {
        EXPECT_EQ(allowance(id).id, id);
        EXPECT_EQ(allowance(id).provenance, "memory");
        EXPECT_NEAR(*allowed_misclosure_m(allowance(id), 0, 1.0) * 1000.0, constants.at(name), 1e-9);
        EXPECT_EQ(find_allowance(allowance(id).code), nullptr); // not to be chosen for a loop
    }
    EXPECT_EQ(section_allowances().size(), constants.size());
}

TEST(DoubleRun, Refusals) {
    const ReducedBook forth = run("A", "B", 1.2);
    const auto code = [&](const ReducedBook& back, AllowanceId rule = AllowanceId::SiteRule,
                          std::optional<double> km = {}) {
        const auto r = double_run(forth, back, rule, km);
        return r ? std::string() : r.error().code;
    };
    EXPECT_EQ(code({}), "levels.book_empty");
    EXPECT_EQ(code(*reduce({bs("B", 1.0)}, 0.0)), "levels.book_not_closed");
    EXPECT_EQ(code(run("B", "C", -1.2)), "levels.runs_do_not_meet");
    EXPECT_EQ(code(forth), "levels.runs_do_not_meet");
    const ReducedBook back = run("B", "A", -1.2);
    EXPECT_EQ(code(back, AllowanceId::SectionThirdOrder), "levels.no_length");
    for (const double bad : {0.0, -1.0, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()})
        EXPECT_EQ(code(back, AllowanceId::SectionFirstOrderI, bad), "levels.no_length");
}
