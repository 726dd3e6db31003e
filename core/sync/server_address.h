// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace rillmark::sync {

/// A folder on a server, as the person typed it and as it was understood.
struct ServerAddress {
    bool encrypted = true; // https
    std::string host;      // lower case; an IPv6 address in its brackets
    std::optional<std::uint16_t> port;
    std::string path = "/"; // percent-encoded, with a slash at both ends

    friend bool operator==(const ServerAddress&, const ServerAddress&) = default;
};

/// Reads "https://cloud.example/dav/creeks". Without a scheme https is meant. Spaces and letters beyond ASCII in the
/// path are encoded as UTF-8; what is encoded already stays. Source: RFC 3986, sections 2.1, 3.2, 3.3; RFC 9110,
/// section 4.2.
///
/// http is taken only to this machine (localhost, 127.0.0.0/8, ::1) or where `plain_allowed`, because the password
/// would be read by whoever carries it. Refuses: `exchange.server_address` (not an address of a folder),
/// `exchange.server_address_scheme`, `exchange.server_address_password` (a name or password inside the address, which
/// would be shown and kept), `exchange.server_plain`.
Expected<ServerAddress> parse_server_address(std::string_view typed, bool plain_allowed = false);

/// "https://host:port" + path.
[[nodiscard]] std::string url_of(const ServerAddress& address);
/// Is the server this machine, so that nobody is in between?
[[nodiscard]] bool is_loopback(const ServerAddress& address);

/// One part of a path with everything encoded that is not unreserved. Source: RFC 3986, sections 2.1 and 2.3.
[[nodiscard]] std::string encode_segment(std::string_view segment);

/// A user name for Basic or Digest. Refuses `exchange.server_user`: a colon or a control character in it, or longer
/// than 255 bytes. Source: RFC 7617, section 2.
Expected<void> check_user_name(std::string_view name);

/// The folder of a site below the address: "rillmark-" and its key in 13 hexadecimal digits, so that renaming a site
/// moves nothing.
[[nodiscard]] std::string site_folder(std::int64_t site_id);
/// The site of such a folder name; nothing for any other name.
[[nodiscard]] std::optional<std::int64_t> site_of_folder(std::string_view name);
/// The site's file in that folder.
inline constexpr std::string_view kSiteFile = "site.gpkg";

} // namespace rillmark::sync
