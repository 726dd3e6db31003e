// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/station_kind.h"
#include "site/heights.h"
#include "site/survey.h"

#include <vector>

namespace rillmark {

/// A line through stations: the pipe from the intake to the powerhouse, the cable from the powerhouse to the house.
struct SiteLine {
    std::vector<Id> stations;             // in order
    std::vector<double> chainage_m;       // horizontal, one a station
    std::vector<double> slope_chainage_m; // along the ground where heights are known
    double taped_m = 0.0;                 // of the last slope chainage: length of the legs measured by tape or laser
    double taped_u_m = 0.0;               // and its standard uncertainty
    [[nodiscard]] bool known() const { return stations.size() >= 2; }
};

/// The stations of the line that their kind belongs to ("pipe", "cable", "boundary"), by route_order, then as logged.
/// A leg that was taped counts with the taped length, any other with the geodesic between the positions and the rise.
/// Struck stations are left out, and those without a position unless taped legs join them to the station before. The
/// pipe ends at the powerhouse; the cable begins there.
[[nodiscard]] SiteLine site_line(const Survey& survey, const SiteHeights& heights, StationLine line);

/// The pipe's line of one alternative: from its own intake to its own powerhouse, where it names them, without the
/// intakes and powerhouses of others.
[[nodiscard]] SiteLine pipe_line(const Survey& survey, const SiteHeights& heights, const AlternativeRow& alternative);

/// Length of a known line with its standard uncertainty: a part (`relative`) of the length that was not taped or that of
/// the positions of its ends, whichever is larger, and that of the tape.
[[nodiscard]] Estimate line_length(const Survey& survey, const SiteLine& line, double relative);

} // namespace rillmark
