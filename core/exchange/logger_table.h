// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/clock_time.h"
#include "exchange/text_lines.h"
#include "expected.h"
#include "units/units.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

/// What a logger's file is read for: a conductivity, a stage, a temperature.
struct LoggerField {
    std::string_view name; // code of its name, worded by the UI
    Quantity quantity = Quantity::Number;
    bool required = true;
};

/// A column of the file, from 0, and the unit of its numbers.
struct LoggerColumn {
    std::size_t column = 0;
    Unit unit;
};

/// How one logger writes its file: guessed from its first lines, then chosen by the person.
struct LoggerLayout {
    TextEncoding encoding = TextEncoding::Utf8;
    char separator = ','; // a space stands for any number of them
    char decimal = '.';
    std::int64_t first_line = 1; // of the readings, from 1
    std::size_t time_column = 0;
    std::optional<std::size_t> date_column; // where the date stands by itself
    std::optional<Unit> time_unit;          // the times are numbers of it since the start; none: clock times or dates
    DateOrder date_order = DateOrder::YearMonthDay;
    std::vector<std::optional<LoggerColumn>> values; // one a field; none: not in this file
    bool leave_out_bad_lines = false;                // a line that cannot be read is left out and counted
};

// Our own choice: two months of a reading every second would be the most that a survey brings home.
inline constexpr std::size_t kLoggerMostRows = 5'000'000;
// Common practice, no source: a step longer than this many usual ones is a gap.
inline constexpr double kLoggerGap_steps = 1.5;

/// The readings of a logger, in SI. Eight bytes a number: a million rows of three columns take 32 MB.
class LoggerTable {
public:
    [[nodiscard]] std::size_t size() const { return m_time_s.size(); }
    /// Rises from row to row. Seconds since 1970 by the logger's own clock where dated(), else from the layout's zero
    /// or from the midnight before the first row.
    [[nodiscard]] double time_s(std::size_t row) const { return m_time_s[row]; }
    [[nodiscard]] bool dated() const { return m_dated; }
    /// Nothing for an empty cell and for a field that the file does not hold.
    [[nodiscard]] std::optional<double> value(std::size_t row, std::size_t field) const;
    [[nodiscard]] std::size_t fields() const { return m_values.size(); }
    /// The step between most rows: the median. 0 for a single row.
    [[nodiscard]] double usual_step_s() const { return m_usual_step_s; }
    /// What is worth knowing: lines left out (`exchange.logger_lines_left_out`), empty cells
    /// (`exchange.logger_missing`), midnights (`exchange.logger_midnight`), gaps (`exchange.logger_gaps`), unequal
    /// steps (`exchange.logger_uneven`).
    [[nodiscard]] const Findings& findings() const { return m_findings; }

private:
    friend class LoggerRows;
    std::vector<double> m_time_s;
    std::vector<std::vector<double>> m_values; // a field each; not a number: missing
    bool m_dated = false;
    double m_usual_step_s = 0.0;
    Findings m_findings;
};

/// Told the bytes read so far, a few times a second at the most; false ends the reading.
using LoggerProgress = std::function<bool(std::uint64_t read_bytes)>;

/// Reads a logger's file of any length as a stream, so that memory holds its numbers alone. Call it on a worker thread.
///
/// Rows need not be of one length: only the columns that are read count. Blank lines are passed over. An empty cell, a
/// dash, NA, N/A, NaN and null are a missing value. Times may be unequal; clock times without a date run over midnight
/// where they fall by more than 12 hours.
///
/// Refuses, with the place as at_place puts it: `exchange.logger_row_short`, `exchange.logger_time_unreadable`,
/// `exchange.logger_not_a_number` (all three left out instead where the layout says so), `exchange.logger_time_twice`,
/// `exchange.logger_time_backwards`, `exchange.logger_no_rows`, `exchange.logger_too_many_rows`,
/// `exchange.logger_column_not_chosen` (of a required field), `exchange.logger_cancelled`, and what TextLines refuses.
[[nodiscard]] Expected<LoggerTable> read_logger_table(ByteSource source, const std::string& file,
                                                      const LoggerLayout& layout, std::span<const LoggerField> fields,
                                                      const LoggerProgress& progress);

/// The cells of one line, without the spaces and quotation marks around them; views into the line.
void split_logger_line(std::string_view line, char separator, std::vector<std::string_view>& cells);

/// A number as loggers write it, with that decimal mark; nothing for other text.
[[nodiscard]] std::optional<double> logger_number(std::string_view cell, char decimal);

/// The time of a row in seconds, as LoggerTable::time_s before any midnight; `dated` where a date stood with it.
/// Nothing for other text, and for columns that the row has not.
struct LoggerTime {
    double time_s = 0.0;
    bool dated = false;
};
[[nodiscard]] std::optional<LoggerTime> logger_time(const std::vector<std::string_view>& cells,
                                                    const LoggerLayout& layout);

} // namespace rillmark
