// SPDX-License-Identifier: GPL-3.0-or-later
// Files as loggers write them, all invented: what is guessed of each, and that it is read with that guess.
#include "core/exchange/logger_fixtures.h"

#include <gtest/gtest.h>

namespace rillmark {
namespace {

using namespace exchange_fixtures;

struct Shape {
    const char* name;
    std::string bytes;
    double second_time_s; // of the second row, after the first
    double ec_Sm;         // of the second row
    bool dated;
};

std::string twenty_lines() {
    std::string text;
    for (int i = 1; i < 20; ++i)
        text += "Line " + std::to_string(i) + " of the header: serial number 12, started 2026-03-01 10:00:00\r\n";
    return text;
}

std::vector<Shape> shapes() {
    return {
        {"plain", "time_s,conductivity_uS_cm\n0,100\n5,150.5\n10,120\n", 5.0, 0.01505, false},
        {"one column of date and time",
         "Date Time,Cond (uS/cm),Temp (C)\n2026-03-01 10:00:00,100,8.1\n2026-03-01 10:00:02,151,8.1\n", 2.0, 0.0151,
         true},
        {"semicolon, decimal comma, two columns, day first",
         "Datum;Uhrzeit;Leitf. [mS/cm];Temp [\xC2\xB0"
         "C]\r\n13.04.2026;09:59:58;0,100;7,5\r\n13.04.2026;10:00:03;0,151;7,5\r\n",
         5.0, 0.0151, true},
        {"Latin-1", "Zeit;Leitf. (\xB5S/cm)\n10:00:00;100,0\n10:00:01;151,0\n", 1.0, 0.0151, false},
        {"UTF-8 with its mark", "\xEF\xBB\xBFtime,EC \xC2\xB5S/cm\n10:00:00,100\n10:00:01,151\n", 1.0, 0.0151, false},
        {"UTF-16 little endian", "\xFF\xFE" + utf16("time,EC uS/cm\r\n10:00:00,100\r\n10:00:01,151\r\n", true), 1.0,
         0.0151, false},
        {"UTF-16 big endian", "\xFE\xFF" + utf16("time,EC uS/cm\r\n10:00:00,100\r\n10:00:01,151\r\n", false), 1.0,
         0.0151, false},
        {"UTF-16 without a mark", utf16("time,EC uS/cm\r\n10:00:00,100\r\n10:00:01,151\r\n", true), 1.0, 0.0151, false},
        {"a header of twenty lines",
         twenty_lines() +
             "No.,Date,Time,EC\r\n,,,uS/cm\r\n1,3/25/2026,1:05:09 PM,100\r\n2,3/25/2026,1:05:10 PM,151\r\n",
         1.0, 0.0151, true},
        {"minutes since the start", "elapsed (min)\tEC (S/m)\n0.0\t0.0100\n0.5\t0.0151\n1.0\t0.02\n", 30.0, 0.0151,
         false},
        {"spaces, no header", "10:00:00 100\n10:00:01 151\n10:00:02 130\n", 1.0, 0.0151, false},
        {"quoted", "\"time\",\"EC (uS/cm)\"\n\"10:00:00\",\"100\"\n\"10:00:01\",\"151\"\n", 1.0, 0.0151, false},
        {"month by name and a zone", "when,EC uS/cm\n01-Mar-2026 10:00:00+01:00,100\n01-Mar-2026 10:00:01+01:00,151\n",
         1.0, 0.0151, true},
    };
}

TEST(LoggerGuess, ReadsTheShapesThatLoggersWrite) {
    for (const Shape& shape : shapes()) {
        const LoggerLayout layout = guessed(shape.bytes);
        const Expected<LoggerTable> table = read_as(shape.bytes, layout);
        ASSERT_TRUE(table.ok()) << shape.name << ": " << table.error().code << " line "
                                << argument(table.error(), "line") << " column " << argument(table.error(), "column")
                                << " first line " << layout.first_line;
        ASSERT_GE(table->size(), 2u) << shape.name;
        EXPECT_DOUBLE_EQ(table->time_s(1) - table->time_s(0), shape.second_time_s) << shape.name;
        ASSERT_TRUE(table->value(1, 0).has_value()) << shape.name;
        EXPECT_DOUBLE_EQ(*table->value(1, 0), shape.ec_Sm) << shape.name;
        EXPECT_EQ(table->dated(), shape.dated) << shape.name;
    }
}

TEST(LoggerGuess, FindsTheTemperatureOfTheWater) {
    const std::string bytes = "time,Temp (F),EC (uS/cm)\n0,50,100\n1,50,100\n";
    const Expected<LoggerTable> table = read_as(bytes, guessed(bytes));
    ASSERT_TRUE(table.ok());
    EXPECT_NEAR(*table->value(0, 1), 10.0, 1e-12); // 50 degrees Fahrenheit
    EXPECT_DOUBLE_EQ(*table->value(0, 0), 0.01);
}

TEST(LoggerGuess, TellsDayFromMonthWhereALineTells) {
    EXPECT_EQ(guessed("date,time,ec\n4/13/2026,10:00:00,1\n4/13/2026,10:00:01,1\n").date_order,
              DateOrder::MonthDayYear);
    EXPECT_EQ(guessed("date,time,ec\n13/4/2026,10:00:00,1\n13/4/2026,10:00:01,1\n").date_order,
              DateOrder::DayMonthYear);
    EXPECT_EQ(guessed("date,time,ec\n3/4/2026,10:00:00,1\n3/4/2026,10:00:01,1\n").date_order,
              DateOrder::DayMonthYear); // none tells
}

TEST(LoggerGuess, ReadsAStageOrAPressureToo) {
    constexpr LoggerField stage[] = {{"exchange.slope_area.height", Quantity::Length, true}};
    const std::string bytes = "Date,Time,Water level (mm)\n2026-05-01,00:00,412\n2026-05-01,00:15,415\n";
    const Expected<LoggerTable> table = read_as(bytes, guessed(bytes, stage), stage);
    ASSERT_TRUE(table.ok()) << table.error().code;
    EXPECT_DOUBLE_EQ(*table->value(1, 0), 0.415);
    EXPECT_DOUBLE_EQ(table->usual_step_s(), 900.0);
    EXPECT_DOUBLE_EQ(table->time_s(0), 1777593600.0); // 2026-05-01, from a calendar: 20574 days after 1970-01-01
}

TEST(LoggerGuess, NothingIsGuessedOfNoTable) {
    for (const std::string& bytes : {std::string(), std::string("\n\n\n"), std::string("no table here\nat all\n"),
                                     std::string(500, '\xFF'), std::string("\xFF\xFE", 2), std::string(3, '\0')}) {
        const LoggerLayout layout = guessed(bytes);
        EXPECT_FALSE(layout.values.at(0).has_value());
        EXPECT_FALSE(read_as(bytes, layout).ok());
    }
}

TEST(LoggerGuess, NamesAColumnWithTheUnitUnderIt) {
    const std::string bytes = "Time,EC\n,uS/cm\n10:00:00,100\n10:00:01,151\n";
    const std::vector<std::string> lines = logger_head(bytes, TextEncoding::Utf8);
    EXPECT_EQ(logger_column_names(lines, guessed(bytes)), (std::vector<std::string>{"Time", "EC uS/cm"}));
    EXPECT_EQ(unit_in_name("T C", Quantity::Temperature)->symbol, "\xC2\xB0"
                                                                  "C");
    EXPECT_FALSE(unit_in_name("C", Quantity::Temperature).has_value());
    EXPECT_FALSE(unit_in_name("", Quantity::Length).has_value());
}

} // namespace
} // namespace rillmark
