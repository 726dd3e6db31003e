// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/flow_to_use.h"

#include "flow/independent_budget.h"
#include "uncertainty/chi_squared.h"
#include "uncertainty/propagate.h"
#include "units/iso_time.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <string_view>
#include <utility>

namespace rillmark {

namespace {

constexpr double kLargestFlow_m3s = 1e5;     // no river carries more
constexpr double kSmallestDoubt_m3s = 1e-12; // below this only a mistake, and weights without bound
// Common practice, no source: the level of the test that results agree.
constexpr double kAgreement = 0.95;

bool plausible(const Estimate& flow) {
    const bool exact = flow.standard_uncertainty == 0.0;
    return flow.value >= 0.0 && flow.value <= kLargestFlow_m3s &&
           (exact ||
            (flow.standard_uncertainty >= kSmallestDoubt_m3s && flow.standard_uncertainty <= kLargestFlow_m3s));
}

std::optional<Finding> bad_test(const FlowTest& test) {
    const Estimate& flow = test.discharge.estimate;
    if (!plausible(flow))
        return refusal("flow.bad_discharge", test.name, {{"value", flow.value, Quantity::Discharge}});
    if (!day_from_iso(test.date))
        return refusal("flow.bad_date", test.name, {{"date", test.date}});
    return std::nullopt;
}

/// The lines of a test, each under the test's name; a test without lines becomes one.
Budgeted named(const FlowTest& test) {
    Budgeted flow = test.discharge;
    for (BudgetLine& line : flow.budget)
        line.subject = test.name;
    if (flow.budget.empty())
        flow.budget.push_back({"flow.test", test.name, flow.estimate.standard_uncertainty, 1.0});
    return flow;
}

struct Mean {
    Budgeted discharge;
    double birge_ratio = 1.0;
    bool agree = true;
};

Expected<Mean> mean_of(const std::vector<Budgeted>& flows) {
    if (flows.size() == 1)
        return Mean{flows.front(), 1.0, true};
    std::vector<Estimate> estimates;
    for (const Budgeted& flow : flows)
        estimates.push_back(flow.estimate);
    const Expected<WeightedMean> mean = weighted_mean(estimates);
    if (!mean)
        return mean.error();
    std::vector<BudgetLine> lines;
    for (std::size_t i = 0; i < flows.size(); ++i)
        for (BudgetLine line : flows[i].budget) {
            line.contribution *= mean->weights[i] * mean->birge_ratio;
            lines.push_back(std::move(line));
        }
    const std::size_t degrees = flows.size() - 1;
    const double chi_squared = mean->birge_ratio * mean->birge_ratio * static_cast<double>(degrees);
    Mean result{combine_independent(mean->estimate.value, std::move(lines)), mean->birge_ratio,
                chi_squared <= chi_squared_quantile(kAgreement, degrees)};
    // The lines sum to this but for rounding, and but for tests whose own lines are correlated.
    result.discharge.estimate = mean->estimate;
    return result;
}

Expected<std::vector<FlowVisit>> visits_of(const std::vector<FlowTest>& tests, Findings& findings) {
    std::map<std::string, std::vector<const FlowTest*>> by_day;
    for (const FlowTest& test : tests) {
        if (!test.counts)
            continue;
        if (const std::optional<Finding> bad = bad_test(test))
            return *bad;
        by_day[test.date].push_back(&test);
    }
    std::vector<FlowVisit> visits;
    for (const auto& [date, of_day] : by_day) {
        std::vector<Budgeted> flows;
        FlowVisit visit;
        visit.date = date;
        for (const FlowTest* test : of_day) {
            visit.tests.push_back(test->id);
            flows.push_back(named(*test));
        }
        Expected<Mean> mean = mean_of(flows);
        if (!mean) {
            Finding refused = mean.error();
            refused.where = date;
            return refused;
        }
        visit.discharge = std::move(mean->discharge);
        visit.birge_ratio = mean->birge_ratio;
        visit.tests_agree = mean->agree;
        if (!visit.tests_agree)
            findings.push_back(warning(
                "flow.tests_disagree", date,
                {{"date", date}, {"count", static_cast<std::int64_t>(of_day.size())}, {"factor", visit.birge_ratio}}));
        visits.push_back(std::move(visit));
    }
    return visits;
}

Expected<Budgeted> chosen(const std::vector<FlowTest>& tests, std::optional<std::int64_t> id) {
    for (const FlowTest& test : tests)
        if (id && test.id == *id && test.counts)
            return named(test);
    return refusal("flow.chosen_test_missing");
}

double visit_flow_m3s(const FlowVisit& visit) {
    return visit.discharge.estimate.value;
}

Expected<Budgeted> mean_of_visits(const std::vector<FlowVisit>& visits, Findings& findings) {
    std::vector<Budgeted> flows;
    for (const FlowVisit& visit : visits)
        flows.push_back(visit.discharge);
    Expected<Mean> mean = mean_of(flows);
    if (!mean)
        return mean.error();
    if (!mean->agree)
        findings.push_back(
            warning("flow.visits_differ", {},
                    {{"count", static_cast<std::int64_t>(visits.size())}, {"factor", mean->birge_ratio}}));
    return std::move(mean->discharge);
}

} // namespace

Expected<FlowToUse> flow_to_use(const std::vector<FlowTest>& tests, FlowChoice choice,
                                std::optional<std::int64_t> chosen_test) {
    FlowToUse use;
    use.choice = choice;
    Expected<std::vector<FlowVisit>> visits = visits_of(tests, use.findings);
    if (!visits)
        return visits.error();
    if (visits->empty())
        return refusal("flow.no_tests");
    use.visits = std::move(visits).value();
    const FlowVisit& lowest = *std::ranges::min_element(use.visits, {}, visit_flow_m3s);

    Expected<Budgeted> flow = lowest.discharge;
    if (choice == FlowChoice::WeightedMean)
        flow = mean_of_visits(use.visits, use.findings);
    else if (choice == FlowChoice::ChosenTest)
        flow = chosen(tests, chosen_test);
    if (!flow)
        return flow.error();
    use.discharge = std::move(flow).value();

    std::size_t counted = 0;
    for (const FlowVisit& visit : use.visits)
        counted += visit.tests.size();
    if (counted == 1)
        use.findings.push_back(warning("flow.rests_on_one_test", {}, {{"date", lowest.date}}));
    else if (use.visits.size() == 1)
        use.findings.push_back(warning("flow.rests_on_one_visit", {}, {{"date", lowest.date}}));
    if (visit_flow_m3s(lowest) < use.discharge.estimate.value && use.visits.size() > 1)
        use.findings.push_back(warning("flow.lower_visit_exists", {},
                                       {{"date", lowest.date},
                                        {"lowest", visit_flow_m3s(lowest), Quantity::Discharge},
                                        {"used", use.discharge.estimate.value, Quantity::Discharge}}));
    return use;
}

} // namespace rillmark
