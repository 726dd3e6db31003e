// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/server_address.h"

#include <algorithm>
#include <cctype>
#include <charconv>

namespace rillmark::sync {

namespace {

constexpr std::size_t kLongestAddress = 2000; // RFC 9110, section 4.1 asks for 8000; nobody types that
constexpr std::string_view kHex = "0123456789ABCDEF";
constexpr std::string_view kFolderPrefix = "rillmark-";
constexpr std::size_t kKeyDigits = 13; // 52 bits

bool is_unreserved(unsigned char c) {
    return (c < 0x80 && std::isalnum(c) != 0) || c == '-' || c == '.' || c == '_' || c == '~';
}

bool is_hex(char c) {
    return std::isxdigit(static_cast<unsigned char>(c)) != 0;
}

void append_encoded(std::string& text, unsigned char byte) {
    text += '%';
    text += kHex[byte >> 4U];
    text += kHex[byte & 0x0FU];
}

std::string lower(std::string_view text) {
    std::string small(text);
    std::ranges::transform(small, small.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return small;
}

/// Encodes what may not stand in a path; an encoded byte stays as it is. Source: RFC 3986, section 3.3 (pchar).
std::optional<std::string> encode_path(std::string_view typed) {
    constexpr std::string_view kAllowed = "/!$&'()*+,;=:@";
    std::string path = "/";
    for (std::size_t i = 0; i < typed.size(); ++i) {
        const char c = typed[i];
        if (c == '%') {
            if (i + 2 >= typed.size() || !is_hex(typed[i + 1]) || !is_hex(typed[i + 2]))
                return std::nullopt;
            path += c;
        } else if (c == '/' && path.back() == '/') {
            continue; // doubled slashes
        } else if (is_unreserved(static_cast<unsigned char>(c)) || kAllowed.find(c) != std::string_view::npos) {
            path += c;
        } else {
            append_encoded(path, static_cast<unsigned char>(c));
        }
    }
    if (path.back() != '/')
        path += '/';
    // a step up would leave the folder that was named
    const std::string small = lower(path);
    if (path.find("/../") != std::string::npos || path.find("/./") != std::string::npos ||
        small.find("%2e") != std::string::npos || small.find("%2f") != std::string::npos)
        return std::nullopt;
    return path;
}

bool is_host(std::string_view host) {
    if (host.starts_with('[')) {
        const auto inside = host.substr(1, host.size() - 2);
        return host.size() > 3 && host.ends_with(']') &&
               std::ranges::all_of(inside, [](char c) { return is_hex(c) || c == ':' || c == '.'; });
    }
    return !host.empty() && host.size() <= 253 && // RFC 1035, section 2.3.4
           std::ranges::all_of(host, [](char c) {
               const auto byte = static_cast<unsigned char>(c);
               return byte >= 0x80 || is_unreserved(byte);
           });
}

} // namespace

Expected<ServerAddress> parse_server_address(std::string_view typed, bool plain_allowed) {
    const auto trim = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
    while (!typed.empty() && trim(typed.front()))
        typed.remove_prefix(1);
    while (!typed.empty() && trim(typed.back()))
        typed.remove_suffix(1);
    const std::string shown(typed.substr(0, 200));
    const auto control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; };
    if (typed.empty() || typed.size() > kLongestAddress || std::ranges::any_of(typed, control))
        return refusal("exchange.server_address", shown);

    ServerAddress address;
    if (const std::size_t mark = typed.find("://"); mark != std::string_view::npos) {
        const std::string scheme = lower(typed.substr(0, mark));
        address.encrypted = scheme == "https" || scheme == "davs" || scheme == "webdavs";
        if (!address.encrypted && scheme != "http" && scheme != "dav" && scheme != "webdav")
            return refusal("exchange.server_address_scheme", shown);
        typed.remove_prefix(mark + 3);
    }
    const std::size_t slash = std::min(typed.find_first_of("/?#"), typed.size());
    std::string_view authority = typed.substr(0, slash);
    const std::string_view rest = typed.substr(slash);
    if (authority.find('@') != std::string_view::npos)
        return refusal("exchange.server_address_password"); // not shown again
    if (rest.find_first_of("?#") != std::string_view::npos)
        return refusal("exchange.server_address", shown);

    if (const std::size_t colon = authority.rfind(':'); colon != std::string_view::npos && !authority.ends_with(']')) {
        const std::string_view digits = authority.substr(colon + 1);
        std::uint16_t port = 0;
        const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), port);
        if (error != std::errc{} || end != digits.data() + digits.size() || port == 0)
            return refusal("exchange.server_address", shown);
        address.port = port;
        authority = authority.substr(0, colon);
    }
    address.host = lower(authority);
    const auto path = encode_path(rest);
    if (!is_host(address.host) || !path)
        return refusal("exchange.server_address", shown);
    address.path = *path;
    if (!address.encrypted && !plain_allowed && !is_loopback(address))
        return refusal("exchange.server_plain", shown);
    return address;
}

std::string url_of(const ServerAddress& address) {
    const std::string port = address.port ? ":" + std::to_string(*address.port) : std::string();
    return (address.encrypted ? "https://" : "http://") + address.host + port + address.path;
}

bool is_loopback(const ServerAddress& address) {
    const std::string& host = address.host;
    // RFC 6761, section 6.3; RFC 1122, section 3.2.1.3 (g); RFC 4291, section 2.5.3
    const bool v4 = host.starts_with("127.") &&
                    std::ranges::all_of(host, [](char c) { return c == '.' || (c >= '0' && c <= '9'); });
    return host == "localhost" || host == "[::1]" || v4;
}

std::string encode_segment(std::string_view segment) {
    std::string encoded;
    for (const char c : segment) {
        const auto byte = static_cast<unsigned char>(c);
        if (is_unreserved(byte))
            encoded += c;
        else
            append_encoded(encoded, byte);
    }
    return encoded;
}

Expected<void> check_user_name(std::string_view name) {
    constexpr std::size_t kLongestName = 255;
    const bool wrong = std::ranges::any_of(name, [](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return c == ':' || byte < 0x20 || byte == 0x7F;
    });
    if (wrong || name.size() > kLongestName)
        return refusal("exchange.server_user");
    return {};
}

std::string site_folder(std::int64_t site_id) {
    std::string digits(kKeyDigits, '0');
    auto rest = static_cast<std::uint64_t>(site_id);
    for (auto digit = digits.rbegin(); digit != digits.rend(); ++digit, rest >>= 4U)
        *digit = "0123456789abcdef"[rest & 0x0FU];
    return std::string(kFolderPrefix) + digits;
}

std::optional<std::int64_t> site_of_folder(std::string_view name) {
    if (!name.starts_with(kFolderPrefix) || name.size() != kFolderPrefix.size() + kKeyDigits)
        return std::nullopt;
    const std::string_view digits = name.substr(kFolderPrefix.size());
    std::int64_t id = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), id, 16);
    if (error != std::errc{} || end != digits.data() + digits.size() || id <= 0 || site_folder(id) != name)
        return std::nullopt;
    return id;
}

} // namespace rillmark::sync
