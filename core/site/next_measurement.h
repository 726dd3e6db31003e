// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "site/heights.h"
#include "site/survey.h"

#include <string>
#include <vector>

namespace rillmark {

/// A height difference worth measuring next.
struct NextMeasurement {
    std::string from;   // names of the stations
    std::string to;
    std::string method; // id of HeightMethod, "level-book" for a line of levels
    bool joins = false; // it would join what nothing joins yet
    double before_m = 0.0; // standard uncertainty of the head without it
    double after_m = 0.0;  // and with it
};

/// Standard uncertainty (m) to expect of a line of levels over that distance and rise: set-ups of 60 m or 2.5 m of rise,
/// two readings of 1.5 mm each (common practice, no source).
[[nodiscard]] double expected_levelling_m(double distance_m, double rise_m);

/// The measurements that would narrow the running head most, or that would join the powerhouse or a lone group of
/// readings to the rest, best first. One measurement between any two neighbours of the line, or from either end of the
/// head, by a line of levels and by the methods that the site has used so far; each alone, not together.
[[nodiscard]] std::vector<NextMeasurement> what_to_measure_next(const Survey& survey, const SiteHeights& heights,
                                                               std::size_t most);

} // namespace rillmark
