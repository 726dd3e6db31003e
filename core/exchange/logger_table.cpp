// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/logger_table.h"

#include "exchange/csv.h"
#include "units/constants.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <limits>

namespace rillmark {

namespace {

constexpr std::uint64_t kProgressEvery_bytes = 1'000'000;
constexpr std::size_t kLongestNumber = 40;
constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();
// Common practice, no source: a step that differs from the usual one by more than this part is not a shake of the
// clock.
constexpr double kUnevenStep = 0.1;

std::string_view trimmed(std::string_view text) {
    const std::size_t begin = text.find_first_not_of(" \t");
    if (begin == std::string_view::npos)
        return {};
    return text.substr(begin, text.find_last_not_of(" \t") - begin + 1);
}

bool is_missing(std::string_view cell) {
    if (cell.find_first_not_of('-') == std::string_view::npos)
        return true;
    std::string lower;
    for (const char c : cell.substr(0, 5))
        lower += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return lower == "na" || lower == "n/a" || lower == "nan" || lower == "null";
}

/// Takes "+02:00" or "Z" off the end of a clock time and gives what it stands for.
double take_zone_s(std::string_view& text) {
    if (text.ends_with('Z')) {
        text.remove_suffix(1);
        return 0.0;
    }
    constexpr std::size_t kZoneLength = 6;
    if (text.size() <= kZoneLength)
        return 0.0;
    const std::string_view zone = text.substr(text.size() - kZoneLength);
    if ((zone[0] != '+' && zone[0] != '-') || zone[3] != ':')
        return 0.0;
    const std::optional<double> offset_s = time_of_day_s(zone.substr(1));
    if (!offset_s)
        return 0.0;
    text.remove_suffix(kZoneLength);
    return zone[0] == '-' ? -*offset_s : *offset_s;
}

std::optional<LoggerTime> clock_reading(std::string_view text, DateOrder order) {
    const double zone_s = take_zone_s(text);
    const std::size_t divider = text.find_first_of(" T");
    const bool has_date = text.substr(0, divider).find(':') == std::string_view::npos;
    if (!has_date) {
        const std::optional<double> time_s = time_of_day_s(text);
        return time_s ? std::optional(LoggerTime{*time_s, false}) : std::nullopt;
    }
    const std::optional<double> day_s = date_s(text.substr(0, divider), order);
    const std::optional<double> time_s =
        divider == std::string_view::npos ? 0.0 : time_of_day_s(trimmed(text.substr(divider + 1)));
    if (!day_s || !time_s)
        return {};
    return LoggerTime{*day_s + *time_s - zone_s, true};
}

/// The middle of the steps between rising times.
double median_step_s(const std::vector<double>& time_s) {
    if (time_s.size() < 2)
        return 0.0;
    std::vector<double> steps(time_s.size() - 1);
    for (std::size_t i = 0; i < steps.size(); ++i)
        steps[i] = time_s[i + 1] - time_s[i];
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

} // namespace

void split_logger_line(std::string_view line, char separator, std::vector<std::string_view>& cells) {
    cells.clear();
    const bool by_spaces = separator == ' ';
    std::size_t at = by_spaces ? std::min(line.find_first_not_of(' '), line.size()) : 0;
    while (at <= line.size()) {
        const std::size_t begin =
            separator == '\t' || by_spaces ? at : std::min(line.find_first_not_of(' ', at), line.size());
        std::size_t end = 0;
        if (begin < line.size() && line[begin] == '"') {
            const std::size_t close = std::min(line.find('"', begin + 1), line.size());
            cells.push_back(trimmed(line.substr(begin + 1, close - begin - 1)));
            end = line.find(separator, close);
        } else {
            end = line.find(separator, at);
            cells.push_back(trimmed(line.substr(at, std::min(end, line.size()) - at)));
        }
        if (end == std::string_view::npos)
            return;
        at = end + 1;
        if (by_spaces) {
            at = line.find_first_not_of(' ', at);
            if (at == std::string_view::npos)
                return;
        }
    }
}

std::optional<double> logger_number(std::string_view cell, char decimal) {
    if (cell.starts_with('+'))
        cell.remove_prefix(1);
    if (cell.empty() || cell.size() > kLongestNumber || cell.find(decimal == '.' ? ',' : '.') != std::string_view::npos)
        return {};
    char plain[kLongestNumber];
    std::replace_copy(cell.begin(), cell.end(), plain, decimal, '.');
    double number = 0.0;
    const auto [end, error] = std::from_chars(plain, plain + cell.size(), number);
    if (error != std::errc{} || end != plain + cell.size() || !std::isfinite(number))
        return {};
    return number;
}

std::optional<LoggerTime> logger_time(const std::vector<std::string_view>& cells, const LoggerLayout& layout) {
    if (layout.time_column >= cells.size() || layout.date_column.value_or(0) >= cells.size())
        return {};
    const std::string_view cell = cells[layout.time_column];
    if (layout.time_unit) {
        const std::optional<double> number = logger_number(cell, layout.decimal);
        return number ? std::optional(LoggerTime{to_si(*layout.time_unit, *number), false}) : std::nullopt;
    }
    if (!layout.date_column)
        return clock_reading(cell, layout.date_order);
    return clock_reading(std::string(cells[*layout.date_column]) + ' ' + std::string(cell), layout.date_order);
}

std::optional<double> LoggerTable::value(std::size_t row, std::size_t field) const {
    if (m_values[field].empty() || std::isnan(m_values[field][row]))
        return {};
    return m_values[field][row];
}

/// Fills a table row by row and keeps count of what is worth knowing.
class LoggerRows {
public:
    LoggerRows(const std::string& file, const LoggerLayout& layout, std::span<const LoggerField> fields)
        : m_file(file), m_layout(layout), m_fields(fields) {
        m_table.m_values.resize(fields.size());
    }

