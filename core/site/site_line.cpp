// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/site_line.h"

#include "position/chainage.h"
#include "site/taped_legs.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

struct Placed {
    const StationRow* station;
    std::size_t logged;
};

std::vector<const StationRow*> stations_of(const Survey& survey, StationLine which) {
    std::vector<Placed> placed;
    for (std::size_t i = 0; i < survey.stations.size(); ++i) {
        const Booked<StationRow>& station = survey.stations[i];
        if (station.struck)
            continue;
        const StationKind kind = station_kind_from_id(station.row.kind);
        const bool begins_cable = which == StationLine::Cable && kind == StationKind::Powerhouse;
        const bool below_powerhouse = kind == StationKind::Tailwater;
        if ((station_line(kind) == which && !below_powerhouse) || begins_cable)
            placed.push_back({&station.row, begins_cable ? 0 : i + 1});
    }
    std::ranges::stable_sort(placed, {}, [](const Placed& one) {
        return one.station->route_order.value_or(static_cast<std::int64_t>(one.logged));
    });
    std::vector<const StationRow*> stations;
    for (const Placed& one : placed)
        stations.push_back(one.station);
    return stations;
}

struct Leg {
    double level_m = 0.0;
    double slope_m = 0.0;
};

std::optional<RoutePoint> route_point(const SiteHeights& heights, const StationRow& station) {
    if (!station.latitude_deg || !station.longitude_deg)
        return {};
    const auto height = heights.height.find(station.id);
    return RoutePoint{{*station.latitude_deg, *station.longitude_deg},
                      height != heights.height.end() ? std::optional(height->second.value) : std::nullopt};
}

std::optional<Leg> leg_by_positions(const SiteHeights& heights, const StationRow& a, const StationRow& b) {
    const std::optional<RoutePoint> from = route_point(heights, a);
    const std::optional<RoutePoint> to = route_point(heights, b);
    if (!from || !to)
        return {};
    const Expected<Chainage> chainage = chainage_along(std::vector<RoutePoint>{*from, *to});
    return chainage ? std::optional(Leg{chainage->horizontal_m.back(), chainage->slope_m.back()}) : std::nullopt;
}

/// The line through stations in that order.
SiteLine line_through(const SiteHeights& heights, const std::vector<const StationRow*>& stations) {
    SiteLine line;
    double taped_variance = 0.0;
    const StationRow* last = nullptr;
    for (const StationRow* station : stations) {
        if (last == nullptr) {
            if (!station->latitude_deg || !station->longitude_deg)
                continue;
            line.stations = {station->id};
            line.chainage_m = line.slope_chainage_m = {0.0};
            last = station;
            continue;
        }
        std::optional<Leg> leg = leg_by_positions(heights, *last, *station);
        if (const TapedLeg* taped = heights.taped.between(last->id, station->id);
            taped != nullptr && (taped->level_m || leg)) {
            leg = Leg{taped->level_m ? taped->level_m->value : leg->level_m, taped->slope_m.value};
            line.taped_m += leg->slope_m;
            taped_variance += taped->slope_m.standard_uncertainty * taped->slope_m.standard_uncertainty;
        }
        if (!leg)
            continue;
        line.stations.push_back(station->id);
        line.chainage_m.push_back(line.chainage_m.back() + leg->level_m);
        line.slope_chainage_m.push_back(line.slope_chainage_m.back() + leg->slope_m);
        last = station;
    }
    line.taped_u_m = std::sqrt(taped_variance);
    return line;
}

} // namespace

SiteLine site_line(const Survey& survey, const SiteHeights& heights, StationLine which) {
    return line_through(heights, stations_of(survey, which));
}

SiteLine pipe_line(const Survey& survey, const SiteHeights& heights, const AlternativeRow& alternative) {
    std::vector<const StationRow*> stations = stations_of(survey, StationLine::Pipe);
    const auto keep_own = [&stations](const std::optional<Id>& own, StationKind kind, bool first) {
        if (!own)
            return;
        const auto place = std::ranges::find(stations, *own, &StationRow::id);
        if (place == stations.end())
            return;
        if (first)
            stations.erase(stations.begin(), place);
        else
            stations.erase(place + 1, stations.end());
        std::erase_if(stations, [&](const StationRow* one) {
            return one->id != *own && station_kind_from_id(one->kind) == kind;
        });
    };
    keep_own(alternative.intake_id, StationKind::Intake, true);
    keep_own(alternative.powerhouse_id, StationKind::Powerhouse, false);
    return line_through(heights, stations);
}

Estimate line_length(const Survey& survey, const SiteLine& line, double relative) {
    const double length_m = line.slope_chainage_m.back();
    const double walked_m = length_m - line.taped_m;
    double ends = 0.0;
    if (walked_m > 0.0)
        for (const Id end : {line.stations.front(), line.stations.back()})
            if (const OccupationRow* stay = survey.latest_stay(end))
                ends += stay->u_east_m * stay->u_east_m + stay->u_north_m * stay->u_north_m;
    // of the two horizontal axes half the variance lies along the line
    return {length_m, std::hypot(std::max(relative * walked_m, std::sqrt(ends / 2.0)), line.taped_u_m)};
}

} // namespace rillmark
