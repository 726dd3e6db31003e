// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace rillmark {

/// The day that an ISO 8601 text names, "2025-08-31"; nothing for any other text.
[[nodiscard]] std::optional<std::chrono::sys_days> day_from_iso(std::string_view text);

/// Seconds since 1970 of a time of the file ("2026-05-14T08:15:30.250Z"); nothing for another text.
[[nodiscard]] std::optional<double> seconds_of_utc(const std::string& utc);

} // namespace rillmark
