// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/flow_to_use.h"

#include "flow_fixtures.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace rillmark {
namespace {

using flow_fixtures::find_code;
using flow_fixtures::has_code;
using flow_fixtures::kInfinity;
using flow_fixtures::kNaN;
using flow_fixtures::number_arg;

FlowTest test_of(std::int64_t id, const std::string& date, double flow_m3s, double u_m3s) {
    FlowTest test;
    test.id = id;
    test.name = "test " + std::to_string(id);
    test.date = date;
    test.discharge.estimate = {flow_m3s, u_m3s};
    test.discharge.budget = {{"flow.depth", {}, 0.8 * u_m3s, 0.64}, {"flow.points", {}, 0.6 * u_m3s, 0.36}};
    return test;
}

// Weighted mean by hand: weights 4 and 1.
TEST(FlowToUse, TestsOfOneDayAreAveragedByWeight) {
    const auto use = flow_to_use({test_of(1, "2025-08-31", 0.085, 0.002), test_of(2, "2025-08-31", 0.080, 0.004)});
    ASSERT_TRUE(use.ok());
    EXPECT_NEAR(use->discharge.estimate.value, (4.0 * 0.085 + 0.080) / 5.0, 1e-15);
    // chi2 = 0.005^2 / (0.002^2 + 0.004^2) = 1.25: Birge ratio sqrt(1.25), no disagreement
    EXPECT_NEAR(use->discharge.estimate.standard_uncertainty, std::sqrt(1.25 * 16.0 / 5.0) * 0.001, 1e-12);
    EXPECT_TRUE(use->visits[0].tests_agree);
    EXPECT_FALSE(has_code(use->findings, "flow.tests_disagree"));
    EXPECT_TRUE(has_code(use->findings, "flow.rests_on_one_visit"));
}

TEST(FlowToUse, BudgetNamesTheTests) {
    const auto use = flow_to_use({test_of(1, "2025-08-31", 0.085, 0.002), test_of(2, "2025-08-31", 0.080, 0.004)});
    ASSERT_TRUE(use.ok());
    std::set<std::string> names;
    double variance = 0.0;
    double shares = 0.0;
    for (const BudgetLine& line : use->discharge.budget) {
        names.insert(line.subject);
        variance += line.contribution * line.contribution;
        shares += line.share;
    }
    EXPECT_EQ(names, (std::set<std::string>{"test 1", "test 2"}));
    EXPECT_NEAR(std::sqrt(variance), use->discharge.estimate.standard_uncertainty, 1e-12);
    EXPECT_NEAR(shares, 1.0, 1e-12);
    FlowTest bare = test_of(3, "2025-08-31", 0.085, 0.002);
    bare.discharge.budget.clear();
    EXPECT_EQ(flow_to_use({bare})->discharge.budget.at(0).input, "flow.test");
}

TEST(FlowToUse, TestsThatDisagreeAreNamedAndTheDoubtGrows) {
    const auto use = flow_to_use({test_of(1, "2025-08-31", 0.100, 0.002), test_of(2, "2025-08-31", 0.080, 0.002)});
    ASSERT_TRUE(use.ok());
    ASSERT_TRUE(has_code(use->findings, "flow.tests_disagree"));
    EXPECT_FALSE(use->visits[0].tests_agree);
    EXPECT_NEAR(use->visits[0].birge_ratio, std::sqrt(50.0), 1e-9); // chi2 = 2 x 5^2
    EXPECT_NEAR(use->discharge.estimate.standard_uncertainty, 0.010, 1e-12);
    EXPECT_EQ(find_code(use->findings, "flow.tests_disagree")->where, "2025-08-31");
}

TEST(FlowToUse, LowestVisitByDefault) {
    const std::vector<FlowTest> tests{test_of(1, "2025-05-02", 0.200, 0.010), test_of(2, "2025-09-10", 0.060, 0.003),
                                      test_of(3, "2025-05-02", 0.205, 0.010)};
    const auto use = flow_to_use(tests);
    ASSERT_TRUE(use.ok());
    EXPECT_EQ(use->choice, FlowChoice::LowestVisit);
    EXPECT_DOUBLE_EQ(use->discharge.estimate.value, 0.060);
    ASSERT_EQ(use->visits.size(), 2U);
    EXPECT_EQ(use->visits[0].date, "2025-05-02");
    EXPECT_EQ(use->visits[0].tests, (std::vector<std::int64_t>{1, 3}));
    EXPECT_TRUE(use->findings.empty());
}

TEST(FlowToUse, WeightedMeanOverVisits) {
    const auto use = flow_to_use({test_of(1, "2025-05-02", 0.200, 0.010), test_of(2, "2025-09-10", 0.060, 0.010)},
                                 FlowChoice::WeightedMean);
    ASSERT_TRUE(use.ok());
    EXPECT_NEAR(use->discharge.estimate.value, 0.130, 1e-12);
    EXPECT_TRUE(has_code(use->findings, "flow.visits_differ"));
    ASSERT_TRUE(has_code(use->findings, "flow.lower_visit_exists"));
    EXPECT_NEAR(number_arg(*find_code(use->findings, "flow.lower_visit_exists"), "lowest"), 0.060, 1e-15);
}

TEST(FlowToUse, ChosenTest) {
    std::vector<FlowTest> tests{test_of(1, "2025-05-02", 0.200, 0.010), test_of(2, "2025-09-10", 0.060, 0.003)};
    const auto use = flow_to_use(tests, FlowChoice::ChosenTest, 1);
    ASSERT_TRUE(use.ok());
    EXPECT_DOUBLE_EQ(use->discharge.estimate.value, 0.200);
    EXPECT_DOUBLE_EQ(use->discharge.estimate.standard_uncertainty, 0.010);
    EXPECT_TRUE(has_code(use->findings, "flow.lower_visit_exists"));
    EXPECT_EQ(flow_to_use(tests, FlowChoice::ChosenTest, 7).error().code, "flow.chosen_test_missing");
    EXPECT_EQ(flow_to_use(tests, FlowChoice::ChosenTest).error().code, "flow.chosen_test_missing");
    tests[0].counts = false;
    EXPECT_EQ(flow_to_use(tests, FlowChoice::ChosenTest, 1).error().code, "flow.chosen_test_missing");
}

TEST(FlowToUse, OrderOfTestsDoesNotMatter) {
    std::vector<FlowTest> tests{test_of(1, "2025-05-02", 0.200, 0.010), test_of(2, "2025-09-10", 0.060, 0.003),
                                test_of(3, "2025-05-02", 0.205, 0.020), test_of(4, "2025-09-10", 0.063, 0.004)};
    for (const FlowChoice choice : {FlowChoice::LowestVisit, FlowChoice::WeightedMean}) {
        const auto one_way = flow_to_use(tests, choice);
        std::ranges::reverse(tests);
        const auto other_way = flow_to_use(tests, choice);
        ASSERT_TRUE(one_way.ok() && other_way.ok());
        EXPECT_NEAR(one_way->discharge.estimate.value, other_way->discharge.estimate.value, 1e-15);
        EXPECT_NEAR(one_way->discharge.estimate.standard_uncertainty,
                    other_way->discharge.estimate.standard_uncertainty, 1e-15);
    }
}

TEST(FlowToUse, OneTestWarnsAndSetAsideTestsAreLeftOut) {
    FlowTest aside = test_of(2, "no day", kNaN, -1.0);
    aside.counts = false;
    const auto use = flow_to_use({test_of(1, "2025-08-31", 0.085, 0.0), aside});
    ASSERT_TRUE(use.ok());
    EXPECT_DOUBLE_EQ(use->discharge.estimate.value, 0.085);
    EXPECT_TRUE(has_code(use->findings, "flow.rests_on_one_test"));
    EXPECT_FALSE(has_code(use->findings, "flow.rests_on_one_visit"));
    EXPECT_EQ(flow_to_use({aside}).error().code, "flow.no_tests");
    EXPECT_EQ(flow_to_use({}).error().code, "flow.no_tests");
}

TEST(FlowToUse, RefusesBadTests) {
    for (const double bad : {kNaN, kInfinity, -kInfinity, -0.001, 1e300}) {
        EXPECT_EQ(flow_to_use({test_of(1, "2025-08-31", bad, 0.01)}).error().code, "flow.bad_discharge") << bad;
        EXPECT_EQ(flow_to_use({test_of(1, "2025-08-31", 0.1, bad)}).error().code, "flow.bad_discharge") << bad;
    }
    EXPECT_EQ(flow_to_use({test_of(1, "2025-08-31", 0.1, 1e-200)}).error().code, "flow.bad_discharge");
    for (const char* bad : {"", "2025-8-31", "31.08.2025", "2025-02-30", "2025-13-01", "abcd-01-01", "2025-08-3x",
                            "2025-08-31T10:00:00Z", "-025-08-31"})
        EXPECT_EQ(flow_to_use({test_of(1, bad, 0.1, 0.01)}).error().code, "flow.bad_date") << bad;
    const auto no_weight = flow_to_use({test_of(1, "2025-08-31", 0.1, 0.0), test_of(2, "2025-08-31", 0.1, 0.01)});
    ASSERT_FALSE(no_weight.ok());
    EXPECT_EQ(no_weight.error().code, "uncertainty.no_weight");
    EXPECT_EQ(no_weight.error().where, "2025-08-31");
}

} // namespace
} // namespace rillmark
