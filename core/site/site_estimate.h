// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/station_kind.h"
#include "power/water_to_wire.h"
#include "site/flow_tests.h"
#include "site/heights.h"
#include "site/survey.h"

#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// A line through stations: the pipe from the intake to the powerhouse, the cable from the powerhouse to the house.
struct SiteLine {
    std::vector<Id> stations;             // in order
    std::vector<double> chainage_m;       // horizontal, one a station
    std::vector<double> slope_chainage_m; // along the ground where heights are known
    [[nodiscard]] bool known() const { return stations.size() >= 2; }
};

/// The stations of the line that their kind belongs to ("pipe", "cable", "boundary"), by route_order, then as logged.
/// Struck ones and those without a position are left out. The pipe ends at the powerhouse; the cable begins there.
[[nodiscard]] SiteLine site_line(const Survey& survey, const SiteHeights& heights, StationLine line);

/// The inputs of one alternative, from what was surveyed and chosen.
///
/// Lengths: as entered, else along the stations, with a standard uncertainty of 2 % of the length (common practice, no
/// source) or that of the positions of the ends, whichever is larger.
struct AlternativeEstimate {
    Id alternative_id = 0;
    ChainInput input;
    ChainResult result;
    Findings findings; // of looking the choices up
};
[[nodiscard]] AlternativeEstimate alternative_estimate(const Survey& survey, const SiteHeights& heights,
                                                       const SiteFlow& flow, const PowerTables& tables,
                                                       const AlternativeRow& alternative);

/// The three figures of the strip and all that is behind them.
struct SiteEstimate {
    SiteHeights heights;
    SiteFlow flow;
    AlternativeEstimate chosen;
    // why a figure is marked as resting on too little; empty where it is not
    Findings head_doubts;
    Findings flow_doubts;
    Findings power_doubts;
};
[[nodiscard]] SiteEstimate site_estimate(const Survey& survey, const PowerTables& tables);

} // namespace rillmark
