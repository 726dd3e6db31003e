// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/csv.h"

#include "exchange/text_lines.h"
#include "units/lower_case.h"
#include "units/typed_text.h"

#include <algorithm>
#include <cctype>
#include <set>

namespace rillmark {

namespace {

constexpr std::string_view kUtf16Marks[] = {"\xFF\xFE", "\xFE\xFF"};
constexpr std::string_view kColumnMarks = ",;\t";

bool ends_line(char c) {
    return c == '\n' || c == '\r';
}

/// Whether all of it is ASCII and none is zero: nothing then to look at twice.
bool is_plain(std::string_view bytes) {
    return std::ranges::all_of(bytes, [](char c) { return static_cast<signed char>(c) > 0; });
}

} // namespace

/// Reads one table from the front to the back, keeping count of the lines.
class CsvReader {
public:
    CsvReader(std::string_view bytes, const std::string& file) : m_bytes(bytes) { m_table.file = file; }

    Expected<CsvTable> read() {
        if (const Expected<void> text = check_text(); !text)
            return text.error();
        if (!skip_to_content())
            return fault("exchange.csv_empty", m_line);
        m_table.separator = separator_of_line();
        m_table.header_line = m_line;
        if (const Expected<void> names = read_header(); !names)
            return names.error();
        while (skip_to_content())
            if (const Expected<void> row = add_row(); !row)
                return row.error();
        if (m_table.size() == 0)
            return fault("exchange.csv_no_rows", m_table.header_line);
        return std::move(m_table);
    }

private:
    [[nodiscard]] Finding fault(const char* code, std::int64_t line, const std::string& column = {},
                                std::vector<Arg> args = {}) const {
        return at_place(refusal(code, m_table.file, std::move(args)), m_table.file, line, column);
    }

    [[nodiscard]] std::string column_name(std::size_t index) const {
        return index < m_table.header.size() ? m_table.header[index] : std::to_string(index + 1);
    }

    /// What must hold before any cell is looked at: size, encoding, no binary.
    Expected<void> check_text() {
        if (m_bytes.size() > kCsvLargestFile_bytes)
            return fault("exchange.csv_too_large", 1, {},
                         {{"limit_mib", static_cast<std::int64_t>(kCsvLargestFile_bytes / (1024 * 1024))}});
        for (const std::string_view mark : kUtf16Marks)
            if (m_bytes.starts_with(mark))
                return fault("exchange.csv_utf16", 1);
        if (m_bytes.starts_with(kUtf8Mark))
            m_bytes.remove_prefix(kUtf8Mark.size());
        if (is_plain(m_bytes))
            return {};
        std::int64_t line = 1;
        for (std::size_t begin = 0; begin < m_bytes.size(); ++line) {
            const std::size_t end = std::min(m_bytes.find_first_of("\r\n", begin), m_bytes.size());
            const std::string_view content = m_bytes.substr(begin, end - begin);
            if (content.find('\0') != std::string_view::npos)
                return fault("exchange.csv_nul", line);
            if (!is_utf8(content))
                return fault("exchange.csv_not_utf8", line);
            begin = end + (m_bytes.substr(end).starts_with("\r\n") ? 2U : 1U);
        }
        return {};
    }

    [[nodiscard]] bool at_end() const { return m_at >= m_bytes.size(); }
    [[nodiscard]] bool at_line_end() const { return at_end() || ends_line(m_bytes[m_at]); }

    void pass_line_end() {
        if (at_end())
            return;
        m_at += m_bytes.substr(m_at).starts_with("\r\n") ? 2U : 1U;
        ++m_line;
    }

    void pass_spaces() {
        while (!at_end() && (m_bytes[m_at] == ' ' || (m_bytes[m_at] == '\t' && m_table.separator != '\t')))
            ++m_at;
    }

    /// Passes blank lines and remarks; false at the end of the file.
    bool skip_to_content() {
        while (!at_end()) {
            const std::size_t first = std::min(m_bytes.find_first_not_of(' ', m_at), m_bytes.size());
            const bool blank = first == m_bytes.size() || ends_line(m_bytes[first]);
            if (!blank && m_bytes[m_at] != '#')
                return true;
            m_at = blank ? first : std::min(m_bytes.find_first_of("\r\n", m_at), m_bytes.size());
            pass_line_end();
        }
        return false;
    }

