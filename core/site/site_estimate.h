// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/water_to_wire.h"
#include "site/flow_tests.h"
#include "site/heights.h"
#include "site/intake_link.h"
#include "site/plant.h"
#include "site/season.h"
#include "site/site_line.h"
#include "site/survey.h"

#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// The inputs of one alternative, from what was surveyed and chosen.
///
/// The pipe: see plant_pipe; its intake: see intake_link. The cable's length: as entered, else along its stations, with a
/// standard uncertainty of 2 % of the length that was not taped (common practice, no source) or that of the positions of the ends, whichever
/// is larger.
struct AlternativeEstimate {
    Id alternative_id = 0;
    PlantPipe pipe;
    IntakeLink intake;
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
    std::shared_ptr<const SiteSeason> season;
    AlternativeEstimate chosen;
    // why a figure is marked as resting on too little; empty where it is not
    Findings head_doubts;
    Findings flow_doubts;
    Findings power_doubts;
};
/// `before` spares computing a season anew whose inputs are the same.
[[nodiscard]] SiteEstimate site_estimate(const Survey& survey, const PowerTables& tables,
                                         const std::shared_ptr<const SiteSeason>& before = {});

} // namespace rillmark
