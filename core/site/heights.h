// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "levelling/height_network.h"
#include "levelling/level_book.h"
#include "site/survey.h"

#include <map>
#include <optional>
#include <string>

namespace rillmark {

/// The name of a station in the height network.
[[nodiscard]] std::string station_node(Id station);
/// The sights of a book as the levelling methods take them; struck ones are marked.
[[nodiscard]] std::vector<Sight> sights_of(const Survey& survey, Id book);
/// What the user calls the point of a sight: the station's name or the name of the change point.
[[nodiscard]] std::string point_name(const Survey& survey, const SightRow& sight);

/// The fall from the intake water level to the powerhouse, or while no powerhouse is levelled to the last point that is.
struct RunningHead {
    Budgeted head;               // m, positive downwards; budget subjects are names as the user gave them
    std::vector<Id> budget_rows; // the sight (or occupation) behind each budget line, 0 where there is none
    std::string from;
    std::string to;
    bool to_powerhouse = false;
    bool checked = false; // the observations that carry it are checked by others (a closing run, a second line)
};

/// All evidence of height of one site in one network: level books and the heights of receivers.
///
/// Receiver heights enter as heights known with their own uncertainty; ellipsoidal ones where every station that has a
/// height has an ellipsoidal one, else those above sea level, never both in one network (`site.heights_mixed`).
struct SiteHeights {
    std::optional<AdjustedNetwork> network;
    std::map<Id, Estimate> height;    // station heights above the datum of the network
    std::map<Id, Estimate> fall;      // station -> fall below the intake
    std::optional<RunningHead> running_head;
    Findings findings; // of the network and of books that cannot be reduced
};

[[nodiscard]] SiteHeights site_heights(const Survey& survey);

} // namespace rillmark
