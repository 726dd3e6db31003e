// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "uncertainty/estimate.h"
#include "units/parse_quantity.h"
#include "units/units.h"

#include <optional>
#include <string>

namespace rillmark {

struct DisplayOptions {
    UnitSystem system = UnitSystem::Metric;
    NumberFormat number;
};

/// A quantity as shown, in parts for a screen that sets them in different type.
struct Shown {
    std::string value;
    std::string plus_minus; // without the sign; empty for a plain value
    std::string unit;       // empty for a number

    /// "36.2 ± 0.4 ft", or "36.2 ft" where there is no plus_minus.
    [[nodiscard]] std::string text() const;
};

/// A value with its +/- (k = 2) in the unit that display_unit picks.
///
/// The +/- has two significant digits where it begins with 1 or 2, else one (JCGM 100:2008, 7.2.6, wants at most two),
/// and the value is rounded to the same place. An exact value (+/- below 1e-9 of the unit) is shown as a plain value
/// with "0"; what is not finite, or an uncertainty below zero, as "–". From 1e15 on numbers are written with an
/// exponent.
[[nodiscard]] Shown show_estimate(const Estimate& estimate, Quantity quantity, const DisplayOptions& options);

/// show_estimate in a unit of the caller's choice.
[[nodiscard]] Shown show_estimate_in(const Estimate& estimate, const Unit& unit, const NumberFormat& format);

/// show_estimate(...).text().
[[nodiscard]] std::string format_estimate(const Estimate& estimate, Quantity quantity, const DisplayOptions& options);

/// A plain reading in the unit that display_unit picks: with `decimals` (0..15), else as many as the unit has by common
/// practice (staff readings 0.001 m and 0.001 ft), and more, to two significant digits, for small values that are not
/// lengths.
[[nodiscard]] Shown show_value(double si, Quantity quantity, const DisplayOptions& options,
                               std::optional<int> decimals = {});

/// show_value in a unit of the caller's choice: what an entry field with that unit holds.
[[nodiscard]] Shown show_value_in(double si, const Unit& unit, const NumberFormat& format,
                                  std::optional<int> decimals = {});

/// show_value(...).text().
[[nodiscard]] std::string format_value(double si, Quantity quantity, const DisplayOptions& options,
                                       std::optional<int> decimals = {});

} // namespace rillmark
