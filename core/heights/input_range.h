// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"

#include <initializer_list>
#include <optional>

namespace rillmark {

/// An input of a height method and the range that it can have.
struct InputRange {
    const char* where; // code of the input, worded by the UI ("levels.eye_height")
    double value;
    double lowest;
    double highest;
    Quantity quantity;
};

/// The refusal `levels.input_out_of_range` for the first input that is not within its range (ends included); a value
/// that is not finite is never within.
[[nodiscard]] std::optional<Finding> first_out_of_range(std::initializer_list<InputRange> inputs);

} // namespace rillmark
