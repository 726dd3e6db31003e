// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace rillmark::sync {

/// Why a request came to no answer, or to none that may be used.
enum class Fault {
    None,
    NameUnknown, // the name of the server was not found
    Unreachable, // no connection
    Cut,         // the connection broke before the end
    Timeout,     // nothing came for too long
    Certificate, // the server could not prove who it is
    TooLarge,    // more came than is taken
    NoRoom,      // what came could not be written here
    Cancelled
};

/// What a server said to one request: the parts that a decision hangs on, as they came. Nothing here is trusted.
struct Answer {
    Fault fault = Fault::None;
    std::string detail; // of a fault, for the person
    int status = 0;     // RFC 9110, section 15; RFC 4918, section 11
    std::string etag;
    std::string last_modified;
    std::string date;
    std::string content_type;
    std::string location;
    std::string retry_after;
    std::string lock_token;
    std::optional<std::int64_t> length_bytes; // Content-Length
    std::string body_sha256;                  // hexadecimal; of the whole body, where it was kept
};

using Seconds = std::chrono::sys_seconds;

/// An HTTP date in its preferred form ("Sun, 06 Nov 1994 08:49:37 GMT"). Source: RFC 9110, section 5.6.7, IMF-fixdate.
/// The obsolete forms, which a sender may not use, give nothing.
[[nodiscard]] std::optional<Seconds> parse_http_date(std::string_view text);

/// How long the server asks to be left alone: seconds, or a date against the server's own Date, so that the clock here
/// does not matter. Source: RFC 9110, section 10.2.3.
[[nodiscard]] std::optional<std::chrono::seconds> retry_after(const Answer& answer);

/// A well-formed entity tag; `opaque` with its quotes, as it is sent back. Source: RFC 9110, section 8.8.3.
struct EntityTag {
    std::string opaque;
    bool weak = false;
};
[[nodiscard]] std::optional<EntityTag> parse_entity_tag(std::string_view text);
/// Do both name the same state of the file, whether or not they are weak? Source: RFC 9110, section 8.8.3.2.
[[nodiscard]] bool same_tag(std::string_view one, std::string_view other);

/// May the file have been written again in the same second, so that its tag does not tell the two states apart? Servers
/// that make the tag of time and size (to the second) need this. Both times are the server's; a file from its future
/// is not young. Source: RFC 9110, section 8.8.2.2 (the same thought for dates).
[[nodiscard]] bool is_young(const Answer& answer);

} // namespace rillmark::sync
