// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "units/quantity.h"

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace rillmark {

enum class UnitSystem { Metric, UsCustomary };

/// A unit of one quantity. SI value = (number + offset) * factor; offset is zero but for degrees Fahrenheit.
///
/// Factors are the exact ones of NIST Special Publication 811 (2008 edition), appendix B.8, unless a line of the table
/// says otherwise. Foot and mile are the international ones (0.3048 m exactly), not the retired US survey foot; gallon
/// is the US gallon; ounce and pound are avoirdupois; horsepower is the mechanical one (550 ft lbf/s).
struct Unit {
    std::string_view symbol;    // as shown, UTF-8: "m³/s"
    std::string_view spellings; // as typed, plain ASCII, separated by '|'; the first is the symbol without accents
    Quantity quantity = Quantity::Number;
    double factor = 1.0;
    double offset = 0.0;
    int decimals = 2;                 // shown for a plain reading that carries no uncertainty
    std::optional<UnitSystem> system; // the system it is at home in; none: both
};

[[nodiscard]] constexpr double to_si(const Unit& unit, double number) {
    return (number + unit.offset) * unit.factor;
}
[[nodiscard]] constexpr double from_si(const Unit& unit, double si) {
    return si / unit.factor - unit.offset;
}
/// For a difference or an uncertainty, to which an offset does not apply.
[[nodiscard]] constexpr double difference_from_si(const Unit& unit, double si_difference) {
    return si_difference / unit.factor;
}

/// Every unit in which the quantity may be typed, in keypad order: those of the system first. Never empty; the first is
/// the unit that is assumed when none is typed.
[[nodiscard]] std::vector<Unit> units_for(Quantity quantity, UnitSystem system);

/// The unit assumed when none is typed: units_for(...).front().
[[nodiscard]] Unit entry_unit(Quantity quantity, UnitSystem system);

/// The unit in which a value is shown; it depends on the size of the value where the trade changes unit (L/s below
/// 1 m3/s, gpm below 0.5 cfs, W below 10 kW, g below 1 kg, ...). The limits are common practice, no source. A value
/// that is not finite gets the unit of a large value.
[[nodiscard]] Unit display_unit(Quantity quantity, UnitSystem system, double value_in_si);

/// The unit of that quantity that is spelled so: case, accents and superscripts do not matter ("l/s", "m³/s", "µS/cm").
[[nodiscard]] std::optional<Unit> find_unit(Quantity quantity, std::string_view spelling);

struct UnitMatch {
    Unit unit;
    std::size_t length = 0; // bytes of the text that spell it
};

/// The longest spelling of a unit of the quantity with which a text, made plain by plain_text, begins. What follows it
/// is for the caller to judge.
[[nodiscard]] std::optional<UnitMatch> unit_at_start(Quantity quantity, std::string_view plain);

} // namespace rillmark
