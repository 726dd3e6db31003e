// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <cstdint>
#include <optional>
#include <string>

namespace rillmark {

/// Longest sight taken at all. Telescopes do not read a staff beyond about 300 m; over a wide river a target on the
/// staff is set by signal. Our choice, no source.
inline constexpr double kLongestSight_m = 10000.0;
/// Errors of a line of sight are told over this length.
inline constexpr double kToldOver_m = 100.0;
/// A swapped pair explains an error when it makes it so many times smaller. Our choice, no source.
inline constexpr double kSwapExplains = 10.0;

/// What a number is called in a refusal: the code of its name ("levels.reading_a") and the set-up it belongs to.
struct FieldPlace {
    std::string where;
    std::optional<std::int64_t> setup; // from 1; becomes the argument `row`
};

/// Refuses a reading that is not finite or beyond kLongestReading_m either way (`levels.field_reading_impossible`).
[[nodiscard]] Expected<void> check_staff_reading(double reading_m, const FieldPlace& place);

/// Refuses a length that is not finite, below zero or beyond kLongestSight_m (`levels.sight_length_impossible`).
[[nodiscard]] Expected<void> check_sight_length(double distance_m, const FieldPlace& place);

/// Refuses a standard uncertainty that is not finite or not above zero (`levels.uncertainty_impossible`).
[[nodiscard]] Expected<void> check_uncertainty_above_zero(double uncertainty_m, const std::string& where);

} // namespace rillmark
