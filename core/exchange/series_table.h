// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/logger_table.h"
#include "season/daily_flow.h"
#include "season/stage_series.h"

#include <array>
#include <vector>

namespace rillmark {

// What a file with a stage log, or with daily flows, is read for.
inline constexpr std::array<LoggerField, 1> kStageLogFields{{{"exchange.series_stage", Quantity::Length, true}}};
inline constexpr std::array<LoggerField, 1> kDailyFlowFields{{{"exchange.series_flow", Quantity::Discharge, true}}};

struct StageLog {
    std::vector<StagePoint> points;
    Findings findings;
};

/// The stage log in a table read for kStageLogFields, in UTC: `clock_ahead_s` is how far the logger's clock is ahead of
/// it. Of readings within one second the first is kept (`exchange.series_within_second` counts the others). Refuses a
/// table whose times have no date (`exchange.series_undated`).
[[nodiscard]] Expected<StageLog> stage_log(const LoggerTable& table, double clock_ahead_s = 0.0);

/// The daily flows in a table read for kDailyFlowFields, by its own dates. Refuses what daily_record refuses and a
/// table without dates (`exchange.series_undated`).
[[nodiscard]] Expected<DailyRecord> daily_flows(const LoggerTable& table);

} // namespace rillmark
