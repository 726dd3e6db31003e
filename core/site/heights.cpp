// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/heights.h"

#include "levelling/sight_observations.h"

#include <algorithm>
#include <cstdlib>
#include <unordered_map>

namespace rillmark {

namespace {

/// Redundancy above which a reading counts as checked by the others. Our own choice: a closed line of n set-ups gives each
/// reading 1/(2n), so lines of up to 500 set-ups count; what receiver heights of a metre add to a levelled reading, some
/// 1e-6, does not.
constexpr double kCheckedRedundancy = 1e-3;

SightKind kind_of(const std::string& stored) {
    if (stored == "backsight")
        return SightKind::Backsight;
    return stored == "foresight" ? SightKind::Foresight : SightKind::Intermediate;
}

std::string change_point_node(Id book, const std::string& name) {
    return "b" + std::to_string(book) + ":" + name;
}

std::vector<HeightDifference> levelled(const Survey& survey, Findings& findings) {
    std::vector<HeightDifference> all;
    for (const Booked<LevelBookRow>& book : survey.books) {
        if (book.struck)
            continue;
        const std::vector<Sight> sights = sights_of(survey, book.row.id);
        if (std::all_of(sights.begin(), sights.end(), [](const Sight& s) { return s.struck; }))
            continue;
        SightPrecision precision;
        if (book.row.staff_uncertainty_m)
            precision.staff_reading_m = *book.row.staff_uncertainty_m;
        const Expected<std::vector<HeightDifference>> observations =
            observations_of(sights, std::to_string(book.row.id), precision);
        if (!observations) {
            findings.push_back(observations.error());
            findings.back().where = book.row.name + ": " + observations.error().where;
            continue;
        }
        all.insert(all.end(), observations->begin(), observations->end());
    }
    return all;
}

struct ReceiverHeights {
    std::vector<KnownHeight> heights;
    std::unordered_map<std::string, const OccupationRow*> occupation_at; // by node of the station
};

ReceiverHeights receiver_heights(const Survey& survey, Findings& findings) {
    std::size_t ellipsoidal = 0;
    std::size_t above_sea = 0;
    for (const Booked<OccupationRow>& one : survey.occupations) {
        if (one.struck || !one.row.u_up_m)
            continue;
        ellipsoidal += one.row.height_ellipsoid_m.has_value();
        above_sea += one.row.height_msl_m.has_value();
    }
    const bool use_ellipsoid = ellipsoidal > 0 && ellipsoidal >= above_sea;
    ReceiverHeights receiver;
    std::size_t left_out = 0;
    for (const Booked<OccupationRow>& one : survey.occupations) {
        const StationRow* station = survey.station(one.row.station_id);
        if (one.struck || !one.row.u_up_m || station == nullptr)
            continue;
        const std::optional<double> height = use_ellipsoid ? one.row.height_ellipsoid_m : one.row.height_msl_m;
        if (!height) {
            left_out += one.row.height_ellipsoid_m.has_value() || one.row.height_msl_m.has_value();
            continue;
        }
        receiver.heights.push_back({station_node(station->id), {*height, *one.row.u_up_m}, false});
        receiver.occupation_at[station_node(station->id)] = &one.row;
    }
    if (left_out > 0)
        findings.push_back(warning("site.heights_mixed", {}, {{"count", static_cast<std::int64_t>(left_out)}}));
    return receiver;
}

/// Where the running head ends: the powerhouse once anything joins it to the intake, else the last levelled station of the
/// newest book, else the lowest station that has a fall.
const StationRow* lower_end(const Survey& survey, const SiteHeights& heights, const StationRow& intake) {
    const AlternativeRow* alternative = survey.alternative();
    const StationRow* powerhouse = alternative != nullptr && alternative->powerhouse_id
                                       ? survey.station(*alternative->powerhouse_id)
                                       : survey.first_of_kind("powerhouse");
    const auto joined = [&](Id station) {
        return station != intake.id &&
               heights.network->difference(station_node(station), station_node(intake.id)).ok();
    };
    if (powerhouse != nullptr && joined(powerhouse->id))
        return powerhouse;
    for (auto sight = survey.sights.rbegin(); sight != survey.sights.rend(); ++sight)
        if (!sight->struck && sight->row.station_id && joined(*sight->row.station_id))
            return survey.station(*sight->row.station_id);
    const StationRow* lowest = nullptr;
    for (const auto& [id, fall] : heights.fall)
        if (id != intake.id && (lowest == nullptr || fall.value > heights.fall.at(lowest->id).value))
            lowest = survey.station(id);
    return lowest;
}

/// The name that the user gave to the point of a node: of a station, or of a change point of a book.
std::string node_name(const Survey& survey, const std::string& node) {
    if (node.starts_with('s'))
        if (const StationRow* station = survey.station(std::atoll(node.c_str() + 1)))
            return station->name;
    const std::size_t colon = node.find(':');
    return node.starts_with('b') && colon != std::string::npos ? node.substr(colon + 1) : node;
}

std::optional<RunningHead> running_head(const Survey& survey, const SiteHeights& heights, const StationRow& intake,
                                        const ReceiverHeights& receiver) {
    const StationRow* end = lower_end(survey, heights, intake);
    if (end == nullptr)
        return {};
    Expected<DifferenceBudget> difference =
        heights.network->difference_budget(station_node(end->id), station_node(intake.id));
    if (!difference)
        return {};
    RunningHead head;
    head.head = {difference->difference, std::move(difference->budget)};
    head.budget_rows = std::move(difference->ids);
    head.from = intake.name;
    head.to = end->name;
    head.to_powerhouse = end->kind == "powerhouse";

    std::unordered_map<Id, const SightRow*> sight_of;
    for (const Booked<SightRow>& sight : survey.sights)
        sight_of.emplace(sight.row.id, &sight.row);
    std::unordered_map<Id, double> redundancy_of;
    for (const AdjustedObservation& observation : heights.network->observations())
        redundancy_of.emplace(observation.id, observation.redundancy);
    double carried = 0.0;
    double carried_and_checked = 0.0;
    for (std::size_t line = 0; line < head.head.budget.size(); ++line) {
        const auto sight = sight_of.find(head.budget_rows[line]);
        if (sight == sight_of.end()) {
            const auto stay = receiver.occupation_at.find(head.head.budget[line].subject);
            if (stay != receiver.occupation_at.end()) {
                head.budget_rows[line] = stay->second->id;
                head.head.budget[line].subject = survey.station(stay->second->station_id)->name;
            }
            continue;
        }
        head.head.budget[line].subject = point_name(survey, *sight->second);
        carried += head.head.budget[line].share;
        if (redundancy_of[sight->first] > kCheckedRedundancy)
            carried_and_checked += head.head.budget[line].share;
    }
    // a head that rests on receiver heights for the greater part is not checked by levels, whatever their redundancy
    head.checked = carried > 0.5 && carried_and_checked > 0.5 * carried;
    return head;
}

} // namespace

std::string station_node(Id station) {
    return "s" + std::to_string(station);
}

std::string point_name(const Survey& survey, const SightRow& sight) {
    const StationRow* station = sight.station_id ? survey.station(*sight.station_id) : nullptr;
    return station != nullptr ? station->name : sight.point;
}

std::vector<Sight> sights_of(const Survey& survey, Id book) {
    std::vector<Sight> sights;
    for (const Booked<SightRow>& one : survey.page(book)) {
        const std::string node =
            one.row.station_id ? station_node(*one.row.station_id) : change_point_node(book, one.row.point);
        sights.push_back(
            {one.row.id, kind_of(one.row.kind), node, one.row.reading_m, one.row.distance_m, one.struck});
    }
    return sights;
}

SiteHeights site_heights(const Survey& survey) {
    SiteHeights result;
    const std::vector<HeightDifference> differences = levelled(survey, result.findings);
    const ReceiverHeights receiver = receiver_heights(survey, result.findings);
    if (differences.empty() && receiver.heights.empty())
        return result;

    Expected<AdjustedNetwork> network = adjust(differences, receiver.heights);
    if (!network) {
        result.findings.push_back(network.error());
        return result;
    }
    result.network = std::move(network).value();
    for (Finding finding : result.network->findings()) {
        finding.where = node_name(survey, finding.where);
        for (Arg& arg : finding.args)
            if (std::string* text = std::get_if<std::string>(&arg.value))
                *text = node_name(survey, *text);
        result.findings.push_back(std::move(finding));
    }

    for (const Booked<StationRow>& station : survey.stations)
        if (!station.struck)
            if (const std::optional<Estimate> height = result.network->height(station_node(station.row.id)))
                result.height.emplace(station.row.id, *height);

    const AlternativeRow* alternative = survey.alternative();
    const StationRow* intake = alternative != nullptr && alternative->intake_id ? survey.station(*alternative->intake_id)
                                                                               : survey.first_of_kind("intake");
    if (intake == nullptr)
        return result;
    // also in a book that nothing joins to a receiver height
    if (const Expected<std::vector<PointHeight>> falls = result.network->falls_below(station_node(intake->id))) {
        std::unordered_map<std::string, Estimate> by_node;
        for (const PointHeight& fall : *falls)
            by_node.emplace(fall.point, fall.height);
        for (const Booked<StationRow>& station : survey.stations)
            if (const auto hit = by_node.find(station_node(station.row.id)); !station.struck && hit != by_node.end())
                result.fall.emplace(station.row.id, hit->second);
    }
    result.running_head = running_head(survey, result, *intake, receiver);
    return result;
}

} // namespace rillmark
