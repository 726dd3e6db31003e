// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "levelling/height_network.h"
#include "levelling/level_book.h"

#include <string>
#include <vector>

namespace rillmark {

/// Standard uncertainty of one staff reading: u^2 = staff_reading^2 + (per_metre x distance)^2.
struct SightPrecision {
    /// Reading to 1 mm on a hand-held staff, plumb and foot included: common practice, no source.
    double staff_reading_m = 0.0015;
    /// Line of sight: 3 mm per 100 m allowed for streamgages (USGS Techniques and Methods 3-A19, 2010: 0.003 ft per
    /// 100 ft), taken as the half-width of an even distribution, 3e-5 / sqrt(3). Not used where no distance is booked.
    double per_metre = 1.732e-5;
};

/// The node of a set-up's line of sight in the height network; it starts with a character that nobody can type.
[[nodiscard]] std::string instrument_node(const std::string& book, std::size_t setup);
[[nodiscard]] bool is_instrument_node(const std::string& point);

/// The readings of a book as observations between the staff points and the height of instrument of each set-up:
/// a backsight is a rise of its reading from point to instrument, an intermediate sight or foresight a rise of minus
/// its reading from instrument to point. So every residual and budget line belongs to one reading (id of the sight,
/// source "levels.staff_reading", subject the point), and the sights of one set-up share their backsight properly.
/// Struck sights are left out. Refuses what reduce() refuses, and a precision that is not finite or a reading
/// uncertainty not above zero (`levels.uncertainty_impossible`).
[[nodiscard]] Expected<std::vector<HeightDifference>>
observations_of(const std::vector<Sight>& sights, const std::string& book, const SightPrecision& precision = {});

} // namespace rillmark
