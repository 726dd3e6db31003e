// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/taped_legs.h"

#include "heights/height_method.h"
#include "heights/taped_distance.h"
#include "levelling/sight_judgement.h"
#include "position/local_frame.h"
#include "site/height_runs.h"
#include "site/heights.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

/// Lengths laid one after the other from one station to the next.
struct LaidLine {
    Id from = 0;
    Id to = 0;
    int laid = 0;
    double slope_m = 0.0;
    double level_m = 0.0;
    int with_slope = 0;
    int with_level = 0;
};

/// The lines of a run that lead from a station to a station. A length that does not go on where the last one ended
/// begins a new line.
std::vector<LaidLine> laid_lines(const Survey& survey, Id run) {
    std::vector<LaidLine> lines;
    LaidLine line;
    std::string end;
    for (const Booked<HeightReadingRow>& one : survey.readings(run)) {
        const HeightReadingRow& reading = one.row;
        if (one.struck || (!reading.slope_distance_m && !reading.level_distance_m))
            continue;
        if (line.laid == 0 || reading_node(reading, false) != end)
            line = {reading.from_id.value_or(0)};
        ++line.laid;
        line.slope_m += reading.slope_distance_m.value_or(0.0);
        line.level_m += reading.level_distance_m.value_or(0.0);
        line.with_slope += reading.slope_distance_m.has_value();
        line.with_level += reading.level_distance_m.has_value();
        end = reading_node(reading, true);
        if (!reading.to_id)
            continue;
        line.to = *reading.to_id;
        if (line.from != 0 && line.from != line.to)
            lines.push_back(line);
        line = {};
    }
    return lines;
}

std::optional<Estimate> rise_between(const AdjustedNetwork* network, Id from, Id to) {
    if (network == nullptr)
        return {};
    const Expected<Estimate> rise = network->difference(station_node(from), station_node(to));
    return rise ? std::optional(*rise) : std::nullopt;
}

Estimate mean(const Estimate& a, const Estimate& b) {
    const double wa = 1.0 / (a.standard_uncertainty * a.standard_uncertainty);
    const double wb = 1.0 / (b.standard_uncertainty * b.standard_uncertainty);
    return {(wa * a.value + wb * b.value) / (wa + wb), 1.0 / std::sqrt(wa + wb)};
}

bool apart(const Estimate& a, const Estimate& b) {
    return std::abs(a.value - b.value) > kOutlierLimit * std::hypot(a.standard_uncertainty, b.standard_uncertainty);
}

/// Level distance by the positions of two stations, where both stays say how good they are.
std::optional<Estimate> by_positions(const Survey& survey, Id a, Id b) {
    const StationRow* from = survey.station(a);
    const StationRow* to = survey.station(b);
    const OccupationRow* from_stay = survey.latest_stay(a);
    const OccupationRow* to_stay = survey.latest_stay(b);
    if (from == nullptr || to == nullptr || from_stay == nullptr || to_stay == nullptr || !from->latitude_deg ||
        !from->longitude_deg || !to->latitude_deg || !to->longitude_deg)
        return {};
    const Expected<GeodesicLine> line =
        geodesic({*from->latitude_deg, *from->longitude_deg}, {*to->latitude_deg, *to->longitude_deg});
    double variance = 0.0;
    for (const OccupationRow* stay : {from_stay, to_stay})
        variance += (stay->u_east_m * stay->u_east_m + stay->u_north_m * stay->u_north_m) / 2.0; // along the line: half
    if (!line || !(variance > 0.0))
        return {};
    return Estimate{line->distance_m, std::sqrt(variance)};
}

class LegSum {
public:
    LegSum(const Survey& survey, const AdjustedNetwork* network) : m_survey(survey), m_network(network) {}

