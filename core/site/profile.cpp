// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/profile.h"

#include "position/local_frame.h"
#include "site/site_estimate.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

std::optional<std::size_t> place_on(const SiteLine& line, Id station) {
    const auto hit = std::ranges::find(line.stations, station);
    return hit == line.stations.end() ? std::nullopt : std::optional(static_cast<std::size_t>(hit - line.stations.begin()));
}

std::optional<double> straight_m(const StationRow& a, const StationRow& b) {
    if (!a.latitude_deg || !a.longitude_deg || !b.latitude_deg || !b.longitude_deg)
        return {};
    const Expected<GeodesicLine> line =
        geodesic({*a.latitude_deg, *a.longitude_deg}, {*b.latitude_deg, *b.longitude_deg});
    return line ? std::optional(line->distance_m) : std::nullopt;
}

} // namespace

std::vector<ProfilePoint> profile_of(const Survey& survey, const SiteHeights& heights) {
    std::vector<ProfilePoint> profile;
    const SiteLine line = site_line(survey, heights, StationLine::Pipe);
    for (std::size_t i = 0; i < line.stations.size(); ++i)
        if (const auto height = heights.height.find(line.stations[i]); height != heights.height.end())
            profile.push_back({line.stations[i], line.chainage_m[i], height->second});
    // the tailwater lies below the powerhouse, beyond the end of the pipe
    const StationRow* tailwater = survey.first_of_kind("tailwater");
    if (tailwater == nullptr || profile.empty())
        return profile;
    const auto height = heights.height.find(tailwater->id);
    const std::optional<double> beyond_m = straight_m(*survey.station(profile.back().station), *tailwater);
    if (height != heights.height.end() && beyond_m)
        profile.push_back({tailwater->id, profile.back().chainage_m + *beyond_m, height->second});
    return profile;
}

std::optional<Drop> drop_between(const Survey& survey, const SiteHeights& heights, Id upper, Id lower) {
    const StationRow* from = survey.station(upper);
    const StationRow* to = survey.station(lower);
    if (!heights.network || from == nullptr || to == nullptr || upper == lower)
        return {};
    const Expected<Estimate> fall = heights.network->difference(station_node(lower), station_node(upper));
    if (!fall)
        return {};
    Drop drop{*fall, {}, {}, {}};
    const SiteLine line = site_line(survey, heights, StationLine::Pipe);
    const std::optional<std::size_t> a = place_on(line, upper);
    const std::optional<std::size_t> b = place_on(line, lower);
    if (a && b) {
        drop.level_m = std::abs(line.chainage_m[*b] - line.chainage_m[*a]);
        drop.pipe_m = std::abs(line.slope_chainage_m[*b] - line.slope_chainage_m[*a]);
    } else if (const std::optional<double> level_m = straight_m(*from, *to)) {
        drop.level_m = level_m;
        drop.pipe_m = std::hypot(*level_m, fall->value);
    }
    if (drop.level_m && *drop.level_m > 0.0 && *drop.pipe_m > 0.0)
        drop.slope = fall->value / *drop.level_m;
    return drop;
}

} // namespace rillmark
