// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "finding.h"
#include "flow/flow_method.h"
#include "uncertainty/estimate.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// One finished measurement of the discharge at a site. A flow that was only typed in is not a test.
struct FlowTest {
    std::int64_t id = 0;
    std::string name;
    FlowMethod method = FlowMethod::Container;
    Budgeted discharge; // m3/s, from container() or velocity_area()
    std::string date;   // UTC day, ISO 8601: 2025-08-31
    bool counts = true; // false: set aside by the user, or struck out
};

/// Which flow the design rests on.
enum class FlowChoice : std::uint8_t {
    LowestVisit,  // the mean of the visit with the least water: a plant must live with low water (the default)
    WeightedMean, // the mean of the visits by 1/u^2
    ChosenTest,   // one test that the user names
    Season,       // a figure of the year's flow; flow_to_use() itself takes the lowest visit then
};

/// The tests of one day, as one flow.
struct FlowVisit {
    std::string date;
    std::vector<std::int64_t> tests; // ids, in the order given
    Budgeted discharge;              // m3/s
    double birge_ratio = 1.0;
    bool tests_agree = true;
};

struct FlowToUse {
    FlowChoice choice = FlowChoice::LowestVisit;
    Budgeted discharge;            // m3/s
    std::vector<FlowVisit> visits; // by rising date; set-aside tests are left out
    Findings findings;
};

/// The flow to use, out of all tests of one site.
///
/// Rule. Tests of one day measured the same water: they are combined by weighted_mean (1/u^2), and their agreement is
/// tested: chi-square against its 95 % point for n - 1 degrees of freedom. Whenever they scatter more than they should,
/// the uncertainty is enlarged by the Birge ratio; when the test fails as well, `flow.tests_disagree` says so. Tests of
/// different days measured different water, so visits are by default not averaged: the lowest is used. The other
/// choices are FlowChoice::WeightedMean (over visits, enlarged likewise) and a test named by the user. The tests are
/// taken as independent; tests with one meter share its rating error and the true uncertainty is then somewhat larger.
/// Budget lines are those of the tests, with the test's name as the subject. Practice differs: lowest of the visits
/// (taken), mean, or a flow duration curve from a neighbouring gauge, which is the better base where there is one
/// (common practice, no source).
///
/// Warns: all rests on one visit (`flow.rests_on_one_visit`), on one test (`flow.rests_on_one_test`), tests of a day
/// disagree, a visit lower than the flow used (`flow.lower_visit_exists`).
/// Refuses: no test that counts (`flow.no_tests`), a discharge that is negative, above 100 000 m3/s or not
/// finite, or whose uncertainty is (`flow.bad_discharge`), a
/// date that is no ISO day (`flow.bad_date`), a chosen test that is absent or set aside (`flow.chosen_test_missing`),
/// and what weighted_mean refuses (a test without uncertainty among several).
[[nodiscard]] Expected<FlowToUse> flow_to_use(const std::vector<FlowTest>& tests,
                                              FlowChoice choice = FlowChoice::LowestVisit,
                                              std::optional<std::int64_t> chosen_test = std::nullopt);

} // namespace rillmark
