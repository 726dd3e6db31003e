// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/import_features.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>

namespace rillmark {

namespace {

constexpr std::string_view kAnySpace = " \t\r\n\f\v";

std::string_view without_space_around(std::string_view text) {
    const std::size_t from = text.find_first_not_of(kAnySpace);
    return from == std::string_view::npos ? std::string_view()
                                          : text.substr(from, text.find_last_not_of(kAnySpace) - from + 1);
}

/// The digits at the front as a number of that many digits.
std::optional<int> take_digits(std::string_view& text, std::size_t count) {
    int value = 0;
    if (text.size() < count)
        return {};
    const auto [end, error] = std::from_chars(text.data(), text.data() + count, value);
    if (error != std::errc() || end != text.data() + count || text.front() == '-')
        return {};
    text.remove_prefix(count);
    return value;
}

bool take_letter(std::string_view& text, char letter) {
    if (text.empty() || text.front() != letter)
        return false;
    text.remove_prefix(1);
    return true;
}

/// Thousandths of a second after the point; nothing where no digit follows.
std::optional<int> take_milliseconds(std::string_view& text) {
    int value = 0;
    int places = 0;
    std::size_t digits = 0;
    while (digits < text.size() && text[digits] >= '0' && text[digits] <= '9') {
        if (places < 3) {
            value = value * 10 + (text[digits] - '0');
            ++places;
        }
        ++digits;
    }
    if (digits == 0)
        return {};
    for (; places < 3; ++places)
        value *= 10;
    text.remove_prefix(digits);
    return value;
}

/// Minutes that the zone at the end is ahead of UTC; a time without a zone is in UTC.
std::optional<int> take_zone(std::string_view& text) {
    if (text.empty() || take_letter(text, 'Z'))
        return 0;
    const int sign = take_letter(text, '+') ? 1 : take_letter(text, '-') ? -1 : 0;
    if (sign == 0)
        return {};
    const std::optional<int> hours = take_digits(text, 2);
    take_letter(text, ':');
    const std::optional<int> minutes = take_digits(text, 2);
    if (!hours || !minutes || *hours > 23 || *minutes > 59)
        return {};
    return sign * (*hours * 60 + *minutes);
}

} // namespace

const std::string* field_of(const ImportFeature& feature, const std::string& name) {
    const auto found = std::ranges::find(feature.fields, name, &std::pair<std::string, std::string>::first);
    return found == feature.fields.end() ? nullptr : &found->second;
}

std::size_t point_count(const ImportFeature& feature) {
    std::size_t count = 0;
    for (const std::vector<ImportPoint>& part : feature.parts)
        count += part.size();
    return count;
}

std::optional<double> import_number(std::string_view text) {
    std::string_view number = without_space_around(text);
    if (number.starts_with('+'))
        number.remove_prefix(1);
    double value = 0.0;
    const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), value);
    if (number.empty() || error != std::errc() || end != number.data() + number.size() || !std::isfinite(value))
        return {};
    return value;
}

Expected<ImportPoint> import_point(const std::string& longitude, const std::string& latitude) {
    const std::optional<double> x = import_number(longitude);
    const std::optional<double> y = import_number(latitude);
    constexpr double kHalfTurn_deg = 180.0;
    constexpr double kPole_deg = 90.0;
    if (!x || !y || std::fabs(*x) > kHalfTurn_deg || std::fabs(*y) > kPole_deg)
        return refusal("exchange.import_not_a_position", {}, {{"longitude", longitude}, {"latitude", latitude}});
    return ImportPoint{*x, *y, {}, {}, {}};
}

std::string import_time(std::string_view text) {
    std::string_view rest = without_space_around(text);
    const std::optional<int> year = take_digits(rest, 4);
    if (!year || !take_letter(rest, '-'))
        return {};
    const std::optional<int> month = take_digits(rest, 2);
    if (!month || !take_letter(rest, '-'))
        return {};
    const std::optional<int> day = take_digits(rest, 2);
    if (!day || !(take_letter(rest, 'T') || take_letter(rest, ' ')))
        return {};
    const std::optional<int> hour = take_digits(rest, 2);
    if (!hour || *hour > 23 || !take_letter(rest, ':'))
        return {};
    const std::optional<int> minute = take_digits(rest, 2);
    if (!minute || *minute > 59 || !take_letter(rest, ':'))
        return {};
    const std::optional<int> second = take_digits(rest, 2);
    if (!second || *second > 59)
        return {};
    const std::optional<int> thousandths = take_letter(rest, '.') ? take_milliseconds(rest) : std::optional(0);
    const std::optional<int> ahead = take_zone(rest);
    const std::chrono::year_month_day date{std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)),
                                           std::chrono::day(static_cast<unsigned>(*day))};
    if (!thousandths || !ahead || !rest.empty() || !date.ok())
        return {};
    const auto at = std::chrono::sys_days(date) + std::chrono::hours(*hour) + std::chrono::minutes(*minute - *ahead) +
                    std::chrono::seconds(*second);
    const auto midnight = std::chrono::floor<std::chrono::days>(at);
    const std::chrono::year_month_day utc(midnight);
    const std::chrono::hh_mm_ss clock(at - midnight);
    if (static_cast<int>(utc.year()) < 1 || static_cast<int>(utc.year()) > 9999)
        return {};
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{:03}Z", static_cast<int>(utc.year()),
                       static_cast<unsigned>(utc.month()), static_cast<unsigned>(utc.day()), clock.hours().count(),
                       clock.minutes().count(), clock.seconds().count(), *thousandths);
}

std::string import_text(std::string_view text) {
    std::string clean;
    for (const char letter : without_space_around(text)) {
        const bool space = kAnySpace.find(letter) != std::string_view::npos;
        if (!space && static_cast<unsigned char>(letter) < ' ')
            continue;
        if (!space)
            clean += letter;
        else if (!clean.ends_with(' '))
            clean += ' ';
    }
    if (clean.size() > kLongestImportText) {
        std::size_t end = kLongestImportText;
        while (end > 0 && (static_cast<unsigned char>(clean[end]) & 0xC0U) == 0x80U) // not within a letter
            --end;
        clean.resize(end);
    }
    return clean;
}

Expected<void> ImportCount::point() {
    if (++m_points > kImportMostPoints)
        return refusal("exchange.import_too_many_points", m_file,
                       {{"limit", static_cast<std::int64_t>(kImportMostPoints)}});
    return {};
}

Expected<void> ImportCount::feature() {
    if (++m_features > kImportMostFeatures)
        return refusal("exchange.import_too_many_features", m_file,
                       {{"limit", static_cast<std::int64_t>(kImportMostFeatures)}});
    return {};
}

} // namespace rillmark
