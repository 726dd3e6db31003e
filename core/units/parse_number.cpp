// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/parse_number.h"

#include "units/digit.h"

#include <algorithm>
#include <cstdint>
#include <locale>
#include <optional>
#include <sstream>
#include <string>

namespace rillmark {

namespace {

bool is_mark(char c) {
    return c == '.' || c == ',';
}

std::size_t digits_at_start(std::string_view text) {
    return static_cast<std::size_t>(std::find_if_not(text.begin(), text.end(), is_digit) - text.begin());
}

/// A space or apostrophe counts as thousands mark only before exactly three digits: it has other uses in a quantity.
bool is_spaced_group(std::string_view rest, const NumberFormat& format) {
    if (!format.group || is_mark(*format.group) || rest.empty() || rest.front() != *format.group)
        return false;
    return digits_at_start(rest.substr(1)) == 3 && !rest.substr(4).starts_with('/');
}

std::size_t length_of_digits_and_marks(std::string_view text, const NumberFormat& format) {
    std::size_t at = 0;
    while (at < text.size() &&
           (is_digit(text[at]) || is_mark(text[at]) || (at > 0 && is_spaced_group(text.substr(at), format))))
        ++at;
    return at;
}

/// The digits without their thousands marks, where those stand as the locale has them: 1-3 digits, the first not zero,
/// then groups of three.
std::optional<std::string> without_groups(std::string_view typed, const NumberFormat& format) {
    const std::size_t whole_length = std::min(typed.find(format.decimal), typed.size());
    std::string_view whole = typed.substr(0, whole_length);
    const std::string_view decimals = typed.substr(whole_length);
    if (decimals.find(*format.group) != std::string_view::npos)
        return std::nullopt;
    std::size_t length = digits_at_start(whole);
    if (length < 1 || length > 3 || whole.front() == '0')
        return std::nullopt;
    std::string digits(whole.substr(0, length));
    for (whole.remove_prefix(length); !whole.empty(); whole.remove_prefix(4)) {
        length = digits_at_start(whole.substr(1));
        if (whole.front() != *format.group || length != 3)
            return std::nullopt;
        digits += whole.substr(1, 3);
    }
    return digits + std::string(decimals);
}

/// The number as typed, with '.' for its decimal mark and no thousands marks.
Expected<std::string> canonical(std::string_view typed, const NumberFormat& format) {
    std::string digits(typed);
    if (format.group && typed.find(*format.group) != std::string_view::npos) {
        if (const std::optional<std::string> grouped = without_groups(typed, format))
            digits = *grouped;
        else if (!is_mark(*format.group))
            return refusal("units.not_a_number");
    }
    if (std::count_if(digits.begin(), digits.end(), is_mark) > 1)
        return refusal("units.two_marks");
    const auto mark = std::find_if(digits.begin(), digits.end(), is_mark);
    if (mark == digits.end())
        return digits;
    const auto whole_length = mark - digits.begin();
    const auto decimals_length = digits.end() - mark - 1;
    if (whole_length + decimals_length == 0)
        return refusal("units.not_a_number");
    const bool may_be_thousands = whole_length >= 1 && whole_length <= 3 && decimals_length == 3 && digits[0] != '0';
    if (*mark != format.decimal && may_be_thousands)
        return refusal(*mark == ',' ? "units.ambiguous_comma" : "units.ambiguous_point");
    *mark = '.';
    return digits;
}

std::size_t exponent_length(std::string_view text) {
    if (text.empty() || (text.front() != 'e' && text.front() != 'E'))
        return 0;
    const std::size_t sign = text.size() > 1 && (text[1] == '+' || text[1] == '-') ? 1 : 0;
    const std::size_t digits = digits_at_start(text.substr(1 + sign));
    return digits > 0 ? 1 + sign + digits : 0;
}

/// Digits with at most one point among them, few enough that both their whole number and the power of ten are exact:
/// their quotient is then the nearest double (W. D. Clinger, How to read floating point numbers accurately, 1990).
std::optional<double> short_decimal(std::string_view text) {
    constexpr std::size_t kExactDigits = 15;
    constexpr double kPowers[] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    if (text.empty() || text.size() > kExactDigits)
        return std::nullopt;
    std::int64_t whole = 0;
    std::size_t decimals = 0;
    bool after_point = false;
    for (const char c : text) {
        if (c == '.' && !after_point && text.size() > 1) {
            after_point = true;
            continue;
        }
        if (!is_digit(c))
            return std::nullopt;
        whole = 10 * whole + (c - '0');
        decimals += after_point ? 1 : 0;
    }
    return static_cast<double>(whole) / kPowers[decimals];
}

double to_double(const std::string& canonical_text) {
    if (const std::optional<double> value = short_decimal(canonical_text))
        return *value;
    // A stream with the classic locale: std::from_chars for double is still missing from some mobile toolchains, and
    // std::strtod follows the locale of the process.
    std::istringstream stream(canonical_text);
    stream.imbue(std::locale::classic());
    double value = 0.0;
    stream >> value; // beyond the range of double: the largest double, which the caller refuses by its size
    return value;
}

struct Fraction {
    double numerator = 0.0;
    double denominator = 0.0;
    std::size_t length = 0; // 0: no fraction
};

Fraction fraction_at_start(std::string_view text) {
    const std::size_t upper = digits_at_start(text);
    if (upper == 0 || !text.substr(upper).starts_with('/'))
        return {};
    const std::size_t lower = digits_at_start(text.substr(upper + 1));
    if (lower == 0)
        return {};
    return {to_double(std::string(text.substr(0, upper))), to_double(std::string(text.substr(upper + 1, lower))),
            upper + 1 + lower};
}

} // namespace

Expected<ParsedNumber> parse_number(std::string_view plain, const NumberFormat& format) {
    if (const Fraction alone = fraction_at_start(plain); alone.length > 0) {
        if (alone.denominator == 0.0)
            return refusal("units.bad_fraction");
        return ParsedNumber{alone.numerator / alone.denominator, alone.length, false};
    }
    const std::size_t length = length_of_digits_and_marks(plain, format);
    if (length == 0)
        return ParsedNumber{};
    const Expected<std::string> digits = canonical(plain.substr(0, length), format);
    if (!digits)
        return digits.error();
    const std::string_view rest = plain.substr(length);
    const std::size_t exponent = exponent_length(rest);
    ParsedNumber number{to_double(*digits + std::string(rest.substr(0, exponent))), length + exponent,
                        exponent == 0 && digits->find('.') == std::string::npos};
    if (!number.whole)
        return number;
    const std::size_t spaces = std::min(rest.find_first_not_of(' '), rest.size());
    const Fraction added = fraction_at_start(rest.substr(spaces));
    if (spaces == 0 || added.length == 0)
        return number;
    if (!(added.numerator < added.denominator))
        return refusal("units.bad_fraction");
    return ParsedNumber{number.value + added.numerator / added.denominator, length + spaces + added.length, false};
}

} // namespace rillmark
