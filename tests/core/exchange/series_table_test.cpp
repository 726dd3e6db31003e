// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/series_table.h"

#include "exchange/logger_guess.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstring>

namespace rillmark {
namespace {

Expected<LoggerTable> read(const std::string& bytes, std::span<const LoggerField> fields) {
    const LoggerLayout layout = guess_logger_layout(logger_head(bytes, TextEncoding::Utf8), TextEncoding::Utf8, fields);
    std::size_t at = 0;
    const ByteSource source = [&bytes, at](char* room, std::size_t size) mutable -> std::optional<std::size_t> {
        const std::size_t part = std::min(size, bytes.size() - at);
        std::memcpy(room, bytes.data() + at, part);
        at += part;
        return part;
    };
    return read_logger_table(source, "file.csv", layout, fields, [](std::uint64_t) { return true; });
}

TEST(SeriesTable, AStageLogComesInUtcByItsClock) {
    const Expected<LoggerTable> table =
        read("date time;stage (cm)\n01.05.2026 00:00;41,2\n01.05.2026 00:15;41,0\n01.05.2026 00:30;40,9\n01.05.2026 00:45;\n", kStageLogFields);
    ASSERT_TRUE(table.ok()) << table.error().code;
    const Expected<StageLog> log = stage_log(*table, 3600.0);
    ASSERT_TRUE(log.ok()) << log.error().code;
    ASSERT_EQ(log->points.size(), 4u);
    EXPECT_EQ(log->points[0].time, std::chrono::sys_days(std::chrono::year(2026) / 4 / 30) + std::chrono::hours(23));
    EXPECT_DOUBLE_EQ(*log->points[0].stage_m, 0.412);
    EXPECT_FALSE(log->points[3].stage_m.has_value());
}

TEST(SeriesTable, ReadingsWithinASecondAreLeftOutAndCounted) {
    const Expected<LoggerTable> table = read("time,stage m\n2026-05-01 00:00:00.2,0.41\n2026-05-01 00:00:00.7,0.42\n2026-05-01 00:00:01.2,0.43\n",
                                             kStageLogFields);
    ASSERT_TRUE(table.ok()) << table.error().code;
    const Expected<StageLog> log = stage_log(*table);
    ASSERT_EQ(log->points.size(), 2u);
    EXPECT_TRUE(std::ranges::any_of(log->findings, [](const Finding& one) { return one.code == "exchange.series_within_second"; }));
}

TEST(SeriesTable, DailyFlowsKeepTheirMissingDays) {
    const Expected<LoggerTable> table =
        read("date,flow L/s\n2024-02-27,11\n2024-02-28,12\n2024-02-29,-999\n2024-03-01,14\n2024-03-03,15\n2024-03-04,\n", kDailyFlowFields);
    ASSERT_TRUE(table.ok()) << table.error().code;
    const Expected<DailyRecord> record = daily_flows(*table);
    ASSERT_TRUE(record.ok()) << record.error().code;
    ASSERT_EQ(record->series.flow_m3s.size(), 7u);
    EXPECT_DOUBLE_EQ(*record->series.flow_m3s[1], 0.012);
    for (const std::size_t missing : {2u, 4u, 6u}) // coded, without a row, empty
        EXPECT_FALSE(record->series.flow_m3s[missing].has_value()) << missing;
    EXPECT_DOUBLE_EQ(*record->series.flow_m3s[5], 0.015);
}

TEST(SeriesTable, WithoutADateItIsNoSeries) {
    const Expected<LoggerTable> table = read("time,stage m\n10:00:00,0.41\n10:15:00,0.42\n", kStageLogFields);
    ASSERT_TRUE(table.ok()) << table.error().code;
    EXPECT_EQ(stage_log(*table).error().code, "exchange.series_undated");
    EXPECT_EQ(daily_flows(*table).error().code, "exchange.series_undated");
}

TEST(SeriesTable, TwoReadingsOfADayAreRefused) {
    const Expected<LoggerTable> table = read("time,flow m3/s\n2026-05-01 00:00,0.41\n2026-05-01 12:00,0.42\n", kDailyFlowFields);
    ASSERT_TRUE(table.ok()) << table.error().code;
    EXPECT_EQ(daily_flows(*table).error().code, "flow.day_twice");
}

} // namespace
} // namespace rillmark
