// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <cstddef>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

// Limits of a file that is read, our own choice: far above any field book, far below what fills a memory.
inline constexpr std::size_t kCsvLargestFile_bytes = 64u * 1024u * 1024u;
inline constexpr std::size_t kCsvMostRows = 1'000'000;
inline constexpr std::size_t kCsvMostColumns = 200;

/// A table of text cells with a header, and where each of them stood. The cells stand one after another in one text: as
/// a string each, a long file would be millions of pieces.
class CsvTable {
public:
    std::string file; // as the caller named it
    char separator = ',';
    std::int64_t header_line = 0;
    std::vector<std::string> header; // as written, without the spaces around

    [[nodiscard]] std::size_t size() const { return m_lines.size(); } // rows, at least one
    /// Line of the file, from 1, on which a row begins.
    [[nodiscard]] std::int64_t line(std::size_t row) const { return m_lines[row]; }
    /// A view that lasts as long as the table stays where it is.
    [[nodiscard]] std::string_view cell(std::size_t row, std::size_t column) const {
        const std::size_t place = row * header.size() + column;
        const std::size_t begin = place == 0 ? 0 : m_ends[place - 1];
        return std::string_view(m_text).substr(begin, m_ends[place] - begin);
    }

private:
    friend class CsvReader;
    std::string m_text;
    std::vector<std::uint32_t> m_ends; // of the cells in it, row by row
    std::vector<std::int64_t> m_lines;
};
static_assert(kCsvLargestFile_bytes <= std::numeric_limits<std::uint32_t>::max());

/// Adds a place in a file to a finding: arguments `file`, `line` and, where it is not empty, `column`.
[[nodiscard]] Finding at_place(Finding finding, const std::string& file, std::int64_t line, const std::string& column);

/// Reads a text table: RFC 4180, and what spreadsheets make of it. The bytes are not trusted.
///
/// UTF-8 with or without byte-order mark; lines end with CRLF, LF or CR; the separator is the one of comma, semicolon
/// and tab that the header has most of. Blank lines and lines that begin with `#` are skipped. Spaces around a cell go;
/// a quote within an unquoted cell is itself (12" is twelve inches).
///
/// Refuses, with the place as at_place puts it (a column is named once the header is known, else numbered from 1):
/// `exchange.csv_empty`, `exchange.csv_utf16`, `exchange.csv_nul`, `exchange.csv_not_utf8`, `exchange.csv_quote_open`,
/// `exchange.csv_after_quote`, `exchange.csv_header_empty`, `exchange.csv_header_twice` (case does not count),
/// `exchange.csv_no_rows`, `exchange.csv_row_width`, `exchange.csv_row_empty` (separators and nothing between them),
/// and beyond the limits above `exchange.csv_too_large`, `exchange.csv_too_many_rows`, `exchange.csv_too_many_columns`.
[[nodiscard]] Expected<CsvTable> read_csv(std::string_view bytes, const std::string& file);

} // namespace rillmark
