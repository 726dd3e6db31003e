// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/logger_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <random>

namespace rillmark {
namespace {

using namespace exchange_fixtures;

LoggerLayout plain_layout() {
    return guessed("time,ec uS/cm,temp C\n10:00:00,100,8\n10:00:01,100,8\n");
}

void expect_refused_at(const std::string& bytes, const LoggerLayout& layout, const std::string& code, int line,
                       const std::string& column) {
    const Expected<LoggerTable> table = read_as(bytes, layout);
    ASSERT_FALSE(table.ok()) << code;
    EXPECT_EQ(table.error().code, code);
    EXPECT_EQ(argument(table.error(), "line"), std::to_string(line)) << code;
    EXPECT_EQ(argument(table.error(), "column"), column) << code;
}

bool says(const LoggerTable& table, const std::string& code) {
    return std::ranges::any_of(table.findings(), [&](const Finding& one) { return one.code == code; });
}

TEST(LoggerTable, RefusesWithLineAndColumn) {
    const LoggerLayout layout = plain_layout();
    const std::string head = "time,ec uS/cm,temp C\n10:00:00,100,8\n";
    expect_refused_at(head + "10:00:00,101,8\n", layout, "exchange.logger_time_twice", 3, "1");
    expect_refused_at(head + "09:59:59,101,8\n", layout, "exchange.logger_time_backwards", 3, "1");
    expect_refused_at(head + "10:00:01,1o1,8\n", layout, "exchange.logger_not_a_number", 3, "2");
    expect_refused_at(head + "10:00:01,\"1,5\",8\n", layout, "exchange.logger_not_a_number", 3,
                      "2"); // the mark is the point
    expect_refused_at(head + "10:00:01,101,warm\n", layout, "exchange.logger_not_a_number", 3, "3");
    expect_refused_at(head + "10:61:01,101,8\n", layout, "exchange.logger_time_unreadable", 3, "1");
    expect_refused_at(head + "2026-03-01 10:00:01,101,8\n", layout, "exchange.logger_time_unreadable", 3,
                      "1"); // others have no date
    expect_refused_at(head + "\n\n10:00:01\n", layout, "exchange.logger_row_short", 5, "2");
    expect_refused_at(head + std::string("10:00:01,1\0,8\n", 14), layout, "exchange.csv_nul", 3, "");
    expect_refused_at(head + std::string(kLongestLine_bytes + 70000, 'x'), layout, "exchange.line_too_long", 3, "");
}

TEST(LoggerTable, RefusesAColumnThatNobodyChoseAndAFileWithoutRows) {
    LoggerLayout layout = plain_layout();
    layout.values[0].reset();
    EXPECT_EQ(read_as("x\n", layout).error().code, "exchange.logger_column_not_chosen");
    EXPECT_EQ(read_as("", plain_layout()).error().code, "exchange.logger_no_rows");
    const ByteSource broken = [](char*, std::size_t) { return std::optional<std::size_t>(); };
    EXPECT_EQ(read_logger_table(broken, "f", plain_layout(), kConductivity, {}).error().code,
              "exchange.file_unreadable");
}

TEST(LoggerTable, TheSameClockTimesOverMidnightGoOn) {
    const Expected<LoggerTable> table =
        read_as("time,ec,t\n23:59:59,100,8\n00:00:00,101,8\n00:00:01,102,8\n", plain_layout());
    ASSERT_TRUE(table.ok());
    EXPECT_DOUBLE_EQ(table->time_s(1), 86400.0);
    EXPECT_DOUBLE_EQ(table->time_s(2), 86401.0);
    EXPECT_TRUE(says(*table, "exchange.logger_midnight"));
}

TEST(LoggerTable, ADatedClockThatFallsIsNoMidnight) {
    const std::string bytes =
        "time,ec uS/cm\n2026-10-25 02:59:00,100\n2026-10-25 02:00:00,100\n"; // the end of summer time
    expect_refused_at(bytes, guessed(bytes), "exchange.logger_time_backwards", 3, "1");
}

TEST(LoggerTable, SaysWhatIsMissingUnequalAndFarApart) {
    const Expected<LoggerTable> table = read_as(
        "time,ec,t\n10:00:00,100,8\n10:00:01,,8\n10:00:02,-,n/a\n10:00:02.5,101,NaN\n10:00:03,7\n10:01:00,-5,8\n",
        plain_layout());
    ASSERT_TRUE(table.ok()) << table.error().code;
    EXPECT_EQ(table->size(), 6u);
    EXPECT_FALSE(table->value(1, 0).has_value());
    EXPECT_FALSE(table->value(2, 0).has_value());
    EXPECT_FALSE(table->value(3, 1).has_value());
    EXPECT_FALSE(table->value(4, 1).has_value()); // a column that need not be there may be cut off
    EXPECT_DOUBLE_EQ(*table->value(5, 0), -5e-4);
    EXPECT_TRUE(says(*table, "exchange.logger_missing"));
    EXPECT_TRUE(says(*table, "exchange.logger_gaps"));
    EXPECT_TRUE(says(*table, "exchange.logger_uneven"));
    EXPECT_FALSE(says(*read_as("time,ec,t\n10:00:00,100,8\n10:00:01,100,8\n10:00:02,100,8\n", plain_layout()),
                      "exchange.logger_uneven"));
}

TEST(LoggerTable, LeavesOutBadLinesOnlyWhereAsked) {
    LoggerLayout layout = plain_layout();
    const std::string bytes = "time,ec,t\n10:00:00,100,8\nprobe out of water\n10:00:02,102,8\nEnd of file\n";
    EXPECT_FALSE(read_as(bytes, layout).ok());
    layout.leave_out_bad_lines = true;
    const Expected<LoggerTable> table = read_as(bytes, layout);
    ASSERT_TRUE(table.ok());
    EXPECT_EQ(table->size(), 2u);
    ASSERT_TRUE(says(*table, "exchange.logger_lines_left_out"));
    EXPECT_EQ(argument(table->findings().front(), "count"), "2");
    EXPECT_EQ(argument(table->findings().front(), "line"), "3");
}

TEST(LoggerTable, TheSizeOfThePiecesChangesNothing) {
    const std::string plain = "time,ec uS/cm\r\n10:00:00,100\r\n10:00:01,\xE2\x82\xAC\r\n\r\n10:00:02,102";
    LoggerLayout layout = guessed("time,ec uS/cm\n10:00:00,100\n10:00:01,100\n");
    layout.leave_out_bad_lines = true;
    const std::string wide = "\xFF\xFE" + utf16("time,ec uS/cm\r\n10:00:00,100\r10:00:02,102\n", true);
    for (const std::string& bytes : {plain, wide}) {
        layout.encoding = guess_encoding(bytes);
        for (std::size_t piece = 1; piece < 40; ++piece) {
            const Expected<LoggerTable> table = read_logger_table(pieces(bytes, piece), "f", layout, kConductivity, {});
            ASSERT_TRUE(table.ok()) << piece << table.error().code;
            ASSERT_EQ(table->size(), 2u) << piece;
            EXPECT_DOUBLE_EQ(*table->value(1, 0), 0.0102);
        }
    }
}

TEST(LoggerTable, TellsHowFarItIsAndEndsWhenTold) {
    std::string bytes = "time_s,ec uS/cm\n";
    for (int i = 0; i < 300000; ++i)
        bytes += std::to_string(i) + ",100\n";
    const LoggerLayout layout = guessed(bytes.substr(0, 1000));
    std::uint64_t last = 0;
    int told = 0;
    const auto count = [&](std::uint64_t read) {
        EXPECT_GT(read, last);
        last = read;
        return ++told < 2;
    };
    EXPECT_EQ(read_logger_table(pieces(bytes, 65536), "f", layout, kConductivity, count).error().code,
              "exchange.logger_cancelled");
    EXPECT_EQ(told, 2);
    EXPECT_EQ(read_logger_table(pieces(bytes, 65536), "f", layout, kConductivity, {})->size(), 300000u);
}

TEST(LoggerTable, AMillionRowsTakeEightBytesANumber) {
    std::size_t row = 0;
    const ByteSource million = [&](char* room, std::size_t size) -> std::optional<std::size_t> {
        std::size_t used = 0;
        while (row < 1'000'000 && used + 40 < size) {
            const std::string line = std::to_string(row) + "," + std::to_string(100 + row % 50) + ".5,8.1\n";
            line.copy(room + used, line.size());
            used += line.size();
            ++row;
        }
        return used;
    };
    LoggerLayout layout = guessed("time_s,ec uS/cm,temp C\n0,1,8\n1,2,8\n");
    layout.first_line = 1;
    const auto resident_KiB = [] {
        std::ifstream status("/proc/self/status");
        std::string word;
        while (status >> word)
            if (word == "VmRSS:") {
                long amount = 0;
                status >> amount;
                return amount;
            }
        return 0L;
    };
    const long before_KiB = resident_KiB();
    const Expected<LoggerTable> table = read_logger_table(million, "f", layout, kConductivity, {});
    ASSERT_TRUE(table.ok()) << table.error().code;
    EXPECT_EQ(table->size(), 1'000'000u);
    if (before_KiB > 0) {
        EXPECT_LT(resident_KiB() - before_KiB, 64 * 1024); // 24 MB of numbers, and what the vectors keep in reserve
    }
}

TEST(LoggerTable, RandomBytesNeverDoMoreThanRefuse) {
    std::mt19937 random(20260501);
    const std::string letters = "0123456789:,;.- \t\r\n\"TZ+/aN\xC2\xB5";
    for (int round = 0; round < 2000; ++round) {
        std::string bytes;
        for (unsigned i = 0; i < random() % 200; ++i)
            bytes += letters[random() % letters.size()];
        const Expected<LoggerTable> table = read_as(bytes, guessed(bytes));
        if (table.ok())
            for (std::size_t i = 1; i < table->size(); ++i)
                ASSERT_GT(table->time_s(i), table->time_s(i - 1)) << bytes;
        else
            ASSERT_FALSE(table.error().code.empty());
    }
}

TEST(LoggerClock, ReadsDatesAndTimesOfManyHands) {
    constexpr double kMarch1_s = 1772323200.0; // 2026-03-01, from a calendar
    EXPECT_EQ(date_s("2026-03-01", DateOrder::DayMonthYear), kMarch1_s);
    EXPECT_EQ(date_s("2026/3/1", DateOrder::YearMonthDay), kMarch1_s);
    EXPECT_EQ(date_s("01.03.2026", DateOrder::DayMonthYear), kMarch1_s);
    EXPECT_EQ(date_s("3/1/26", DateOrder::MonthDayYear), kMarch1_s);
    EXPECT_EQ(date_s("01-Mar-2026", DateOrder::DayMonthYear), kMarch1_s);
    for (const char* text : {"", "2026", "2026-03", "31.02.2026", "2026-13-01", "1.3.226", "a-b-c", "--", "1//2026"})
        EXPECT_FALSE(date_s(text, DateOrder::DayMonthYear)) << text;
    EXPECT_EQ(time_of_day_s("12:05 AM"), 300.0);
    EXPECT_EQ(time_of_day_s("12:05:00 pm"), 43500.0);
    EXPECT_EQ(time_of_day_s("07:05:09,5"), 25509.5);
    EXPECT_FALSE(time_of_day_s("13:05 PM"));
    EXPECT_FALSE(time_of_day_s("0:05 PM"));
    EXPECT_FALSE(time_of_day_s("PM"));
}

TEST(LoggerNumber, TakesOneMarkOnly) {
    EXPECT_EQ(logger_number("+1.5", '.'), 1.5);
    EXPECT_EQ(logger_number("-1,5e2", ','), -150.0);
    for (const char* text : {"", "1,5", "1.5.2", "inf", "nan", "0x1", "1 5", "--", "1e999"})
        EXPECT_FALSE(logger_number(text, '.')) << text;
}

} // namespace
} // namespace rillmark
