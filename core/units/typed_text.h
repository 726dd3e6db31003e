// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

/// What a person typed, in plain ASCII as far as that is known: spaces, signs, primes, superscripts, accents and
/// written fractions of Unicode become the plain form; invisible marks go; anything else stays and will not be
/// understood.
struct PlainText {
    std::string text;
    std::vector<int> position; // character of the typed text, from 1, that each byte came from; one more for the end
};

[[nodiscard]] PlainText plain_text(std::string_view typed);

/// Whether the bytes are well-formed UTF-8 (RFC 3629, section 4).
[[nodiscard]] bool is_utf8(std::string_view bytes);

} // namespace rillmark
