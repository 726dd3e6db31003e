// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/export_text.h"

#include "units/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

namespace rillmark {

namespace {

constexpr std::string_view kReplacement = "\xEF\xBF\xBD"; // U+FFFD

/// The length of the well-formed character at the front, 0 where there is none.
std::size_t character_length(std::string_view bytes) {
    for (std::size_t length = 1; length <= std::min<std::size_t>(4, bytes.size()); ++length)
        if (is_utf8(bytes.substr(0, length)))
            return length;
    return 0;
}

/// The code point of one well-formed character.
std::uint32_t code_point(std::string_view character) {
    const auto first = static_cast<unsigned char>(character.front());
    // a lead byte of n bytes carries 7 - n bits
    std::uint32_t code = character.size() == 1 ? first : first & (0x7FU >> character.size());
    for (const char c : character.substr(1))
        code = (code << 6U) | (static_cast<unsigned char>(c) & 0x3FU);
    return code;
}

bool is_dropped(std::uint32_t code) {
    const bool control = code < 0x20 || (code >= 0x7F && code <= 0x9F);
    return (control && code != '\t' && code != '\n') || (code & 0xFFFEU) == 0xFFFE;
}

template <class Visit>
void for_each_character(std::string_view clean, Visit&& visit) {
    for (std::size_t at = 0, length = 0; at < clean.size(); at += length) {
        length = character_length(clean.substr(at));
        visit(clean.substr(at, length));
    }
}

} // namespace

std::string clean_text(std::string_view text) {
    std::string clean;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = character_length(text.substr(at));
        const std::string_view character = text.substr(at, std::max<std::size_t>(length, 1));
        at += character.size();
        if (length == 0)
            clean += kReplacement;
        else if (character == "\r") {
            if (!text.substr(at).starts_with('\n'))
                clean += '\n';
        } else if (!is_dropped(code_point(character)))
            clean += character;
    }
    return clean;
}

std::string xml_text(std::string_view text) {
    std::string escaped;
    for (const char c : clean_text(text))
        switch (c) {
        case '&': escaped += "&amp;"; break;
        case '<': escaped += "&lt;"; break;
        case '>': escaped += "&gt;"; break;
        case '"': escaped += "&quot;"; break;
        case '\'': escaped += "&apos;"; break;
        default: escaped += c;
        }
    return escaped;
}

std::string csv_text(std::string_view text) {
    std::string clean = clean_text(text);
    const bool outer_space = clean.starts_with(' ') || clean.ends_with(' ');
    if (!outer_space && clean.find_first_of(",;\"\n\t") == std::string::npos)
        return clean;
    std::string quoted = "\"";
    for (const char c : clean) {
        quoted += c;
        if (c == '"')
            quoted += c;
    }
    return quoted + '"';
}

std::string dxf_text(std::string_view text) {
    std::string ascii;
    for_each_character(clean_text(text), [&](std::string_view character) {
        const std::uint32_t code = code_point(character);
        const bool begins_code = code == '\\' || code == '^' || (code == '%' && ascii.ends_with('%'));
        if (code == '\n' || code == '\t')
            ascii += ' ';
        else if (code < 0x80 && !begins_code)
            ascii += character;
        else
            ascii += code > 0xFFFF ? "?" : fmt::format("\\U+{:04X}", code);
    });
    return ascii;
}

std::string decimal_text(double value, int decimals) {
    return fmt::format("{:.{}f}", value, decimals);
}

} // namespace rillmark
