// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "finding.h"

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace rillmark {

/// Mean flows of days that follow each other without a gap; a day without a figure is missing, never zero.
struct DailyFlow {
    std::chrono::sys_days first;
    std::vector<std::optional<double>> flow_m3s;

    [[nodiscard]] std::chrono::year_month_day day(std::size_t index) const {
        return first + std::chrono::days(static_cast<std::int64_t>(index));
    }
    /// The flows of the days that have one, in their order.
    [[nodiscard]] std::vector<double> known_m3s() const;
};

/// One row of a record of daily flows.
struct DayRecord {
    std::chrono::sys_days day;
    std::optional<double> flow_m3s;
};

struct DailyRecord {
    DailyFlow series;
    Findings findings;
};

// Our own choice: no record of daily flows is longer.
inline constexpr std::size_t kLongestRecord_days = 200 * 366;

/// A series of daily flows from the rows of a record, in any order.
///
/// A day is missing that has no row, no figure, or a figure below zero or not finite: such figures (-1, -999) are codes
/// for a missing day. The findings count them: `flow.days_missing` (a note; no row or no figure), `flow.days_coded` (a
/// warning). Days of exactly zero are flows, and counted by the note `flow.days_zero`, since some records code a
/// missing day so. Refuses: no row with a flow (`flow.no_days`), two rows of one day (`flow.day_twice`), a flow above
/// 1e5 m3/s (`flow.bad_daily_flow`), more than kLongestRecord_days
/// (`flow.record_too_long`).
[[nodiscard]] Expected<DailyRecord> daily_record(std::vector<DayRecord> rows);

} // namespace rillmark
