// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "project/project.h"
#include "season/daily_flow.h"
#include "season/stage_series.h"

#include <optional>
#include <string>
#include <vector>

namespace rillmark {

// What a series can be, as the file names it.
inline constexpr const char* kStageSeries = "stage";
inline constexpr const char* kDailyFlowSeries = "daily-flow";

/// The readings of one series; which of the two is filled is up to its kind.
struct SeriesValues {
    std::vector<StagePoint> stages;
    DailyFlow daily;
    std::optional<Finding> fault; // why there are none, where the file holds something else
};

// Our own choice: short enough to be read as a table cell, long enough that a million readings are few rows.
inline constexpr std::size_t kReadingsInABlock = 2000;

/// The readings as rows of the file; `series_id` is for the caller to fill in. Times are whole seconds, the numbers the
/// shortest that read back to the same.
[[nodiscard]] std::vector<FlowSeriesBlockRow> stage_blocks(const std::vector<StagePoint>& log);
[[nodiscard]] std::vector<FlowSeriesBlockRow> daily_blocks(const DailyFlow& series);

/// The readings of one series from its blocks in order. Refuses text that is none of ours (`project.bad_series`), a
/// daily series whose days do not follow each other or that is longer than kLongestRecord_days (likewise).
[[nodiscard]] Expected<SeriesValues> series_values(const std::string& kind,
                                                   const std::vector<const FlowSeriesBlockRow*>& blocks);

/// Books a series with all its readings in one transaction.
[[nodiscard]] Expected<Id> book_series(Project& project, FlowSeriesRow series, std::vector<FlowSeriesBlockRow> blocks);

} // namespace rillmark
