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

/// The flow series of a stage log, day by day.
struct RatedDays {
    DailyFlow daily;
    std::vector<bool> outside; // a day with a stage outside the gauged ones
    Findings findings;
};

/// The mean flow of each UTC day of a stage log by a rating. A day has one that has flows for at least `least_part` of
/// the entries of the fullest day (our own choice: 0.75); other days are missing. Entries are weighted alike: for a log
/// at even intervals. The log is gone through once, and nothing is kept of an entry: it may have a million of them.
///
/// Warns with counts of stages above and below the gauged range (`flow.stages_above`, `flow.stages_below`), at or below
/// the stage of no flow (`flow.stages_no_flow`), and notes entries without a stage (`flow.stages_missing`).
/// Refuses: an empty log (`flow.no_stages`), times that do not rise (`flow.times_do_not_rise`), a stage that is not
/// finite or beyond 100 m (`flow.bad_stage`), a log without flow (`flow.no_days`), or longer than kLongestRecord_days
/// (`flow.record_too_long`).
[[nodiscard]] Expected<RatedDays> rated_days(const std::vector<StagePoint>& log, const StageRating& rating,
                                             double least_part = 0.75);

} // namespace rillmark
