// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/text_lines.h"

#include "exchange/csv.h"
#include "units/typed_text.h"

#include <algorithm>

namespace rillmark {

namespace {

constexpr std::size_t kChunk_bytes = 65536;
constexpr std::size_t kLongestLetter_bytes = 4; // of UTF-8
constexpr char32_t kByteOrderMark = 0xFEFF;

void append_utf8(std::string& text, char32_t letter) {
    const auto byte = [&text](char32_t value) { text += static_cast<char>(static_cast<unsigned char>(value)); };
    if (letter < 0x80) {
        byte(letter);
    } else if (letter < 0x800) {
        byte(0xC0 | (letter >> 6));
        byte(0x80 | (letter & 0x3F));
    } else if (letter < 0x10000) {
        byte(0xE0 | (letter >> 12));
        byte(0x80 | ((letter >> 6) & 0x3F));
        byte(0x80 | (letter & 0x3F));
    } else {
        byte(0xF0 | (letter >> 18));
        byte(0x80 | ((letter >> 12) & 0x3F));
        byte(0x80 | ((letter >> 6) & 0x3F));
        byte(0x80 | (letter & 0x3F));
    }
}

/// Text in the Latin alphabet has a zero in every letter of UTF-16: how often in the first (0) or second (1) byte.
std::size_t zeros(std::string_view head, std::size_t of) {
    std::size_t count = 0;
    for (std::size_t i = of; i < head.size(); i += 2)
        count += head[i] == '\0' ? 1U : 0U;
    return count;
}

} // namespace

TextEncoding guess_encoding(std::string_view head) {
    if (head.starts_with("\xFF\xFE"))
        return TextEncoding::Utf16LittleEndian;
    if (head.starts_with("\xFE\xFF"))
        return TextEncoding::Utf16BigEndian;
    if (3 * zeros(head, 1) > head.size())
        return TextEncoding::Utf16LittleEndian;
    if (3 * zeros(head, 0) > head.size())
        return TextEncoding::Utf16BigEndian;
    for (std::size_t cut = 0; cut < std::min(kLongestLetter_bytes, head.size() + 1); ++cut)
        if (is_utf8(head.substr(0, head.size() - cut)))
            return TextEncoding::Utf8;
    return TextEncoding::Latin1;
}

TextLines::TextLines(ByteSource source, TextEncoding encoding, std::string file)
    : m_source(std::move(source)), m_encoding(encoding), m_file(std::move(file)) {}

Expected<bool> TextLines::next(std::string& line) {
    std::size_t searched = m_at;
    while (true) {
        const std::size_t end = m_text.find_first_of("\r\n", searched);
        // a CR at the end of what is there may be half of a CRLF
        if (end != std::string::npos && (m_text[end] == '\n' || end + 1 < m_text.size() || m_ended))
            return give(line, end);
        if (m_ended) {
            if (m_at == m_text.size())
                return false;
            return give(line, m_text.size());
        }
        searched = end == std::string::npos ? m_text.size() : end;
        if (searched - m_at > kLongestLine_bytes)
            return at_place(refusal("exchange.line_too_long", m_file), m_file, m_number + 1, {});
        searched -= m_at;
        m_text.erase(0, m_at);
        m_at = 0;
        if (const Expected<bool> filled = fill(); !filled)
            return filled.error();
    }
}

Expected<bool> TextLines::give(std::string& line, std::size_t end) {
    line.assign(m_text, m_at, end - m_at);
    m_at = std::min(m_text.size(), end + (m_text.compare(end, 2, "\r\n") == 0 ? 2U : 1U));
    ++m_number;
    if (line.find('\0') != std::string::npos)
        return at_place(refusal("exchange.csv_nul", m_file), m_file, m_number, {});
    return true;
}

Expected<bool> TextLines::fill() {
    char room[kChunk_bytes];
    const std::optional<std::size_t> count = m_source(room, kChunk_bytes);
    if (!count)
        return refusal("exchange.file_unreadable", m_file);
    m_ended = *count == 0;
    std::string_view bytes(room, *count);
    if (m_read == 0 && m_encoding == TextEncoding::Utf8 && bytes.starts_with(kUtf8Mark))
        bytes.remove_prefix(kUtf8Mark.size());
    m_read += *count;
    decode(bytes);
    return true;
}

void TextLines::decode(std::string_view bytes) {
    switch (m_encoding) {
    case TextEncoding::Utf8:
        m_text += bytes;
        return;
    case TextEncoding::Latin1:
        for (const char c : bytes)
            append_utf8(m_text, static_cast<unsigned char>(c));
        return;
    case TextEncoding::Utf16LittleEndian:
    case TextEncoding::Utf16BigEndian:
        decode_utf16(bytes);
        return;
    }
}

void TextLines::decode_utf16(std::string_view bytes) {
    m_half += bytes;
    const bool little = m_encoding == TextEncoding::Utf16LittleEndian;
    const auto unit = [&](std::size_t at) {
        const char32_t first = static_cast<unsigned char>(m_half[at]);
        const char32_t second = static_cast<unsigned char>(m_half[at + 1]);
        return little ? first | (second << 8) : (first << 8) | second;
    };
    std::size_t at = 0;
    while (at + 1 < m_half.size()) {
        char32_t letter = unit(at);
        const bool high = letter >= 0xD800 && letter < 0xDC00;
        if (high && at + 3 >= m_half.size() && !m_ended)
            break; // its second half is still to come
        at += 2;
        if (high && at + 1 < m_half.size() && unit(at) >= 0xDC00 && unit(at) < 0xE000) {
            letter = 0x10000 + ((letter - 0xD800) << 10) + (unit(at) - 0xDC00);
            at += 2;
        } else if (letter >= 0xD800 && letter < 0xE000) {
            letter = U'?';
        }
        if (letter != kByteOrderMark)
            append_utf8(m_text, letter);
    }
    m_half.erase(0, at);
}

} // namespace rillmark
