// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/reduce_table.h"
#include "expected.h"
#include "position/position_fix.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark::demo {

/// One table of assets/demo. Refuses a missing one (`exchange.demo_missing`) and what read_csv and read_reduce_table refuse.
[[nodiscard]] Expected<ReduceTable> table(std::string_view file, std::span<const ReduceField> fields);
/// One picture of assets/demo. Refuses a missing one (`exchange.demo_missing`).
[[nodiscard]] Expected<std::vector<unsigned char>> picture(std::string_view file);

extern const std::span<const ReduceField> kSite;
extern const std::span<const ReduceField> kStations;
extern const std::span<const ReduceField> kFixes;
extern const std::span<const ReduceField> kBooks;
extern const std::span<const ReduceField> kSights;
extern const std::span<const ReduceField> kHeightRuns;
extern const std::span<const ReduceField> kHeightReadings;
extern const std::span<const ReduceField> kMeters;
extern const std::span<const ReduceField> kTests;
extern const std::span<const ReduceField> kFills;
extern const std::span<const ReduceField> kGauging;
extern const std::span<const ReduceField> kFlowReadings;
extern const std::span<const ReduceField> kAlternatives;
extern const std::span<const ReduceField> kNotes;
extern const std::span<const ReduceField> kPhotos;

/// The fix in one row of fixes.csv or track.csv.
[[nodiscard]] PositionFix fix_of(const ReduceTable& fixes, std::size_t row);

} // namespace rillmark::demo
