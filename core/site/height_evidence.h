// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "levelling/height_network.h"
#include "site/heights.h"
#include "site/survey.h"

#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// One piece of evidence of height with what the adjustment says of it; struck ones as well.
struct Evidence {
    enum class Place { Book, Run, Station }; // where it was booked
    Place place = Place::Book;
    Id place_id = 0;
    Id row_id = 0;
    std::string source;  // code of the method, as BudgetLine::input
    std::string subject; // what the user calls it: book or run, and point
    AdjustedObservation adjusted;
    bool struck = false;
    std::string struck_reason;
    std::optional<Finding> slip; // a likely slip behind an outlier
};

/// All of it, grouped by method in the order in which each was first used; struck readings stand in their place.
[[nodiscard]] std::vector<Evidence> evidence_of(const Survey& survey, const SiteHeights& heights);

} // namespace rillmark
