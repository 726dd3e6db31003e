// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/format_quantity.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr std::string_view kNoNumber = "–";
constexpr std::string_view kMinus = "−";
constexpr std::string_view kNoBreakSpace = "\u00A0";
constexpr double kExponentFrom = 1e15; // a double has no more than 15 sure digits
constexpr int kMostDecimals = 9;       // of a result; an uncertainty below that counts as none
constexpr int kMostDecimalsAsked = 15;
constexpr int kMostDecimalsOfReading = 6;

/// The locale's marks put into "1525.3".
std::string with_marks(const std::string& plain, const NumberFormat& format) {
    const std::size_t whole = std::min(plain.find('.'), plain.size());
    std::string text;
    for (std::size_t i = 0; i < whole; ++i) {
        if (format.group && i > 0 && (whole - i) % 3 == 0)
            text += *format.group == ' ' ? kNoBreakSpace : std::string_view(&*format.group, 1);
        text += plain[i];
    }
    if (whole < plain.size())
        text += format.decimal + plain.substr(whole + 1);
    return text;
}

/// Rounded to so many decimals; negative ones round to tens, hundreds, ...
std::string number_text(double number, int decimals, const NumberFormat& format) {
    if (!std::isfinite(number))
        return std::string(kNoNumber);
    std::string plain;
    const double size = std::abs(number);
    if (size >= kExponentFrom) {
        plain = fmt::format("{:.3e}", size);
        std::replace(plain.begin(), plain.end(), '.', format.decimal);
    } else if (decimals < 0) {
        const double place = std::pow(10.0, -decimals);
        plain = with_marks(fmt::format("{:.0f}", std::round(size / place) * place), format);
    } else {
        plain = with_marks(fmt::format("{:.{}f}", size, decimals), format);
    }
    const bool is_zero = plain.find_first_of("123456789") == std::string::npos;
    return (number < 0.0 && !is_zero ? std::string(kMinus) : std::string()) + plain;
}

int order_of_magnitude(double positive) {
    return static_cast<int>(std::floor(std::log10(positive)));
}

/// Decimals that show one significant digit of the +/-, or two where it then begins with 1 or 2 (2.96 begins with 3).
int decimals_of_plus_minus(double plus_minus) {
    const int order = order_of_magnitude(plus_minus);
    const double first_digit = plus_minus / std::pow(10.0, order);
    return (first_digit < 2.95 ? 1 : 0) - order;
}

int decimals_of_reading(double number, const Unit& unit) {
    const double size = std::abs(number);
    if (unit.quantity == Quantity::Length || !(size >= std::pow(10.0, -kMostDecimalsOfReading)))
        return unit.decimals;
    return std::clamp(1 - order_of_magnitude(size), unit.decimals, std::max(unit.decimals, kMostDecimalsOfReading));
}

/// A degree, minute or second sign follows its number without a space (SI brochure, 9th ed., 5.4.3).
bool is_set_close(std::string_view unit) {
    return unit == "°" || unit == "′" || unit == "″";
}

} // namespace

std::string Shown::text() const {
    std::string all = value;
    if (!plus_minus.empty())
        all += " ± " + plus_minus;
    if (!unit.empty())
        all += (is_set_close(unit) ? "" : " ") + unit;
    return all;
}

Shown show_value_in(double si, const Unit& unit, const NumberFormat& format, std::optional<int> decimals) {
    const double number = from_si(unit, si);
    const int places = decimals ? std::clamp(*decimals, 0, kMostDecimalsAsked) : decimals_of_reading(number, unit);
    return {number_text(number, places, format), {}, std::string(unit.symbol)};
}

Shown show_value(double si, Quantity quantity, const DisplayOptions& options, std::optional<int> decimals) {
    return show_value_in(si, display_unit(quantity, options.system, si), options.number, decimals);
}

std::string format_value(double si, Quantity quantity, const DisplayOptions& options, std::optional<int> decimals) {
    return show_value(si, quantity, options, decimals).text();
}

Shown show_estimate_in(const Estimate& estimate, const Unit& unit, const NumberFormat& format) {
    const double plus_minus = difference_from_si(unit, estimate.expanded());
    if (!std::isfinite(plus_minus) || plus_minus < 0.0) {
        Shown unsure = show_value_in(estimate.value, unit, format);
        unsure.plus_minus = kNoNumber;
        return unsure;
    }
    if (plus_minus < std::pow(10.0, -kMostDecimals)) {
        Shown exact = show_value_in(estimate.value, unit, format);
        exact.plus_minus = "0";
        return exact;
    }
    const int decimals = std::min(decimals_of_plus_minus(plus_minus), kMostDecimals);
    return {number_text(from_si(unit, estimate.value), decimals, format), number_text(plus_minus, decimals, format),
            std::string(unit.symbol)};
}

Shown show_estimate(const Estimate& estimate, Quantity quantity, const DisplayOptions& options) {
    return show_estimate_in(estimate, display_unit(quantity, options.system, estimate.value), options.number);
}

std::string format_estimate(const Estimate& estimate, Quantity quantity, const DisplayOptions& options) {
    return show_estimate(estimate, quantity, options).text();
}

} // namespace rillmark
