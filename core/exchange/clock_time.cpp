// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/clock_time.h"

#include "units/constants.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <chrono>
#include <cmath>
#include <iterator>
#include <string>

namespace rillmark {

namespace {

constexpr std::size_t kDateLength = 10; // 2026-03-01
constexpr std::size_t kYearLength = 4;
constexpr int kThisCentury = 2000;
constexpr std::string_view kMonths[] = {"jan", "feb", "mar", "apr", "may", "jun",
                                        "jul", "aug", "sep", "oct", "nov", "dec"};

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

bool same_letters(std::string_view text, std::string_view lower) {
    return std::equal(text.begin(), text.end(), lower.begin(), lower.end(),
                      [](char a, char b) { return std::tolower(static_cast<unsigned char>(a)) == b; });
}

std::optional<int> month_of(std::string_view text) {
    for (std::size_t i = 0; i < std::size(kMonths); ++i)
        if (same_letters(text.substr(0, kMonths[i].size()), kMonths[i]))
            return static_cast<int>(i) + 1;
    return whole_of(text, 12);
}

std::optional<double> day_s(int year_number, int month_number, int day_number) {
    using namespace std::chrono;
    const year_month_day date{year{year_number}, month{static_cast<unsigned>(month_number)},
                              day{static_cast<unsigned>(day_number)}};
    if (!date.ok())
        return {};
    return kSecondsPerDay * static_cast<double>(sys_days{date}.time_since_epoch().count());
}

std::optional<double> time_of_24_hours_s(std::string_view text) {
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

} // namespace

std::optional<double> time_of_day_s(std::string_view text) {
    std::string plain(text);
    std::replace(plain.begin(), plain.end(), ',', '.');
    const std::string_view end = text.substr(text.size() - std::min<std::size_t>(text.size(), 2));
    const bool after_noon = same_letters(end, "pm");
    if (!after_noon && !same_letters(end, "am"))
        return time_of_24_hours_s(plain);
    plain.erase(plain.find_last_not_of(' ', plain.size() - 3) + 1);
    const std::optional<double> time_s = time_of_24_hours_s(plain);
    // 12:05 AM is five past midnight; there is no hour 0 and none above 12
    if (!time_s || *time_s < kSecondsPerHour || *time_s >= 0.5 * kSecondsPerDay + kSecondsPerHour)
        return {};
    return std::fmod(*time_s, 0.5 * kSecondsPerDay) + (after_noon ? 0.5 * kSecondsPerDay : 0.0);
}

std::optional<double> date_s(std::string_view text, DateOrder order) {
    std::array<std::string_view, 3> parts;
    for (std::size_t i = 0; i < 2; ++i) {
        const std::size_t end = text.find_first_of("-/.");
        if (end == std::string_view::npos || end == 0)
            return {};
        parts[i] = text.substr(0, end);
        text.remove_prefix(end + 1);
    }
    parts[2] = text;
    if (text.empty())
        return {};
    if (parts[0].size() == kYearLength)
        order = DateOrder::YearMonthDay;
    const auto [year_at, month_at, day_at] = order == DateOrder::YearMonthDay   ? std::array{0U, 1U, 2U}
                                             : order == DateOrder::DayMonthYear ? std::array{2U, 1U, 0U}
                                                                                : std::array{2U, 0U, 1U};
    const std::optional<int> year_number = whole_of(parts[year_at], 9999);
    const std::optional<int> month_number = month_of(parts[month_at]);
    const std::optional<int> day_number = whole_of(parts[day_at], 31);
    if (!year_number || !month_number || !day_number ||
        (parts[year_at].size() != 2 && parts[year_at].size() != kYearLength))
        return {};
    return day_s(parts[year_at].size() == 2 ? kThisCentury + *year_number : *year_number, *month_number, *day_number);
}

std::optional<double> clock_time_s(std::string_view text) {
    if (text.find(':') == std::string_view::npos)
        return number_of(text);
    if (text.ends_with('Z'))
        text.remove_suffix(1);
    if (text.size() <= kDateLength || (text[kDateLength] != ' ' && text[kDateLength] != 'T'))
        return time_of_24_hours_s(text);
    if (text[kYearLength] != '-')
        return {};
    const std::optional<double> day_begins_s = date_s(text.substr(0, kDateLength), DateOrder::YearMonthDay);
    const std::optional<double> time_s = time_of_24_hours_s(text.substr(kDateLength + 1));
    if (!day_begins_s || !time_s)
        return {};
    return *day_begins_s + *time_s;
}

} // namespace rillmark
