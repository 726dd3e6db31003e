// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace rillmark {

/// Seconds of a time as loggers write it: a number of seconds; `7:05`, `07:05:09` or `07:05:09.5` (seconds of the day);
/// or one of these after a date `2026-03-01`, a space or `T` between, a `Z` at the end allowed (seconds since 1970 in
/// the clock's own zone). Nothing for other text, and for dates and times that there are not.
[[nodiscard]] std::optional<double> clock_time_s(std::string_view text);

/// How a date is written where its first number is not a year of four digits.
enum class DateOrder : std::uint8_t { YearMonthDay, DayMonthYear, MonthDayYear };

/// Seconds since 1970 of the midnight that begins a date: three numbers with `-`, `/` or `.` between, the month perhaps
/// by the first three letters of its English name. Years of two digits are of this century. Nothing for other text.
[[nodiscard]] std::optional<double> date_s(std::string_view text, DateOrder order);

/// Seconds of the day of `7:05`, `07:05:09`, `07:05:09.5`, `07:05:09,5`; with AM or PM of half a day.
[[nodiscard]] std::optional<double> time_of_day_s(std::string_view text);

} // namespace rillmark
