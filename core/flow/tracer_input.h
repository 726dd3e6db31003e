// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"

#include <cstdint>
#include <string>
#include <vector>

namespace rillmark {

/// A refusal that names the row, counted from 1, and the value that cannot be.
[[nodiscard]] inline Finding bad_row_value(std::string code, std::string where, std::size_t index, double value,
                                           Quantity quantity) {
    return refusal(std::move(code), std::move(where),
                   {{"row", static_cast<std::int64_t>(index) + 1}, {"value", value, quantity}});
}

/// `flow.bad_option`: a setting that cannot be.
[[nodiscard]] inline Finding bad_option(std::string where, double value, Quantity quantity) {
    return refusal("flow.bad_option", std::move(where), {{"value", value, quantity}});
}

} // namespace rillmark
