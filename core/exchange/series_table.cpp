// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/series_table.h"

#include <cmath>
#include <utility>

namespace rillmark {

namespace {

std::chrono::sys_seconds whole_second(double time_s) {
    return std::chrono::sys_seconds(std::chrono::seconds(static_cast<std::int64_t>(std::floor(time_s))));
}

} // namespace

Expected<StageLog> stage_log(const LoggerTable& table, double clock_ahead_s) {
    if (!table.dated())
        return refusal("exchange.series_undated");
    StageLog log{{}, table.findings()};
    log.points.reserve(table.size());
    for (std::size_t row = 0; row < table.size(); ++row) {
        const std::chrono::sys_seconds time = whole_second(table.time_s(row) - clock_ahead_s);
        if (log.points.empty() || time > log.points.back().time)
            log.points.push_back({time, table.value(row, 0)});
    }
    if (log.points.size() < table.size())
        log.findings.push_back(warning("exchange.series_within_second", {},
                                       {{"count", static_cast<std::int64_t>(table.size() - log.points.size())}}));
    return log;
}

Expected<DailyRecord> daily_flows(const LoggerTable& table) {
    if (!table.dated())
        return refusal("exchange.series_undated");
    std::vector<DayRecord> days;
    days.reserve(table.size());
    for (std::size_t row = 0; row < table.size(); ++row)
        days.push_back({std::chrono::floor<std::chrono::days>(whole_second(table.time_s(row))), table.value(row, 0)});
    return daily_record(std::move(days));
}

} // namespace rillmark
