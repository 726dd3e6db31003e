// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/local_frame.h"
#include "project/records.h"

#include <optional>
#include <vector>

namespace rillmark {

/// Where a station is by all stays at it: the mean by 1/u^2, east and north apart, in local metres. Stays are taken as
/// independent (they are averaged within themselves, see position/average.h). A stay without uncertainty, or one that is
/// more than kWidestSpread_m from the first, is left out; none left: nothing.
[[nodiscard]] std::optional<GeoPoint> position_of_stays(const std::vector<OccupationRow>& stays);

} // namespace rillmark