    [[nodiscard]] char separator_of_line() const {
        std::size_t count[kColumnMarks.size()] = {};
        bool quoted = false;
        for (std::size_t at = m_at; at < m_bytes.size() && (quoted || !ends_line(m_bytes[at])); ++at) {
            if (m_bytes[at] == '"')
                quoted = !quoted;
            else if (const std::size_t kind = kColumnMarks.find(m_bytes[at]); !quoted && kind != std::string_view::npos)
                ++count[kind];
        }
        return kColumnMarks[static_cast<std::size_t>(std::max_element(std::begin(count), std::end(count)) - count)];
    }

    /// Adds one record, its cells up to the end of the line, and gives their number.
    Expected<std::size_t> record() {
        const std::int64_t line = m_line;
        for (std::size_t count = 1;; ++count) {
            if (const Expected<void> added = cell(count - 1); !added)
                return added.error();
            m_table.m_ends.push_back(static_cast<std::uint32_t>(m_table.m_text.size()));
            if (count > kCsvMostColumns)
                return fault("exchange.csv_too_many_columns", line, {},
                             {{"limit", static_cast<std::int64_t>(kCsvMostColumns)}});
            if (at_line_end()) {
                pass_line_end();
                return count;
            }
            ++m_at; // the separator
        }
    }

    Expected<void> cell(std::size_t index) {
        pass_spaces();
        if (!at_end() && m_bytes[m_at] == '"')
            return quoted_cell(index);
        const std::size_t begin = m_at;
        while (!at_line_end() && m_bytes[m_at] != m_table.separator)
            ++m_at;
        const std::string_view text = m_bytes.substr(begin, m_at - begin);
        m_table.m_text += text.substr(0, text.find_last_not_of(" \t") + 1);
        return {};
    }

    Expected<void> quoted_cell(std::size_t index) {
        const std::int64_t opened = m_line;
        for (++m_at; !at_end();) {
            if (ends_line(m_bytes[m_at])) {
                m_table.m_text += '\n';
                pass_line_end();
                continue;
            }
            const char c = m_bytes[m_at++];
            if (c == '"' && (at_end() || m_bytes[m_at] != '"')) {
                pass_spaces();
                if (!at_line_end() && m_bytes[m_at] != m_table.separator)
                    return fault("exchange.csv_after_quote", m_line, column_name(index));
                return {};
            }
            m_at += c == '"' ? 1U : 0U; // two quotes stand for one
            m_table.m_text += c;
        }
        return fault("exchange.csv_quote_open", opened, column_name(index));
    }

    Expected<void> read_header() {
        const Expected<std::size_t> count = record();
        if (!count)
            return count.error();
        std::size_t begin = 0;
        for (const std::uint32_t end : m_table.m_ends) {
            m_table.header.push_back(m_table.m_text.substr(begin, end - begin));
            begin = end;
        }
        m_table.m_ends.clear();
        m_table.m_text.clear();
        m_table.m_text.reserve(m_bytes.size() - m_at);
        return check_header();
    }

    [[nodiscard]] Expected<void> check_header() const {
        std::set<std::string> seen;
        for (std::size_t i = 0; i < m_table.header.size(); ++i) {
            if (m_table.header[i].empty())
                return fault("exchange.csv_header_empty", m_table.header_line, std::to_string(i + 1));
            if (!seen.insert(lower_case(m_table.header[i])).second)
                return fault("exchange.csv_header_twice", m_table.header_line, std::to_string(i + 1),
                             {{"name", m_table.header[i]}});
        }
        return {};
    }

    Expected<void> add_row() {
        const std::int64_t line = m_line;
        const std::size_t begin = m_table.m_text.size();
        const Expected<std::size_t> cells = record();
        if (!cells)
            return cells.error();
        if (*cells != m_table.header.size())
            return fault("exchange.csv_row_width", line, column_name(std::min(*cells, m_table.header.size())),
                         {{"cells", static_cast<std::int64_t>(*cells)},
                          {"expected", static_cast<std::int64_t>(m_table.header.size())}});
        if (m_table.m_text.size() == begin)
            return fault("exchange.csv_row_empty", line);
        if (m_table.size() == kCsvMostRows)
            return fault("exchange.csv_too_many_rows", line, {}, {{"limit", static_cast<std::int64_t>(kCsvMostRows)}});
        m_table.m_lines.push_back(line);
        return {};
    }

    std::string_view m_bytes;
    std::size_t m_at = 0;
    std::int64_t m_line = 1;
    CsvTable m_table;
};

Finding at_place(Finding finding, const std::string& file, std::int64_t line, const std::string& column) {
    finding.args.push_back({"file", file});
    finding.args.push_back({"line", line});
    if (!column.empty())
        finding.args.push_back({"column", column});
    return finding;
}

Expected<CsvTable> read_csv(std::string_view bytes, const std::string& file) {
    return CsvReader(bytes, file).read();
}

} // namespace rillmark
