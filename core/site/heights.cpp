// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/heights.h"

#include "heights/receiver_heights.h"
#include "levelling/sight_correction.h"
#include "levelling/sight_observations.h"

#include <algorithm>
#include <cstdlib>
#include <unordered_map>

namespace rillmark {

namespace {

/// Redundancy above which a reading counts as checked by the others. Our own choice: a closed line of n set-ups gives
/// each reading 1/(2n), so lines of up to 500 set-ups count; what receiver heights of a metre add to a levelled
/// reading, some 1e-6, does not.
constexpr double kCheckedRedundancy = 1e-3;

/// How far the heights of a receiver may be from the datum of a bench mark: geoid separations and local datums.
/// Our choice, no source.
constexpr double kDatumOffset_m = 100.0;
constexpr const char* kReceiverHeight = "levels.receiver_height";

SightKind kind_of(const std::string& stored) {
    if (stored == "backsight")
        return SightKind::Backsight;
    return stored == "foresight" ? SightKind::Foresight : SightKind::Intermediate;
}

std::string change_point_node(Id book, const std::string& name) {
    return "b" + std::to_string(book) + ":" + name;
}

/// The name that the user gave to the point of a node: of a station, or of a change point of a book.
std::string node_name(const Survey& survey, const std::string& node) {
    if (node.starts_with('s'))
        if (const StationRow* station = survey.station(std::atoll(node.c_str() + 1)))
            return station->name;
    // "b<book>:<name>" and "r<run>:<name>" are change points
    const std::size_t colon = node.find(':');
    return colon != std::string::npos ? node.substr(colon + 1) : node;
}

/// From the first to the last point of a book.
std::optional<Estimate> whole_rise(const AdjustedNetwork& book, const std::vector<Sight>& sights) {
    const auto counts = [](const Sight& sight) { return !sight.struck; };
    const auto first = std::find_if(sights.begin(), sights.end(), counts);
    const auto last = std::find_if(sights.rbegin(), sights.rend(), counts);
    if (first == sights.end() || first->point == last->point)
        return {};
    const Expected<Estimate> rise = book.difference(first->point, last->point);
    return rise ? std::optional(*rise) : std::nullopt;
}

/// The line of sight of an instrument that no two-peg test is on record for: level, to what is allowed for streamgages
/// (USGS Techniques and Methods 3-A19, 2010: 0.003 ft per 100 ft, taken as the half-width of an even distribution).
constexpr Estimate kUntestedCollimation{0.0, 1.732e-5};

/// The newest two-peg test of an instrument, by its name.
const TwoPegResult* two_peg_of(const Survey& survey, const std::vector<RunResult>& runs,
                               const std::string& instrument) {
    const TwoPegResult* newest = nullptr;
    for (const RunResult& run : runs)
        if (run.two_peg && survey.height_run(run.run_id)->instrument == instrument)
            newest = &*run.two_peg;
    return newest;
}

/// The readings of one book as observations: line of sight and curvature of the earth taken out where distances are
/// booked.
Expected<std::vector<HeightDifference>> book_observations(const LevelBookRow& book, const std::vector<Sight>& sights,
                                                          const TwoPegResult* test, Findings& findings) {
    SightCorrections corrections;
    if (test != nullptr)
        corrections.collimation = test->collimation;
    corrections.curvature =
        std::any_of(sights.begin(), sights.end(), [](const Sight& s) { return s.distance_m.has_value(); });
    const Expected<CorrectedSights> corrected = correct_sights(sights, corrections);
    if (!corrected)
        return corrected.error();
    findings.insert(findings.end(), corrected->findings.begin(), corrected->findings.end());
    SightPrecision precision;
    precision.per_metre = 0.0; // the line of sight is shared by all sights of an instrument
    if (book.staff_uncertainty_m)
        precision.staff_reading_m = *book.staff_uncertainty_m;
    Expected<std::vector<HeightDifference>> observations =
        observations_of(corrected->sights, std::to_string(book.id), precision);
    if (observations)
        share_collimation(corrected->sights, test != nullptr ? test->collimation : kUntestedCollimation,
                          book.instrument, *observations);
    return observations;
}

std::vector<HeightDifference> levelled(const Survey& survey, SiteHeights& result) {
    std::vector<HeightDifference> all;
    for (const Booked<LevelBookRow>& book : survey.books) {
        if (book.struck)
            continue;
        const std::vector<Sight> sights = sights_of(survey, book.row.id);
        if (std::all_of(sights.begin(), sights.end(), [](const Sight& s) { return s.struck; }))
            continue;
        Findings findings;
        const Expected<std::vector<HeightDifference>> observations =
            book_observations(book.row, sights, two_peg_of(survey, result.runs, book.row.instrument), findings);
        if (!observations)
            findings.push_back(observations.error());
        for (Finding& finding : findings) {
            finding.where = book.row.name + (finding.where.empty() ? "" : ": " + node_name(survey, finding.where));
            result.findings.push_back(std::move(finding));
        }
        if (!observations)
            continue;
        if (const Expected<AdjustedNetwork> alone = adjust(*observations))
            if (const std::optional<Estimate> rise = whole_rise(*alone, sights))
                result.books.emplace(book.row.id, *rise);
        all.insert(all.end(), observations->begin(), observations->end());
    }
    return all;
}

/// Heights of receivers as observations above one geoid; `offset` where their datum is not that of the bench marks of
/// the site.
std::vector<KnownHeight> receiver_heights(const Survey& survey, bool offset, Findings& findings) {
    std::vector<ReceiverStay> stays;
    for (const Booked<OccupationRow>& one : survey.occupations) {
        const StationRow* station = survey.station(one.row.station_id);
        const OccupationRow& row = one.row;
        if (one.struck || station == nullptr || !row.u_up_m || (!row.height_ellipsoid_m && !row.height_msl_m))
            continue;
        stays.push_back({row.id,
                         station_node(station->id),
                         row.latitude_deg,
                         row.longitude_deg,
                         row.height_ellipsoid_m,
                         row.height_msl_m,
                         {},
                         row.u_up_m,
                         fix_quality_from_id(row.quality),
                         row.source});
    }
    std::vector<KnownHeight> heights;
    if (stays.empty())
        return heights;
    const Expected<GeoidHeights> received = geoid_heights(stays);
    const Findings said = received ? received->findings : Findings{received.error()};
    for (Finding finding : said) {
        finding.severity = std::min(finding.severity, Severity::Warning); // the levels stand without them
        finding.where = node_name(survey, finding.where);
        findings.push_back(std::move(finding));
    }
    if (!received)
        return heights;
    for (const GeoidHeight& one : received->heights) {
        KnownHeight known{one.point, {one.height_m, one.random_m}, false, one.id, kReceiverHeight, one.shared};
        if (offset)
            known.shared.push_back({"receiver-datum:", "levels.receiver_datum", kDatumOffset_m});
        heights.push_back(std::move(known));
    }
    return heights;
}

/// Where the running head ends: that station once anything joins it to the intake, else the last levelled station of
/// the newest book, else the lowest station that has a fall.
const StationRow* lower_end(const Survey& survey, const SiteHeights& heights, const StationRow& intake) {
    const StationRow* wanted = end_of_head(survey, survey.alternative());
    const auto joined = [&](Id station) {
        return station != intake.id && heights.network->difference(station_node(station), station_node(intake.id)).ok();
    };
    if (wanted != nullptr && joined(wanted->id))
        return wanted;
    for (auto sight = survey.sights.rbegin(); sight != survey.sights.rend(); ++sight)
        if (!sight->struck && sight->row.station_id && joined(*sight->row.station_id))
            return survey.station(*sight->row.station_id);
    const StationRow* lowest = nullptr;
    for (const auto& [id, fall] : heights.fall)
        if (id != intake.id && (lowest == nullptr || fall.value > heights.fall.at(lowest->id).value))
            lowest = survey.station(id);
    return lowest;
}

/// What the user calls the cause of a shared error, from its key: the run or the instrument.
std::string shared_subject(const Survey& survey, const std::string& key) {
    const std::string cause = key.substr(key.find(':') + 1);
    const HeightRunRow* run = survey.height_run(std::atoll(cause.c_str()));
    return run != nullptr ? run->name : cause;
}

std::optional<RunningHead> running_head(const Survey& survey, const SiteHeights& heights, const StationRow& intake) {
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
    head.from_station = intake.id;
    head.to_station = end->id;
    head.to_powerhouse = end == end_of_head(survey, survey.alternative());

    std::unordered_map<Id, const AdjustedObservation*> adjusted;
    for (const AdjustedObservation& observation : heights.network->observations())
        adjusted.emplace(observation.id, &observation);
    double carried = 0.0;
    double carried_and_checked = 0.0;
    for (std::size_t i = 0; i < head.head.budget.size(); ++i) {
        BudgetLine& line = head.head.budget[i];
        const auto observation = adjusted.find(head.budget_rows[i]);
        line.subject =
            observation == adjusted.end() ? shared_subject(survey, line.subject) : node_name(survey, line.subject);
        if (observation == adjusted.end() || line.input == kReceiverHeight)
            continue;
        carried += line.share;
        if (observation->second->redundancy > kCheckedRedundancy)
            carried_and_checked += line.share;
    }
    // a head that rests on receiver heights for the greater part is not checked by levels, whatever their redundancy
    head.checked = carried > 0.5 && carried_and_checked > 0.5 * carried;
    return head;
}

/// Heights of all stations, without what only tapes tell.
SiteHeights adjusted_heights(const Survey& survey) {
    SiteHeights result;
    for (const Booked<HeightRunRow>& run : survey.height_runs)
        if (!run.struck)
            result.runs.push_back(run_result(survey, run.row));
    std::vector<HeightDifference> differences = levelled(survey, result);
    std::vector<KnownHeight> known;
    for (const RunResult& run : result.runs) {
        differences.insert(differences.end(), run.differences.begin(), run.differences.end());
        known.insert(known.end(), run.known.begin(), run.known.end());
    }
    // bench marks have a datum of their own: what receivers are off it is one unknown
    const std::vector<KnownHeight> received = receiver_heights(survey, !known.empty(), result.findings);
    known.insert(known.end(), received.begin(), received.end());
    if (differences.empty() && known.empty())
        return result;

    Expected<AdjustedNetwork> network = adjust(differences, known);
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

    const StationRow* intake = intake_of(survey);
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
    result.running_head = running_head(survey, result, *intake);
    return result;
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
        sights.push_back({one.row.id, kind_of(one.row.kind), node, one.row.reading_m, one.row.distance_m, one.struck});
    }
    return sights;
}

const StationRow* intake_of(const Survey& survey) {
    const AlternativeRow* alternative = survey.alternative();
    return alternative != nullptr && alternative->intake_id ? survey.station(*alternative->intake_id)
                                                            : survey.first_of_kind("intake");
}

const StationRow* end_of_head(const Survey& survey, const AlternativeRow* alternative) {
    if (alternative != nullptr && alternative->lower_end == "tailwater")
        return survey.first_of_kind("tailwater");
    return alternative != nullptr && alternative->powerhouse_id ? survey.station(*alternative->powerhouse_id)
                                                                : survey.first_of_kind("powerhouse");
}

SiteHeights site_heights(const Survey& survey) {
    SiteHeights result = adjusted_heights(survey);
    result.taped = taped_legs(survey, result.network ? &*result.network : nullptr);
    for (RunResult& run : result.runs)
        if (const auto found = result.taped.findings.find(run.run_id); found != result.taped.findings.end())
            run.findings.insert(run.findings.end(), found->second.begin(), found->second.end());
    return result;
}

std::optional<double> known_rise_m(const SiteHeights& heights, const std::string& from, const std::string& to) {
    std::optional<double> from_m;
    std::optional<double> to_m;
    for (const RunResult& run : heights.runs)
        for (const KnownHeight& known : run.known) {
            if (known.point == from)
                from_m = known.height.value;
            if (known.point == to)
                to_m = known.height.value;
        }
    return from_m && to_m ? std::optional(*to_m - *from_m) : std::nullopt;
}

} // namespace rillmark
