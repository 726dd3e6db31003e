// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/next_measurement.h"

#include "heights/height_method.h"
#include "position/local_frame.h"
#include "site/site_estimate.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace rillmark {

namespace {

constexpr const char* kLevelBook = "level-book";

// Common practice, no source, as in docs of each method: one set-up of each.
constexpr double kSetUpLength_m = 60.0;
constexpr double kSetUpRise_m = 2.5;
constexpr double kStaffReading_m = 0.0015;
constexpr double kWaterTube_m = 0.004;
constexpr double kTubeLength_m = 15.0;
constexpr double kHandLevel_rel = 0.015;  // of the rise
constexpr double kClinometer_rel = 0.01;  // of the distance
constexpr double kHose_m = 0.5;
constexpr double kFarthest_m = 1000.0;    // where no distance is known

double distance_m(const StationRow& a, const StationRow& b) {
    if (!a.latitude_deg || !a.longitude_deg || !b.latitude_deg || !b.longitude_deg)
        return kFarthest_m;
    const Expected<GeodesicLine> line =
        geodesic({*a.latitude_deg, *a.longitude_deg}, {*b.latitude_deg, *b.longitude_deg});
    return line ? line->distance_m : kFarthest_m;
}

/// What a method can be expected to give; nothing for those that do not measure between two points.
std::optional<double> expected_m(const std::string& method, double distance, double rise) {
    if (method == kLevelBook)
        return expected_levelling_m(distance, rise);
    const std::optional<HeightMethod> known = height_method_from_id(method);
    if (!known)
        return {};
    switch (*known) {
    case HeightMethod::WaterTube: {
        const double set_ups = std::max(std::ceil(distance / kTubeLength_m), std::ceil(std::abs(rise) / kSetUpRise_m));
        return kWaterTube_m * std::sqrt(std::max(set_ups, 1.0));
    }
    case HeightMethod::HandLevel: return std::max(kHandLevel_rel * std::abs(rise), 0.03);
    case HeightMethod::Clinometer: return std::max(kClinometer_rel * distance, 0.05);
    case HeightMethod::Zenith: return std::max(0.1 * kClinometer_rel * distance, 0.005);
    case HeightMethod::HoseGauge: return kHose_m;
    default: return {};
    }
}

std::set<std::string> methods_on_hand(const Survey& survey) {
    std::set<std::string> methods{kLevelBook};
    for (const Booked<HeightRunRow>& run : survey.height_runs)
        if (!run.struck)
            methods.insert(run.row.method);
    return methods;
}

struct Pair {
    const StationRow* from;
    const StationRow* to;
};

class Search {
public:
    Search(const Survey& survey, const SiteHeights& heights) : m_survey(survey), m_heights(heights) {}

    std::vector<NextMeasurement> joining() const {
        std::vector<NextMeasurement> list;
        const StationRow* intake = intake_of(m_survey);
        if (!m_heights.network || intake == nullptr)
            return list;
        std::vector<const StationRow*> joined;
        std::vector<const StationRow*> apart;
        for (const Booked<StationRow>& station : m_survey.stations) {
            if (station.struck)
                continue;
            const std::string node = station_node(station.row.id);
            const Expected<Estimate> fall = m_heights.network->difference(node, station_node(intake->id));
            if (fall || station.row.id == intake->id)
                joined.push_back(&station.row);
            else if (fall.error().code == "levels.points_not_joined" || station.row.kind == "powerhouse")
                apart.push_back(&station.row);
        }
        std::set<std::string> done; // one reading joins a whole group
        for (const StationRow* lone : apart) {
            if (done.contains(station_node(lone->id)) || joined.empty())
                continue;
            const StationRow* nearest = *std::ranges::min_element(
                joined, {}, [lone](const StationRow* one) { return distance_m(*one, *lone); });
            list.push_back({nearest->name, lone->name, kLevelBook, true, 0.0, 0.0});
            for (const std::vector<std::string>& group : m_heights.network->unconnected())
                if (std::ranges::find(group, station_node(lone->id)) != group.end())
                    done.insert(group.begin(), group.end());
        }
        return list;
    }

    std::vector<NextMeasurement> narrowing() const {
        std::vector<NextMeasurement> list;
        if (!m_heights.network || !m_heights.running_head)
            return list;
        const std::string top = station_node(m_heights.running_head->from_station);
        const std::string bottom = station_node(m_heights.running_head->to_station);
        std::vector<PlannedDifference> planned;
        for (const Pair& pair : pairs()) {
            const Expected<Estimate> rise =
                m_heights.network->difference(station_node(pair.from->id), station_node(pair.to->id));
            if (!rise)
                continue;
            for (const std::string& method : methods_on_hand(m_survey))
                if (const std::optional<double> u_m = expected_m(method, distance_m(*pair.from, *pair.to), rise->value)) {
                    planned.push_back({station_node(pair.from->id), station_node(pair.to->id), *u_m});
                    list.push_back({pair.from->name, pair.to->name, method, false,
                                    m_heights.running_head->head.estimate.standard_uncertainty, 0.0});
                }
        }
        const Expected<std::vector<double>> with_each = m_heights.network->uncertainty_with(bottom, top, planned);
        if (!with_each)
            return {};
        for (std::size_t i = 0; i < list.size(); ++i)
            list[i].after_m = (*with_each)[i];
        std::ranges::stable_sort(list, {}, &NextMeasurement::after_m);
        return list;
    }

private:
    std::vector<Pair> pairs() const {
        std::vector<Pair> pairs;
        const SiteLine line = site_line(m_survey, m_heights, StationLine::Pipe);
        const StationRow* top = m_survey.station(m_heights.running_head->from_station);
        const StationRow* bottom = m_survey.station(m_heights.running_head->to_station);
        if (top == nullptr || bottom == nullptr)
            return pairs;
        pairs.push_back({top, bottom});
        for (std::size_t i = 1; i < line.stations.size(); ++i)
            pairs.push_back({m_survey.station(line.stations[i - 1]), m_survey.station(line.stations[i])});
        for (const Id station : line.stations)
            for (const StationRow* end : {top, bottom})
                if (station != top->id && station != bottom->id)
                    pairs.push_back({end, m_survey.station(station)});
        return pairs;
    }

    const Survey& m_survey;
    const SiteHeights& m_heights;
};

} // namespace

double expected_levelling_m(double distance_m, double rise_m) {
    const double set_ups =
        std::max({std::ceil(distance_m / kSetUpLength_m), std::ceil(std::abs(rise_m) / kSetUpRise_m), 1.0});
    return kStaffReading_m * std::sqrt(2.0 * set_ups);
}

std::vector<NextMeasurement> what_to_measure_next(const Survey& survey, const SiteHeights& heights, std::size_t most) {
    const Search search(survey, heights);
    std::vector<NextMeasurement> list = search.joining();
    for (NextMeasurement& one : search.narrowing())
        list.push_back(std::move(one));
    if (list.size() > most)
        list.resize(most);
    return list;
}

} // namespace rillmark
