// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/iso_time.h"

#include <charconv>
#include <cstdio>

namespace rillmark {

std::optional<std::chrono::sys_days> day_from_iso(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-')
        return std::nullopt;
    const auto number = [text](std::size_t from, std::size_t length) {
        unsigned value = 0;
        const char* const end = text.data() + from + length;
        const auto [stop, error] = std::from_chars(text.data() + from, end, value);
        return error == std::errc() && stop == end ? value : 0U;
    };
    const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(number(0, 4))),
                                          std::chrono::month(number(5, 2)), std::chrono::day(number(8, 2))};
    if (!day.ok() || day.year() == std::chrono::year(0)) // 0 stands for text that is no number
        return std::nullopt;
    return std::chrono::sys_days(day);
}

std::optional<double> seconds_of_utc(const std::string& utc) {
    int year = 0;
    unsigned month = 0;
    unsigned day = 0;
    int hour = 0;
    int minute = 0;
    double second = 0.0;
    if (std::sscanf(utc.c_str(), "%4d-%2u-%2uT%2d:%2d:%6lfZ", &year, &month, &day, &hour, &minute, &second) != 6)
        return {};
    const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
    if (!date.ok())
        return {};
    return std::chrono::duration<double>(std::chrono::sys_days(date).time_since_epoch()).count() + 3600.0 * hour + 60.0 * minute +
           second;
}

} // namespace rillmark
