// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace rillmark {

/// The SHA-256 digest of the bytes as 64 hexadecimal digits. Source: NIST FIPS 180-4, section 6.2.
[[nodiscard]] std::string sha256_hex(std::string_view bytes);

} // namespace rillmark