    [[nodiscard]] Expected<void> check_columns() const {
        for (std::size_t i = 0; i < m_fields.size(); ++i)
            if (m_fields[i].required && (i >= m_layout.values.size() || !m_layout.values[i]))
                return refusal("exchange.logger_column_not_chosen", std::string(m_fields[i].name));
        return {};
    }

    [[nodiscard]] Expected<void> add(std::string_view line, std::int64_t number) {
        split_logger_line(line, m_layout.separator, m_cells);
        if (const Expected<void> read = read_cells(number); !read) {
            if (!m_layout.leave_out_bad_lines)
                return read;
            m_first_left_out = m_left_out++ == 0 ? number : m_first_left_out;
            return {};
        }
        if (const Expected<void> ordered = put_in_order(number); !ordered)
            return ordered;
        if (m_table.size() == kLoggerMostRows)
            return at_place(refusal("exchange.logger_too_many_rows", m_file,
                                    {{"limit", static_cast<std::int64_t>(kLoggerMostRows)}}),
                            m_file, number, {});
        m_table.m_time_s.push_back(m_time.time_s + m_added_s);
        for (std::size_t i = 0; i < m_numbers.size(); ++i) {
            m_missing += std::isnan(m_numbers[i]) && column(i) ? 1 : 0;
            if (column(i))
                m_table.m_values[i].push_back(m_numbers[i]);
        }
        m_last_line = number;
        return {};
    }

    [[nodiscard]] Expected<LoggerTable> done() && {
        if (m_table.size() == 0)
            return refusal("exchange.logger_no_rows", m_file, {{"file", m_file}, {"first_line", m_layout.first_line}});
        say_what_is_worth_knowing();
        return std::move(m_table);
    }

private:
    [[nodiscard]] const std::optional<LoggerColumn>& column(std::size_t field) const {
        static const std::optional<LoggerColumn> none;
        return field < m_layout.values.size() ? m_layout.values[field] : none;
    }

    [[nodiscard]] Finding fault(const char* code, std::int64_t line, std::size_t at) const {
        const std::string cell(at < m_cells.size() ? m_cells[at].substr(0, kLongestNumber) : std::string_view{});
        return at_place(refusal(code, m_file, {{"cell", cell}}), m_file, line, std::to_string(at + 1));
    }

    [[nodiscard]] Expected<void> read_cells(std::int64_t line) {
        std::size_t last = std::max(m_layout.time_column, m_layout.date_column.value_or(0));
        for (std::size_t i = 0; i < m_fields.size(); ++i)
            if (column(i) && m_fields[i].required)
                last = std::max(last, column(i)->column);
        if (last >= m_cells.size())
            return at_place(
                refusal("exchange.logger_row_short", m_file, {{"cells", static_cast<std::int64_t>(m_cells.size())}}),
                m_file, line, std::to_string(m_cells.size() + 1));
        const std::optional<LoggerTime> time = logger_time(m_cells, m_layout);
        if (!time)
            return fault("exchange.logger_time_unreadable", line, m_layout.time_column);
        m_time = *time;
        m_numbers.assign(m_fields.size(), kMissing);
        for (std::size_t i = 0; i < m_fields.size(); ++i) {
            if (!column(i) || column(i)->column >= m_cells.size() || is_missing(m_cells[column(i)->column]))
                continue;
            const std::optional<double> number = logger_number(m_cells[column(i)->column], m_layout.decimal);
            if (!number)
                return fault("exchange.logger_not_a_number", line, column(i)->column);
            m_numbers[i] = to_si(column(i)->unit, *number);
        }
        return {};
    }

