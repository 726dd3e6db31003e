// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "units/parse_quantity.h"

#include <cstddef>
#include <string_view>

namespace rillmark {

struct ParsedNumber {
    double value = 0.0;
    std::size_t length = 0; // bytes read; 0: the text does not begin with a number
    bool whole = false;     // typed without decimals, exponent or fraction
};

/// Reads an unsigned number from the start of a text made plain by plain_text: digits with decimal and thousands marks
/// by the rules of parse_quantity, an exponent, a fraction "1/2" or a whole number with one, "3 1/2". Refuses as
/// parse_quantity does, without arguments.
[[nodiscard]] Expected<ParsedNumber> parse_number(std::string_view plain, const NumberFormat& format);

} // namespace rillmark
