// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "site/heights.h"
#include "site/survey.h"

#include <optional>

namespace rillmark {

/// How far down the creek a station stands, in metres: the chainage of the nearest point of the line of the pipe, which
/// runs from the intake down; its first and last stretch are taken on beyond their ends. Rises downstream. A guess to
/// be corrected by a tape: as good as the positions, and as the creek is straight beside the pipe. Nothing for a
/// station without a position, or with fewer than two stations along the pipe.
[[nodiscard]] std::optional<double> distance_along_creek_m(const Survey& survey, const SiteHeights& heights,
                                                           Id station);

} // namespace rillmark
