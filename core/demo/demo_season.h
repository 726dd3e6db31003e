// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/project.h"
#include "season/daily_flow.h"

namespace rillmark::demo {

/// Six years of daily flows of an invented neighbour: a wet winter, a snowmelt, a dry late summer, storms that run off, and
/// a week without figures. The same each time.
[[nodiscard]] DailyFlow neighbour_flows();

/// Books the neighbour's record and three more visits to the staff gauge, by floats, at higher water; the site's catchment
/// and the reading at which its flow ceases.
[[nodiscard]] Expected<void> book_season(Project& project);

} // namespace rillmark::demo
