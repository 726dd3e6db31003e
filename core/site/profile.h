// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "site/heights.h"
#include "site/survey.h"

#include <optional>
#include <vector>

namespace rillmark {

/// A station of the long profile.
struct ProfilePoint {
    Id station = 0;
    double chainage_m = 0.0; // level, along the line of the pipe
    Estimate height;         // above the datum of the network
};

/// The stations along the pipe that have a height, from the intake down, tailwater included.
[[nodiscard]] std::vector<ProfilePoint> profile_of(const Survey& survey, const SiteHeights& heights);

/// The fall between two stations, and over what length where both lie along the pipe or have a position.
struct Drop {
    Estimate fall;                 // H(upper) - H(lower), from the full covariance
    std::optional<double> level_m; // along the line where both are on it, else straight
    std::optional<double> pipe_m;  // along the slope
    std::optional<double> slope;   // fall over level distance
};
/// Nothing where no readings join the two.
[[nodiscard]] std::optional<Drop> drop_between(const Survey& survey, const SiteHeights& heights, Id upper, Id lower);

} // namespace rillmark
