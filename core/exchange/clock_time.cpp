// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/clock_time.h"

#include <charconv>
#include <chrono>
#include <cmath>

namespace rillmark {

namespace {

constexpr double kSecondsPerMinute = 60.0;
constexpr double kSecondsPerHour = 3600.0;
constexpr double kSecondsPerDay = 86400.0;
constexpr std::size_t kDateLength = 10; // 2026-03-01

std::optional<double> number_of(std::string_view text) {
    double number = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number, std::chars_format::fixed);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(number))
        return {};
    return number;
}

std::optional<int> whole_of(std::string_view text, int highest) {
    int number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size() || text.front() == '-' || number > highest)
        return {};
    return number;
}

std::optional<double> time_of_day_s(std::string_view text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos || colon == 0)
        return {};
    const std::optional<int> hours = whole_of(text.substr(0, colon), 23);
    const std::string_view rest = text.substr(colon + 1);
    if (!hours || rest.size() < 2 || (rest.size() > 2 && (rest[2] != ':' || rest.size() < 5)))
        return {};
    const std::optional<int> minutes = whole_of(rest.substr(0, 2), 59);
    const std::optional<double> seconds = rest.size() > 2 ? number_of(rest.substr(3)) : 0.0;
    if (!minutes || !seconds || *seconds < 0.0 || *seconds >= kSecondsPerMinute)
        return {};
    return *hours * kSecondsPerHour + *minutes * kSecondsPerMinute + *seconds;
}

std::optional<double> date_s(std::string_view text) {
    using namespace std::chrono;
    if (text[4] != '-' || text[7] != '-')
        return {};
    const std::optional<int> year_number = whole_of(text.substr(0, 4), 9999);
    const std::optional<int> month_number = whole_of(text.substr(5, 2), 12);
    const std::optional<int> day_number = whole_of(text.substr(8, 2), 31);
    if (!year_number || !month_number || !day_number)
        return {};
    const year_month_day date{year{*year_number}, month{static_cast<unsigned>(*month_number)},
                              day{static_cast<unsigned>(*day_number)}};
    if (!date.ok())
        return {};
    return kSecondsPerDay * static_cast<double>(sys_days{date}.time_since_epoch().count());
}

} // namespace

std::optional<double> clock_time_s(std::string_view text) {
    if (text.find(':') == std::string_view::npos)
        return number_of(text);
    if (text.ends_with('Z'))
        text.remove_suffix(1);
    if (text.size() <= kDateLength || (text[kDateLength] != ' ' && text[kDateLength] != 'T'))
        return time_of_day_s(text);
    const std::optional<double> day_s = date_s(text);
    const std::optional<double> time_s = time_of_day_s(text.substr(kDateLength + 1));
    if (!day_s || !time_s)
        return {};
    return *day_s + *time_s;
}

} // namespace rillmark
