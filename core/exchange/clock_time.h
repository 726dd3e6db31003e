// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string_view>

namespace rillmark {

/// Seconds of a time as loggers write it: a number of seconds; `7:05`, `07:05:09` or `07:05:09.5` (seconds of the day);
/// or one of these after a date `2026-03-01`, a space or `T` between, a `Z` at the end allowed (seconds since 1970 in
/// the clock's own zone). Nothing for other text, and for dates and times that there are not.
[[nodiscard]] std::optional<double> clock_time_s(std::string_view text);

} // namespace rillmark
