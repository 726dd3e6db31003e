// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/readiness.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace rillmark {

namespace {

constexpr double kCircle_deg = 360.0;

double stations_of(const Survey& survey, std::string_view kind) {
    return static_cast<double>(std::ranges::count_if(
        survey.stations, [kind](const Booked<StationRow>& one) { return !one.struck && one.row.kind == kind; }));
}

bool same_view(double a_deg, double b_deg) {
    const double apart = std::fabs(std::remainder(a_deg - b_deg, kCircle_deg));
    return apart < kSameView_deg;
}

/// Photos that show different things: one whose direction is not known counts as a view of its own.
double views_of(const Survey& survey, std::string_view kind) {
    std::set<Id> linked;
    for (const Project::PhotoLink& link : survey.photo_links) {
        const auto station = std::ranges::find(survey.stations, link.station_id,
                                               [](const Booked<StationRow>& one) { return one.row.id; });
        if (station != survey.stations.end() && !station->struck && station->row.kind == kind)
            linked.insert(link.photo_id);
    }
    double count = 0.0;
    std::vector<double> directions;
    for (const Booked<PhotoRow>& photo : survey.photos) {
        if (photo.struck || !linked.contains(photo.row.id))
            continue;
        const std::optional<double>& view = photo.row.direction_deg;
        if (view && std::ranges::any_of(directions, [&](double known) { return same_view(known, *view); }))
            continue;
        if (view)
            directions.push_back(*view);
        count += 1.0;
    }
    return count;
}

double head_of(const SiteEstimate& estimate) {
    const std::optional<RunningHead>& head = estimate.heights.running_head;
    if (!head || !head->to_powerhouse)
        return 0.0;
    return head->checked ? 2.0 : 1.0;
}

double route_of(const SiteLine& line) {
    if (!line.known())
        return 0.0;
    return line.stations.size() > 2 ? 2.0 : 1.0;
}

double low_water_of(const SiteEstimate& estimate) {
    if (!estimate.flow.to_use)
        return 0.0;
    return estimate.season && estimate.season->site && estimate.season->site->q95 ? 2.0 : 1.0;
}

double days_of(const SiteEstimate& estimate) {
    return estimate.flow.to_use ? static_cast<double>(estimate.flow.to_use->visits.size()) : 0.0;
}

double notes_of(const Survey& survey) {
    return static_cast<double>(std::ranges::count_if(survey.notes, [](const auto& one) { return !one.struck; }));
}

double chosen(const Survey& survey, std::string AlternativeRow::*choice) {
    const AlternativeRow* alternative = survey.alternative();
    return alternative != nullptr && !(alternative->*choice).empty() ? 1.0 : 0.0;
}

/// The pipe may be described by its sections instead of by one name.
double pipe_of(const Survey& survey) {
    const AlternativeRow* alternative = survey.alternative();
    const bool sections = alternative != nullptr && !survey.sections(alternative->id).empty();
    return sections ? 1.0 : chosen(survey, &AlternativeRow::pipe_id);
}

double count_of(const Ask& ask, const Survey& survey, const SiteEstimate& estimate) {
    const auto line = [&](StationLine which) { return site_line(survey, estimate.heights, which); };
    if (ask.rule == "head")
        return head_of(estimate);
    if (ask.rule == "flow-days")
        return days_of(estimate);
    if (ask.rule == "low-water")
        return low_water_of(estimate);
    if (ask.rule == "stations")
        return stations_of(survey, ask.about);
    if (ask.rule == "views")
        return views_of(survey, ask.about);
    if (ask.rule == "route")
        return route_of(line(ask.about == "cable" ? StationLine::Cable : StationLine::Pipe));
    if (ask.rule == "high-points")
        return !line(StationLine::Pipe).known() ? 0.0 : stations_of(survey, "high-point") > 0.0 ? 2.0 : 1.0;
    if (ask.rule == "notes")
        return notes_of(survey);
    if (ask.rule == "water-temperature")
        return survey.site.water_temperature_C ? 1.0 : 0.0;
    if (ask.rule == "pipe")
        return pipe_of(survey);
    if (ask.rule == "cable")
        return chosen(survey, &AlternativeRow::cable_id);
    return 0.0;
}

const AnswerRow* answer_to(const Survey& survey, const std::string& key) {
    const AnswerRow* last = nullptr;
    for (const Booked<AnswerRow>& one : survey.answers)
        if (!one.struck && one.row.ask == key)
            last = &one.row;
    return last;
}

ReadinessItem judge(const Ask& ask, const Survey& survey, const SiteEstimate& estimate) {
    ReadinessItem item{ask, "site.ask_" + ask.key, Readiness::Missing, {}, {}};
    const AnswerRow* answer = answer_to(survey, ask.key);
    if (answer != nullptr)
        item.answer = *answer;
    const std::string verdict = answer != nullptr ? answer->verdict : std::string();
    if (verdict == "not-needed") {
        item.state = Readiness::NotNeeded;
        return item;
    }
    const double count = count_of(ask, survey, estimate);
    if (ask.answer != AskAnswer::None && (verdict == "yes" || verdict == "text"))
        item.state = Readiness::Done;
    else if (count >= ask.enough && verdict != "no")
        item.state = Readiness::Done;
    else if (count >= ask.some)
        item.state = Readiness::Thin;
    if (item.state == Readiness::Thin)
        item.why = "site.thin_" + ask.key;
    else if (item.state == Readiness::Missing)
        item.why = "site.missing_" + ask.key;
    return item;
}

} // namespace

std::vector<ReadinessItem> readiness(const Survey& survey, const SiteEstimate& estimate, const std::vector<Ask>& asks) {
    std::vector<ReadinessItem> items;
    for (const Ask& ask : asks)
        items.push_back(judge(ask, survey, estimate));
    return items;
}

std::vector<ReadinessItem> readiness(const Survey& survey, const SiteEstimate& estimate) {
    return readiness(survey, estimate, read_asks().value_or({}));
}

ReadinessTally tally(const std::vector<ReadinessItem>& items) {
    ReadinessTally tally;
    for (const ReadinessItem& item : items)
        switch (item.state) {
        case Readiness::Done:
            ++tally.done;
            break;
        case Readiness::Thin:
            ++tally.thin;
            break;
        case Readiness::Missing:
            ++tally.missing;
            break;
        case Readiness::NotNeeded:
            ++tally.not_needed;
            break;
        }
    return tally;
}

const char* readiness_id(Readiness state) {
    switch (state) {
    case Readiness::Done:
        return "done";
    case Readiness::Thin:
        return "thin";
    case Readiness::NotNeeded:
        return "not-needed";
    case Readiness::Missing:
        break;
    }
    return "missing";
}

} // namespace rillmark