    /// Midnights are added; a clock that stands still or runs back is refused.
    [[nodiscard]] Expected<void> put_in_order(std::int64_t line) {
        if (m_table.size() == 0) {
            m_table.m_dated = m_time.dated;
            return {};
        }
        const double last_s = m_table.m_time_s.back();
        const bool clock = !m_layout.time_unit && !m_time.dated;
        if (m_time.dated != m_table.m_dated)
            return fault("exchange.logger_time_unreadable", line, m_layout.time_column);
        if (clock && last_s - m_added_s - m_time.time_s > 0.5 * kSecondsPerDay) {
            m_added_s += kSecondsPerDay;
            m_first_midnight = m_midnights++ == 0 ? line : m_first_midnight;
        }
        const double step_s = m_time.time_s + m_added_s - last_s;
        if (step_s > 0.0) {
            m_longest_line = step_s > m_longest_s ? line : m_longest_line;
            m_longest_s = std::max(m_longest_s, step_s);
            return {};
        }
        Finding finding = fault(step_s == 0.0 ? "exchange.logger_time_twice" : "exchange.logger_time_backwards", line,
                                m_layout.time_column);
        finding.args.push_back({"before_line", m_last_line});
        finding.args.push_back({"back", -step_s, Quantity::Time});
        return finding;
    }

    void say_what_is_worth_knowing() {
        const auto say = [this](const char* code, std::int64_t line, std::vector<Arg> args) {
            m_table.m_findings.push_back(at_place(note(code, m_file, std::move(args)), m_file, line, {}));
        };
        if (m_left_out > 0)
            say("exchange.logger_lines_left_out", m_first_left_out, {{"count", m_left_out}});
        if (m_missing > 0)
            m_table.m_findings.push_back(note("exchange.logger_missing", m_file, {{"count", m_missing}}));
        if (m_midnights > 0)
            say("exchange.logger_midnight", m_first_midnight, {{"count", m_midnights}});
        const double usual_s = m_table.m_usual_step_s = median_step_s(m_table.m_time_s);
        std::int64_t gaps = 0;
        double shortest_s = usual_s;
        for (std::size_t i = 1; i < m_table.size(); ++i) {
            const double step_s = m_table.m_time_s[i] - m_table.m_time_s[i - 1];
            gaps += step_s > kLoggerGap_steps * usual_s ? 1 : 0;
            shortest_s = std::min(shortest_s, step_s);
        }
        if (gaps > 0)
            say("exchange.logger_gaps", m_longest_line,
                {{"count", gaps}, {"longest", m_longest_s, Quantity::Time}, {"step", usual_s, Quantity::Time}});
        if (shortest_s < (1.0 - kUnevenStep) * usual_s)
            m_table.m_findings.push_back(
                note("exchange.logger_uneven", m_file,
                     {{"shortest", shortest_s, Quantity::Time}, {"step", usual_s, Quantity::Time}}));
    }

    const std::string& m_file;
    const LoggerLayout& m_layout;
    std::span<const LoggerField> m_fields;
    LoggerTable m_table;
    std::vector<std::string_view> m_cells;
    std::vector<double> m_numbers;
    LoggerTime m_time;
    double m_added_s = 0.0;
    double m_longest_s = 0.0;
    std::int64_t m_longest_line = 0;
    std::int64_t m_last_line = 0;
    std::int64_t m_missing = 0;
    std::int64_t m_left_out = 0;
    std::int64_t m_first_left_out = 0;
    std::int64_t m_midnights = 0;
    std::int64_t m_first_midnight = 0;
};

Expected<LoggerTable> read_logger_table(ByteSource source, const std::string& file, const LoggerLayout& layout,
                                        std::span<const LoggerField> fields, const LoggerProgress& progress) {
    LoggerRows rows(file, layout, fields);
    if (const Expected<void> chosen = rows.check_columns(); !chosen)
        return chosen.error();
    TextLines lines(std::move(source), layout.encoding, file);
    std::string line;
    std::uint64_t told = 0;
    while (true) {
        const Expected<bool> more = lines.next(line);
        if (!more)
            return more.error();
        if (!*more)
            return std::move(rows).done();
        if (lines.read() - told >= kProgressEvery_bytes) {
            told = lines.read();
            if (progress && !progress(told))
                return refusal("exchange.logger_cancelled", file);
        }
        if (lines.number() < layout.first_line || line.find_first_not_of(" \t") == std::string::npos)
            continue;
        if (const Expected<void> added = rows.add(line, lines.number()); !added)
            return added.error();
    }
}

} // namespace rillmark
