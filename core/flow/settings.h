// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "units/in_range.h"

#include <initializer_list>
#include <optional>

namespace rillmark {

/// A number that a computation is given, and the range that it must lie in, ends included.
struct Setting {
    const char* where;
    double value;
    double low;
    double high;
    Quantity quantity;
};

/// `flow.bad_option` for the first that is out of its range, or nothing.
[[nodiscard]] inline std::optional<Finding> first_bad_setting(std::initializer_list<Setting> settings) {
    for (const Setting& one : settings)
        if (!in_range(one.value, one.low, one.high))
            return refusal("flow.bad_option", one.where, {{"value", one.value, one.quantity}});
    return std::nullopt;
}

} // namespace rillmark
