// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace rillmark {

/// What some programs write before UTF-8.
inline constexpr std::string_view kUtf8Mark = "\xEF\xBB\xBF";

/// How the letters of a text file are written.
enum class TextEncoding : std::uint8_t { Utf8, Latin1, Utf16LittleEndian, Utf16BigEndian };

/// Fills the room with the next bytes of a file and gives their number; 0 at its end, nothing where it cannot be read.
using ByteSource = std::function<std::optional<std::size_t>(char* room, std::size_t size)>;

/// The encoding that the first bytes of a file speak of: a byte-order mark; else UTF-16 where every other byte is zero,
/// UTF-8 where the bytes are that (a letter cut at the end does not count), and Latin-1.
[[nodiscard]] TextEncoding guess_encoding(std::string_view head);

// Our own choice: no logger writes a longer line, and a file without line ends is no table.
inline constexpr std::size_t kLongestLine_bytes = 65536;

/// The lines of a text file one after the other, as UTF-8, in memory that does not grow with the file.
///
/// Lines end with CRLF, LF or CR; the byte-order mark goes. Halves of a letter of UTF-16 become a question mark.
class TextLines {
public:
    TextLines(ByteSource source, TextEncoding encoding, std::string file);

    /// Puts the next line, without its end, into `line`; false at the end of the file. Refuses, with the place:
    /// `exchange.file_unreadable`, `exchange.csv_nul`, `exchange.line_too_long`.
    [[nodiscard]] Expected<bool> next(std::string& line);
    /// Of the line that next() gave last, from 1.
    [[nodiscard]] std::int64_t number() const { return m_number; }
    /// Bytes of the file read so far.
    [[nodiscard]] std::uint64_t read() const { return m_read; }

private:
    [[nodiscard]] Expected<bool> fill();
    void decode(std::string_view bytes);
    void decode_utf16(std::string_view bytes);
    [[nodiscard]] Expected<bool> give(std::string& line, std::size_t end);

    ByteSource m_source;
    TextEncoding m_encoding;
    std::string m_file;
    std::string m_text; // decoded and not yet given
    std::size_t m_at = 0;
    std::string m_half; // bytes of a letter of UTF-16 that is not whole yet
    std::int64_t m_number = 0;
    std::uint64_t m_read = 0;
    bool m_ended = false;
};

} // namespace rillmark
