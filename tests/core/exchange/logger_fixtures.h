// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/logger_guess.h"

#include "core/exchange/exchange_fixtures.h"

#include <algorithm>
#include <string>
#include <string_view>

namespace rillmark::exchange_fixtures {

inline constexpr LoggerField kConductivity[] = {{"exchange.salt_slug.ec", Quantity::Conductivity, true},
                                                {"exchange.salt_slug.temperature", Quantity::Temperature, false}};

/// Gives the bytes in pieces of that size.
inline ByteSource pieces(std::string bytes, std::size_t piece = 7) {
    return [bytes = std::move(bytes), piece,
            at = std::size_t{0}](char* room, std::size_t size) mutable -> std::optional<std::size_t> {
        const std::size_t count = std::min({piece, size, bytes.size() - at});
        bytes.copy(room, count, at);
        at += count;
        return count;
    };
}

inline LoggerLayout guessed(const std::string& bytes, std::span<const LoggerField> fields = kConductivity) {
    const TextEncoding encoding = guess_encoding(bytes);
    return guess_logger_layout(logger_head(bytes, encoding), encoding, fields);
}

inline Expected<LoggerTable> read_as(const std::string& bytes, const LoggerLayout& layout,
                                     std::span<const LoggerField> fields = kConductivity) {
    return read_logger_table(pieces(bytes), "logger.csv", layout, fields, {});
}

inline std::string utf16(std::string_view ascii, bool little) {
    std::string bytes;
    for (const char c : ascii) {
        bytes += little ? c : '\0';
        bytes += little ? '\0' : c;
    }
    return bytes;
}

} // namespace rillmark::exchange_fixtures
