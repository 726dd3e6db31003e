// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "levelling/height_network.h"
#include "levelling/level_book.h"
#include "site/height_runs.h"
#include "site/survey.h"
#include "site/taped_legs.h"

#include <map>
#include <optional>
#include <string>

namespace rillmark {

/// The station at which the head begins: that of the chosen alternative, else the first intake; nullptr without one.
[[nodiscard]] const StationRow* intake_of(const Survey& survey);

/// Where an alternative ends its head: its powerhouse (the axis of an impulse wheel there), or the tailwater of a reaction
/// turbine with a draft tube; nullptr while there is no such station.
[[nodiscard]] const StationRow* end_of_head(const Survey& survey, const AlternativeRow* alternative);

/// The name of a station in the height network.
[[nodiscard]] std::string station_node(Id station);
/// The sights of a book as the levelling methods take them; struck ones are marked.
[[nodiscard]] std::vector<Sight> sights_of(const Survey& survey, Id book);
/// What the user calls the point of a sight: the station's name or the name of the change point.
[[nodiscard]] std::string point_name(const Survey& survey, const SightRow& sight);

/// The fall from the intake water level to where the chosen alternative ends its head (the turbine axis at the
/// powerhouse, or the tailwater), or while that is not measured to the last point that is.
struct RunningHead {
    Budgeted head;               // m, positive downwards; budget subjects are names as the user gave them
    std::vector<Id> budget_rows; // the sight (or occupation) behind each budget line, 0 where there is none
    std::string from;
    std::string to;
    Id from_station = 0;
    Id to_station = 0;
    bool to_powerhouse = false; // to the station where the chosen alternative ends its head
    bool checked = false; // the observations that carry it are checked by others (a closing run, a second line)
};

/// All evidence of height of one site in one network: level books and the heights of receivers.
///
/// Receiver heights enter as heights known with their own uncertainty, all brought to heights above one geoid
/// (receiver_heights.h): ellipsoidal heights and heights above sea level are never mixed. Next to bench marks they have
/// one more shared unknown, the difference of the datums.
struct SiteHeights {
    std::optional<AdjustedNetwork> network;
    std::map<Id, Estimate> height;    // station heights above the datum of the network
    std::map<Id, Estimate> fall;      // station -> fall below the intake
    std::optional<RunningHead> running_head;
    std::map<Id, Estimate> books; // level book -> rise from its first point to its last
    std::vector<RunResult> runs;  // of the other methods, in the order of booking
    TapedLegs taped;              // what was found of them stands with the runs
    Findings findings; // of the network and of books that cannot be reduced
};

[[nodiscard]] SiteHeights site_heights(const Survey& survey);

/// H(to) - H(from) of two points that both have a known height on record (bench marks); nothing else.
[[nodiscard]] std::optional<double> known_rise_m(const SiteHeights& heights, const std::string& from, const std::string& to);

} // namespace rillmark
