// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/answer.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace rillmark::sync {

namespace {

using std::chrono::seconds;

// the second in which it was written, and the one after, because both times are cut to whole seconds
constexpr seconds kYoung{2};

std::optional<int> number(std::string_view text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || text.empty() || text.front() == '-')
        return std::nullopt;
    return value;
}

std::optional<unsigned> month_number(std::string_view name) {
    static constexpr std::array<std::string_view, 12> kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                              "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const auto* hit = std::ranges::find(kMonths, name);
    if (hit == kMonths.end())
        return std::nullopt;
    return static_cast<unsigned>(hit - kMonths.begin()) + 1;
}

} // namespace

std::optional<Seconds> parse_http_date(std::string_view text) {
    // "Sun, 06 Nov 1994 08:49:37 GMT": every part has its place
    constexpr std::string_view kForm = "Sun, 06 Nov 1994 08:49:37 GMT";
    if (text.size() != kForm.size() || text.substr(3, 2) != ", " || text[7] != ' ' || text[11] != ' ' ||
        text[16] != ' ' || text[19] != ':' || text[22] != ':' || text.substr(25) != " GMT")
        return std::nullopt;
    const auto day = number(text.substr(5, 2));
    const auto month = month_number(text.substr(8, 3));
    const auto year = number(text.substr(12, 4));
    const auto hour = number(text.substr(17, 2));
    const auto minute = number(text.substr(20, 2));
    const auto second = number(text.substr(23, 2));
    if (!day || !month || !year || !hour || !minute || !second || *hour > 23 || *minute > 59 || *second > 60)
        return std::nullopt;
    const std::chrono::year_month_day date{std::chrono::year(*year), std::chrono::month(*month),
                                           std::chrono::day(static_cast<unsigned>(*day))};
    if (!date.ok())
        return std::nullopt;
    return Seconds(std::chrono::sys_days(date)) + std::chrono::hours(*hour) + std::chrono::minutes(*minute) +
           seconds(*second);
}

std::optional<seconds> retry_after(const Answer& answer) {
    if (const auto count = number(answer.retry_after))
        return seconds(*count);
    const auto until = parse_http_date(answer.retry_after);
    const auto now = parse_http_date(answer.date);
    if (!until || !now)
        return std::nullopt;
    return std::max(seconds(0), *until - *now);
}

std::optional<EntityTag> parse_entity_tag(std::string_view text) {
    // long enough for any server that is well; it is sent back in a header
    constexpr std::size_t kLongest = 512;
    EntityTag tag;
    if (text.starts_with("W/")) {
        tag.weak = true;
        text.remove_prefix(2);
    }
    if (text.size() < 2 || text.size() > kLongest || text.front() != '"' || text.back() != '"')
        return std::nullopt;
    const bool clean = std::ranges::all_of(text.substr(1, text.size() - 2), [](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return byte == 0x21 || (byte >= 0x23 && byte != 0x7F); // RFC 9110, section 8.8.3, etagc
    });
    if (!clean)
        return std::nullopt;
    tag.opaque = text;
    return tag;
}

bool same_tag(std::string_view one, std::string_view other) {
    const auto first = parse_entity_tag(one);
    const auto second = parse_entity_tag(other);
    return first && second && first->opaque == second->opaque;
}

bool is_young(const Answer& answer) {
    const auto written = parse_http_date(answer.last_modified);
    const auto now = parse_http_date(answer.date);
    return written && now && *now >= *written && *now - *written < kYoung;
}

} // namespace rillmark::sync
