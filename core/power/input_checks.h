// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <cmath>

namespace rillmark {

// What every computation of this folder asks of its numbers; `where` is the code of the input.

[[nodiscard]] inline Expected<void> check_positive(const char* where, double value,
                                                   Quantity quantity = Quantity::Number) {
    if (!std::isfinite(value))
        return refusal("uncertainty.not_finite", where);
    if (value <= 0.0)
        return refusal("power.not_positive", where, {{"value", value, quantity}});
    return {};
}

[[nodiscard]] inline Expected<void> check_not_negative(const char* where, double value,
                                                       Quantity quantity = Quantity::Number) {
    if (!std::isfinite(value))
        return refusal("uncertainty.not_finite", where);
    if (value < 0.0)
        return refusal("power.negative", where, {{"value", value, quantity}});
    return {};
}

/// The first refusal of several checks.
template <class... Checks>
[[nodiscard]] Expected<void> first_refusal(const Checks&... checks) {
    Expected<void> first;
    (void)((checks.ok() || (first = checks, false)) && ...);
    return first;
}

} // namespace rillmark
