// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/container.h"
#include "flow/flow_to_use.h"
#include "flow/salt_trace.h"
#include "flow/velocity_area.h"
#include "site/survey.h"

#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// A figure on the way to a discharge.
struct FlowDetail {
    std::string code; // worded by the UI
    Estimate value;
    Quantity quantity = Quantity::Number;
};

/// The wave of salt at one probe.
struct SlugTrace {
    std::vector<Id> reading_ids; // of each mark of the prepared trace
    PreparedTrace prepared;
    TraceWindows windows; // in use: as chosen, else as suggested
    TraceIntegral integral;
};

/// What one flow test comes to.
struct TestResult {
    Id test_id = 0;
    std::optional<Budgeted> discharge;         // m3/s
    std::optional<VelocityAreaResult> gauging; // of a current-meter test
    std::vector<FlowDetail> details;           // what the surveyor looks at on the way
    std::vector<SlugTrace> traces;             // of a salt test, one a probe
    Findings findings;                         // also why there is no discharge
};

/// The readings of a test as its method takes them; struck ones are marked.
[[nodiscard]] std::vector<ContainerFill> fills_of(const Survey& survey, Id test);
[[nodiscard]] std::vector<Vertical> verticals_of(const Survey& survey, Id test);
/// The meter of a test; without one, a meter that shows the velocity itself.
[[nodiscard]] MeterRating rating_of(const Survey& survey, const FlowTestRow& test);

/// The result of one test by its method.
[[nodiscard]] TestResult test_result(const Survey& survey, const FlowTestRow& test);

/// All tests of the site that are not struck out, and the flow that they give together.
struct SiteFlow {
    std::vector<TestResult> tests; // in the order of booking
    std::optional<FlowToUse> to_use;
    Findings findings; // of the flow to use, or why there is none
};
[[nodiscard]] SiteFlow site_flow(const Survey& survey);

} // namespace rillmark
