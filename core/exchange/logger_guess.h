// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/logger_table.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

// Our own choice: enough for a header of a hundred lines.
inline constexpr std::size_t kLoggerHead_bytes = 32768;

/// The lines of the first bytes of a file, as UTF-8; a last one that was cut is left out where there are others.
[[nodiscard]] std::vector<std::string> logger_head(std::string_view head, TextEncoding encoding);

/// A layout that fits the first lines of a file, to be looked at and changed by the person.
///
/// The separator is the one of semicolon, tab, comma, bar and space under which most lines in a row have equally many
/// cells and hold numbers; the readings begin with the first of those lines. Columns go by the names and units above
/// them, else by their place. Day before month where no line tells. Fields that are not found stay empty.
[[nodiscard]] LoggerLayout guess_logger_layout(const std::vector<std::string>& lines, TextEncoding encoding,
                                               std::span<const LoggerField> fields);

/// The names of the columns, one a cell of the first row: from the lines above it that have as many cells (units in a
/// line of their own are added), empty where there are none.
[[nodiscard]] std::vector<std::string> logger_column_names(const std::vector<std::string>& lines,
                                                           const LoggerLayout& layout);

/// The unit that the name of a column speaks of, such as "EC [µS/cm]" or "level_mm".
[[nodiscard]] std::optional<Unit> unit_in_name(std::string_view name, Quantity quantity);

} // namespace rillmark
