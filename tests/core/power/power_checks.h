// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "checks/checks.h"
#include "units/units.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace rillmark::power_checks {

inline nlohmann::json entry(const std::string& id) {
    return checks::entry("power", id);
}

/// SI value of a number in a US or other unit.
inline double si(double number, Quantity quantity, const char* unit) {
    return to_si(find_unit(quantity, unit).value(), number);
}
inline double feet(double number) {
    return si(number, Quantity::Length, "ft");
}
inline double inches(double number) {
    return si(number, Quantity::Length, "in");
}
inline double square_feet(double number) {
    return si(number, Quantity::Area, "ft2");
}
inline double cfs(double number) {
    return si(number, Quantity::Discharge, "cfs");
}
inline double gpm(double number) {
    return si(number, Quantity::Discharge, "gpm");
}

/// Compares with the expected value `key` within the tolerance of the entry (that of the key, or the one for all).
inline void expect(const nlohmann::json& check, const char* key, double actual) {
    const double expected = check.at("expected").at(key);
    const nlohmann::json& tolerance =
        check.at("tolerance").contains(key) ? check.at("tolerance").at(key) : check.at("tolerance").at("all");
    const double allowed = std::max(tolerance.value("rel", 0.0) * std::abs(expected), tolerance.value("abs", 0.0));
    EXPECT_NEAR(actual, expected, allowed) << check.at("id") << " " << key;
}

/// The relative roughness whose factor is `darcy` where the wall is fully rough: with a viscosity near zero the factor
/// is then constant, as in the textbook problems that give it.
inline double roughness_of_constant_factor(double darcy) {
    return 3.7 * std::pow(10.0, -0.5 / std::sqrt(darcy));
}
inline constexpr double kNearlyNoViscosity_m2s = 1e-20;

} // namespace rillmark::power_checks
