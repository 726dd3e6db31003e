// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace rillmark {

/// Whether a value lies in a range, its ends included; false for what is not a number.
[[nodiscard]] constexpr bool in_range(double value, double low, double high) {
    return value >= low && value <= high;
}

} // namespace rillmark
