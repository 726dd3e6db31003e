// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace rillmark {

/// The text with A to Z made small, whatever the locale; other bytes stay.
[[nodiscard]] inline std::string lower_case(std::string_view text) {
    std::string small(text);
    for (char& c : small)
        if (c >= 'A' && c <= 'Z')
            c = static_cast<char>(c - 'A' + 'a');
    return small;
}

} // namespace rillmark
