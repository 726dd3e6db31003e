// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/intake.h"
#include "power/water_to_wire.h"
#include "site/flow_tests.h"
#include "site/survey.h"

#include <optional>

namespace rillmark {

/// The diversion and the intake of an alternative: what can be said of it by what was entered. The levels, the flood
/// and the works themselves are for a civil engineer and the permit.
struct IntakeLink {
    std::optional<double> creek_m3s; // of the flow to use
    std::optional<double> left_m3s;  // of which stays in the creek at the design flow
    std::optional<double> flood_m3s; // entered, else the largest of the slope-area tests
    std::optional<WallLevels> wall;  // levels above the crest
    std::optional<RackLoss> rack;
    std::optional<Submergence> mouth;
    std::optional<double> screen_width_m;
    std::optional<double> settling_ms;
    std::optional<Basin> basin;
    std::optional<Estimate> loss_m; // of rack and screen at the design flow; empty where neither was entered
    Findings findings; // of the parts; `site.flow_more_than_creek`, `site.no_freeboard_known`, `site.mouth_too_shallow`
};

/// The loss of a rack is taken between clean and half clogged, anything in between equally likely (rectangular, JCGM
/// 100:2008, 4.3.7); the head given up at an inclined screen as entered. A part whose numbers are refused says so in
/// `findings` and is left out.
[[nodiscard]] IntakeLink intake_link(const SiteFlow& flow, const AlternativeRow& alternative, const ChainInput& chain);

} // namespace rillmark
