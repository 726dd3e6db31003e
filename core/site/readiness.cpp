// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/readiness.h"

#include <algorithm>
#include <set>

namespace rillmark {

namespace {

// Our own choice: fewer corners do not enclose anything.
constexpr std::ptrdiff_t kLeastCorners = 3;

std::ptrdiff_t stations_of(const Survey& survey, std::string_view kind) {
    return std::count_if(survey.stations.begin(), survey.stations.end(),
                         [kind](const Booked<StationRow>& one) { return !one.struck && one.row.kind == kind; });
}

bool photographed(const Survey& survey, std::string_view kind) {
    std::set<Id> struck;
    for (const Booked<PhotoRow>& photo : survey.photos)
        if (photo.struck)
            struck.insert(photo.row.id);
    return std::any_of(survey.photo_links.begin(), survey.photo_links.end(), [&](const Project::PhotoLink& link) {
        const StationRow* station = survey.station(link.station_id);
        return station != nullptr && station->kind == kind && !struck.contains(link.photo_id);
    });
}

ReadinessItem judged(std::string code, bool done, std::string why, std::string place,
                     Readiness otherwise = Readiness::Missing) {
    return {std::move(code), done ? Readiness::Done : otherwise, done ? std::string() : std::move(why),
            std::move(place)};
}

ReadinessItem heights(const SiteEstimate& estimate) {
    const std::optional<RunningHead>& head = estimate.heights.running_head;
    if (!head || !head->to_powerhouse)
        return judged("site.ask_heights", false, "site.why_no_head", "levels");
    return judged("site.ask_heights", head->checked, "site.why_head_unchecked", "levels", Readiness::Thin);
}

ReadinessItem flow(const SiteEstimate& estimate) {
    const std::optional<FlowToUse>& flow = estimate.flow.to_use;
    if (!flow)
        return judged("site.ask_flow", false, "site.why_no_flow", "flow");
    return judged("site.ask_flow", flow->visits.size() > 1, "site.why_one_visit", "flow", Readiness::Thin);
}

} // namespace

std::vector<ReadinessItem> readiness(const Survey& survey, const SiteEstimate& estimate) {
    const SiteLine pipe = site_line(survey, estimate.heights, StationLine::Pipe);
    const SiteLine cable = site_line(survey, estimate.heights, StationLine::Cable);
    const AlternativeRow* alternative = survey.alternative();
    const bool noted = std::any_of(survey.notes.begin(), survey.notes.end(), [](const auto& one) { return !one.struck; });
    return {
        heights(estimate),
        flow(estimate),
        judged("site.ask_flood", stations_of(survey, "flood-mark") > 0, "site.why_no_flood_mark", "walk"),
        judged("site.ask_boundary", stations_of(survey, "boundary-corner") >= kLeastCorners, "site.why_no_boundary", "walk"),
        judged("site.ask_intake_photo", photographed(survey, "intake"), "site.why_no_photo", "walk"),
        judged("site.ask_powerhouse_photo", photographed(survey, "powerhouse"), "site.why_no_photo", "walk"),
        judged("site.ask_pipe_route", pipe.stations.size() > 2, pipe.known() ? "site.why_straight_route" : "site.why_no_route",
               "walk", pipe.known() ? Readiness::Thin : Readiness::Missing),
        judged("site.ask_cable_route", cable.known(), "site.why_no_route", "walk"),
        judged("site.ask_benchmark", stations_of(survey, "benchmark") > 0, "site.why_no_benchmark", "walk"),
        judged("site.ask_water_temperature", survey.site.water_temperature_C.has_value(), "site.why_no_temperature", "power"),
        judged("site.ask_pipe", alternative != nullptr && !alternative->pipe_id.empty(), "site.why_no_pipe", "power"),
        judged("site.ask_cable", alternative != nullptr && !alternative->cable_id.empty(), "site.why_no_cable", "power"),
        judged("site.ask_notes", noted, "site.why_no_notes", "walk"),
    };
}

} // namespace rillmark
