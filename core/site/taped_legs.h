// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "levelling/height_network.h"
#include "site/survey.h"

#include <map>
#include <optional>
#include <utility>

namespace rillmark {

/// The length between two stations by tape or laser, as far as it can be told.
struct TapedLeg {
    std::optional<Estimate> level_m; // unknown where only the slope was measured and no readings give the rise
    Estimate slope_m;                // the level distance where nothing gives the rise
};

/// What the tape runs of a site give: legs by their stations, the lower id first.
struct TapedLegs {
    std::map<std::pair<Id, Id>, TapedLeg> legs;
    std::map<Id, Findings> findings; // by run

    /// Of two stations in any order, or nullptr.
    [[nodiscard]] const TapedLeg* between(Id a, Id b) const;
};

/// Adds up the lengths of each run from station to station through its change points, brings slope to level distance by
/// the rise that `network` (may be nullptr) knows, and takes the weighted mean of repeated legs.
///
/// Findings of a run: `levels.tape_mixed`, a warning and the leg left out, where some of its lengths are level and
/// others along the slope; `levels.tape_differs`, a warning that a repeated leg is off by more than kOutlierLimit
/// standard uncertainties; what judge_distances() says; `levels.tape_against_positions`, a warning that positions with
/// known accuracy put the stations at another level distance.
[[nodiscard]] TapedLegs taped_legs(const Survey& survey, const AdjustedNetwork* network);

} // namespace rillmark
