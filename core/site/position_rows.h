// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/average.h"
#include "position/position_fix.h"
#include "project/records.h"

#include <optional>

namespace rillmark {

/// A fix as it is stored: of a stay at a station, or of the track when that is empty.
[[nodiscard]] FixRow fix_row(const PositionFix& fix, std::optional<Id> occupation);
/// The averaged fixes of one stay as they are stored.
[[nodiscard]] OccupationRow occupation_row(const AveragedPosition& mean, Id station);

} // namespace rillmark