    void add(const HeightRunRow& run, const LaidLine& line) {
        Findings& findings = m_result.findings[run.id];
        const std::size_t before = findings.size();
        const std::optional<TapedLeg> leg = reduced(run, line, findings);
        if (leg) {
            if (const std::optional<Estimate> placed = by_positions(m_survey, line.from, line.to);
                placed && leg->level_m && apart(*placed, *leg->level_m))
                findings.push_back(warning("levels.tape_against_positions", {},
                                           {{"taped", leg->level_m->value, Quantity::Length},
                                            {"placed", placed->value, Quantity::Length},
                                            {"plus_minus", placed->expanded(), Quantity::Length}}));
            keep(line, *leg, findings);
        }
        for (std::size_t i = before; i < findings.size(); ++i)
            findings[i].where = name(line.from) + " - " + name(line.to);
    }

    TapedLegs result() && { return std::move(m_result); }

private:
    [[nodiscard]] std::string name(Id station) const {
        const StationRow* row = m_survey.station(station);
        return row != nullptr ? row->name : std::string();
    }

    [[nodiscard]] std::optional<TapedLeg> reduced(const HeightRunRow& run, const LaidLine& line,
                                                  Findings& findings) const {
        const bool by_slope = line.with_slope == line.laid;
        const bool by_level = line.with_level == line.laid;
        if (!by_slope && !by_level) {
            findings.push_back(warning("levels.tape_mixed"));
            return {};
        }
        DistancePrecision precision = kTapePrecision;
        if (run.distance_u)
            precision.per_length = *run.distance_u;
        const std::optional<Estimate> rise = rise_between(m_network, line.from, line.to);
        const auto reduce = [&](double length_m, SightDistance is) {
            return taped_distance({length_m, is, line.laid, precision}, rise.value_or(Estimate{}));
        };
        std::optional<ReducedDistance> taken;
        for (const auto& [measured, length_m, is] : {std::tuple(by_slope, line.slope_m, SightDistance::Slope),
                                                     std::tuple(by_level, line.level_m, SightDistance::Level)}) {
            if (!measured)
                continue;
            const Expected<ReducedDistance> one = reduce(length_m, is);
            if (!one) {
                findings.push_back(warning(one.error().code, {}, one.error().args));
                return {};
            }
            if (!taken)
                taken = *one;
            else
                taken->level_m = one->level_m;
        }
        if (rise && by_slope && by_level) {
            const Findings judged = judge_distances(*taken, *rise);
            findings.insert(findings.end(), judged.begin(), judged.end());
        }
        TapedLeg leg{taken->level_m, taken->slope_m};
        if (!rise && !by_level)
            leg.level_m.reset();
        return leg;
    }

    void keep(const LaidLine& line, const TapedLeg& leg, Findings& findings) {
        const auto [found, added] = m_result.legs.try_emplace(std::minmax(line.from, line.to), leg);
        if (added)
            return;
        TapedLeg& earlier = found->second;
        if (apart(earlier.slope_m, leg.slope_m))
            findings.push_back(warning("levels.tape_differs", {},
                                       {{"taped", leg.slope_m.value, Quantity::Length},
                                        {"earlier", earlier.slope_m.value, Quantity::Length}}));
        earlier.slope_m = mean(earlier.slope_m, leg.slope_m);
        earlier.level_m = earlier.level_m && leg.level_m ? mean(*earlier.level_m, *leg.level_m)
                          : earlier.level_m              ? earlier.level_m
                                                         : leg.level_m;
    }

    const Survey& m_survey;
    const AdjustedNetwork* m_network;
    TapedLegs m_result;
};

} // namespace

const TapedLeg* TapedLegs::between(Id a, Id b) const {
    const auto hit = legs.find(std::minmax(a, b));
    return hit == legs.end() ? nullptr : &hit->second;
}

TapedLegs taped_legs(const Survey& survey, const AdjustedNetwork* network) {
    LegSum sum(survey, network);
    for (const Booked<HeightRunRow>& run : survey.height_runs)
        if (!run.struck && height_method_from_id(run.row.method) == HeightMethod::Tape)
            for (const LaidLine& line : laid_lines(survey, run.row.id))
                sum.add(run.row, line);
    return std::move(sum).result();
}

} // namespace rillmark
