// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rillmark::sync {

/// What keeps two senders from writing over each other at this server.
enum class Guard {
    Unknown,   // not found out yet
    Condition, // it honours conditions on the tag (RFC 4918, section 10.4; RFC 9110, section 13.1.1)
    Lock       // it does not, but it locks (RFC 4918, section 6)
};

/// What this device knows of one site at one server from the last round. Losing it costs a download, never data.
struct Remembered {
    std::string etag;          // of the server's file when it was last looked at; empty: not to be relied on
    std::string server_sha256; // of that file
    std::string here_sha256;   // of the closed copy of the file here at that time
    Guard guard = Guard::Unknown;
    bool moves = true; // the server can put a file in place by MOVE

    friend bool operator==(const Remembered&, const Remembered&) = default;
};

/// As JSON, and back; anything that is not such a text gives nothing.
[[nodiscard]] std::string to_text(const Remembered& remembered);
[[nodiscard]] std::optional<Remembered> remembered_of(std::string_view text);

} // namespace rillmark::sync
