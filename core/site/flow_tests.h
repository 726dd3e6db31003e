// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/container.h"
#include "flow/flow_to_use.h"
#include "flow/salt_trace.h"
#include "flow/velocity_area.h"
#include "site/survey.h"

#include <memory>
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
    std::optional<double> discharge_m3s; // by this probe alone, where the salt is known
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
/// By distance along the tape, whatever the order of booking.
[[nodiscard]] std::vector<Vertical> verticals_of(const Survey& survey, Id test);
/// A vertical without its readings.
[[nodiscard]] Vertical vertical_of(const VerticalRow& row, bool struck = false);
[[nodiscard]] PointReading reading_of(const VelocityRow& row, std::shared_ptr<const MeterRating> meter,
                                      bool struck = false);
/// The rating of a meter; with a slope of 0 it is one that shows the velocity itself.
[[nodiscard]] MeterRating rating_of(const MeterRow& meter);
/// Looks over a meter before it is booked: refuses a range of which a part is missing, or that follows one that is not
/// there (`site.meter_range_in_part`), and what check_rating refuses.
[[nodiscard]] Expected<Findings> check_meter(const MeterRow& meter);
/// What a gauging takes for its readings; without a meter, one that shows the velocity itself.
[[nodiscard]] VelocityAreaOptions velocity_area_options(const Survey& survey, const FlowTestRow& test);

/// The result of one test by its method.
[[nodiscard]] TestResult test_result(const Survey& survey, const FlowTestRow& test);

/// What may be taken of the flow to use, and what stays.
struct UsableFlow {
    Budgeted usable; // m3/s
    double left_m3s = 0.0;
    unsigned month = 0; // of the monthly table; 0 without one
    Findings findings;
};

/// All tests of the site that are not struck out, and the flow that they give together.
struct SiteFlow {
    std::vector<TestResult> tests; // in the order of booking
    std::vector<FlowVisit> visits; // days of all tests that count, by rising date
    std::optional<FlowToUse> to_use;
    std::optional<UsableFlow> usable; // of it, by the rule of the flow to leave; filled in by site_estimate
    std::optional<double> flood_m3s; // the largest that a method for floods gave
    Findings findings; // of the flow to use, or why there is none
};
/// With months chosen (SiteRow::flow_from_month and flow_to_month, over the turn of the year too) the flow to use is that of
/// the visits in them; `site.other_months` counts the others.
[[nodiscard]] SiteFlow site_flow(const Survey& survey);

// "2026-05-14" of an ISO 8601 time.
inline constexpr std::size_t kIsoDayLength = 10;
/// Whether a day ("2026-05-14") is in the months whose visits count.
[[nodiscard]] bool in_flow_months(const SiteRow& site, const std::string& day);

} // namespace rillmark
