// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "season/daily_flow.h"
#include "season/stage_rating.h"

#include <chrono>
#include <cstddef>
#include <optional>
#include <vector>

namespace rillmark {

/// One entry of a stage log, in UTC.
struct StagePoint {
    std::chrono::sys_seconds time;
    std::optional<double> stage_m; // nothing: the logger has no figure
};

struct FlowPoint {
    std::chrono::sys_seconds time;
    std::optional<RatedFlow> flow; // nothing: no stage, or NoFlow
    RatedRange range = RatedRange::Within;
};

struct FlowSeries {
    std::vector<FlowPoint> points;
    Findings findings;
};

/// The flows of a stage log by a rating, each marked where its stage stands outside the gauged ones.
///
/// Warns with counts of stages above and below the gauged range (`flow.stages_above`, `flow.stages_below`), at or below
/// the stage of no flow (`flow.stages_no_flow`), and notes entries without a stage (`flow.stages_missing`).
/// Refuses: an empty log (`flow.no_stages`), times that do not rise (`flow.times_do_not_rise`), a stage that is not
/// finite or beyond 100 m (`flow.bad_stage`).
[[nodiscard]] Expected<FlowSeries> flow_series(const std::vector<StagePoint>& log, const StageRating& rating);

/// Mean flow of each UTC day that has flows for at least `least_part` of the entries of the fullest day (our own
/// choice: 0.75); other days are missing. Entries are weighted alike: for a log at even intervals.
/// Refuses a series without flow (`flow.no_days`), or longer than kLongestRecord_days (`flow.record_too_long`).
[[nodiscard]] Expected<DailyFlow> daily_means(const FlowSeries& series, double least_part = 0.75);

} // namespace rillmark
