// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "season/daily_flow.h"
#include "season/flow_duration.h"
#include "uncertainty/estimate.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace rillmark {

// Our own choice: a year with fewer days than that says nothing of its lowest.
inline constexpr std::size_t kDaysOfAFullYear = 350;
// Common practice, no source: years that a low flow should rest on.
inline constexpr std::size_t kGoodYears = 10;

/// Lowest mean of seven days that follow each other without a gap in one year.
struct YearLow {
    int year = 0; // in which it begins
    double lowest_m3s = 0.0;
};

/// The figures of a record of daily flows. Uncertainties are those of the sample of years: the scatter of the full
/// years' own figures over sqrt(years), times student_factor; none with fewer than two full years. The gauge's own
/// error is not in them.
struct DailySummary {
    std::size_t days = 0; // with a flow
    std::size_t full_years = 0;
    double mean_m3s = 0.0;
    std::optional<double> q50_m3s; // reached or passed for half of the time
    std::optional<double> q95_m3s;
    std::optional<double> mean_u_m3s;
    std::optional<double> q50_u_m3s;
    std::optional<double> q95_u_m3s;
    std::optional<Estimate> low7_m3s; // mean of the years' lowest seven-day means; uncertainty 0 for one year
    std::vector<YearLow> year_lows;
    std::optional<double> base_flow_index;
    Findings findings;
};

struct SummaryOptions {
    PlottingRule rule = PlottingRule::Weibull;
    unsigned year_begins = 1; // month, 1 to 12: choose the wettest, so that a low flow is not cut in two
};

/// Summary of a record. A year counts with kDaysOfAFullYear days or more. Warns of fewer than kGoodYears full years
/// (`flow.record_short`). Refuses a record without flow (`flow.no_days`), a month that is none (`flow.bad_option`).
[[nodiscard]] Expected<DailySummary> daily_summary(const DailyFlow& series, const SummaryOptions& options = {});

/// Base-flow index: part of the flow that comes from storage, by smoothed minima. Lowest flow of each block of five
/// days; such a low turns the base flow where 0.9 of it is not above either neighbour; straight lines between turns,
/// capped at the flow; index = base flow over flow from the first turn to the last. A block with a missing day ends the
/// line, and the next run begins anew. Source: Institute of Hydrology, Low Flow Studies (1980), and report 108
/// (Gustard, Bullock and Dixon 1992), from memory, unconfirmed. Practice differs (digital filters give other numbers).
/// Nothing where no two turns follow each other.
[[nodiscard]] std::optional<double> base_flow_index(const DailyFlow& series);

} // namespace rillmark
