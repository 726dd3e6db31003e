// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/input_range.h"

namespace rillmark {

std::optional<Finding> first_out_of_range(std::initializer_list<InputRange> inputs) {
    for (const InputRange& input : inputs) {
        const bool within = input.value >= input.lowest && input.value <= input.highest; // false for NaN
        if (!within)
            return refusal("levels.input_out_of_range", input.where,
                           {{"value", input.value, input.quantity},
                            {"lowest", input.lowest, input.quantity},
                            {"highest", input.highest, input.quantity}});
    }
    return std::nullopt;
}

} // namespace rillmark
