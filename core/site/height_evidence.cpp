// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/height_evidence.h"

#include "heights/height_method.h"
#include "levelling/sight_judgement.h"

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace rillmark {

namespace {

constexpr const char* kStaffReading = "levels.staff_reading";
constexpr const char* kReceiver = "levels.receiver_height";

/// What the rest of the evidence expects a staff reading to be: the residual over the redundancy is the reading's own error.
std::optional<Finding> slip_of(const Survey& survey, const SightRow& sight, const AdjustedObservation& adjusted) {
    if (!adjusted.outlier || !adjusted.normalised_residual || adjusted.redundancy <= 0.0)
        return {};
    const double error_m = adjusted.residual_m / adjusted.redundancy * (sight.kind == "backsight" ? -1.0 : 1.0);
    const double u_m = std::abs(error_m / *adjusted.normalised_residual);
    std::optional<double> backsight_m;
    if (sight.kind == "foresight")
        for (const Booked<SightRow>& one : survey.page(sight.book_id)) {
            if (one.row.id == sight.id)
                break;
            if (!one.struck && one.row.kind == "backsight")
                backsight_m = one.row.reading_m;
        }
    Sight booked;
    booked.point = point_name(survey, sight);
    booked.reading_m = sight.reading_m;
    return judge_sight(booked, {sight.reading_m - error_m, u_m}, 0.001, backsight_m);
}

/// As slip_of() for a rise by any other method.
std::optional<Finding> rise_slip(double rise_m, const AdjustedObservation& adjusted, const std::string& subject) {
    if (!adjusted.outlier || !adjusted.normalised_residual || adjusted.redundancy <= 0.0)
        return {};
    const double error_m = adjusted.residual_m / adjusted.redundancy;
    const double u_m = std::abs(error_m / *adjusted.normalised_residual);
    std::optional<Finding> finding = judge_against_expected(rise_m, {rise_m + error_m, u_m});
    if (finding)
        finding->where = subject;
    return finding;
}

class Collector {
public:
    Collector(const Survey& survey, const SiteHeights& heights) : m_survey(survey) {
        if (!heights.network)
            return;
        for (const AdjustedObservation& one : heights.network->observations())
            m_adjusted.emplace(one.id, &one);
        for (const RunResult& run : heights.runs)
            for (const HeightDifference& difference : run.differences)
                m_rise_m.emplace(difference.id, difference.rise_m);
    }

    std::vector<Evidence> all() && {
        for (const Booked<LevelBookRow>& book : m_survey.books)
            if (!book.struck)
                for (const Booked<SightRow>& sight : m_survey.page(book.row.id))
                    add(sight, Evidence::Place::Book, book.row.id, kStaffReading,
                        book.row.name + ", " + point_name(m_survey, sight.row));
        for (const Booked<HeightRunRow>& run : m_survey.height_runs)
            if (!run.struck)
                for (const Booked<HeightReadingRow>& reading : m_survey.readings(run.row.id))
                    add(reading, Evidence::Place::Run, run.row.id, source_of(run.row),
                        run.row.name + ", " + ends_of(reading.row));
        for (const Booked<OccupationRow>& stay : m_survey.occupations)
            if (const StationRow* station = m_survey.station(stay.row.station_id); station && stay.row.u_up_m)
                add(stay, Evidence::Place::Station, station->id, kReceiver, station->name);
        std::vector<std::string> sources;
        for (const Evidence& one : m_all)
            if (std::ranges::find(sources, one.source) == sources.end())
                sources.push_back(one.source);
        std::ranges::stable_sort(m_all, {}, [&](const Evidence& one) { return std::ranges::find(sources, one.source) - sources.begin(); });
        return std::move(m_all);
    }

private:
    static std::string source_of(const HeightRunRow& run) {
        const std::optional<HeightMethod> method = height_method_from_id(run.method);
        return method ? std::string(height_method_info(*method).name_code) : run.method;
    }

    [[nodiscard]] std::string ends_of(const HeightReadingRow& reading) const {
        const std::string from = reading_point_name(m_survey, reading, false);
        const std::string to = reading_point_name(m_survey, reading, true);
        return to.empty() ? from : from + " - " + to;
    }

    /// A reading that counts but is not in the network (refused, or only a distance) is left out.
    template <class Record>
    void add(const Booked<Record>& booked, Evidence::Place place, Id place_id, std::string source, std::string subject) {
        Evidence one;
        one.place = place;
        one.place_id = place_id;
        one.row_id = booked.row.id;
        one.source = std::move(source);
        one.subject = std::move(subject);
        one.struck = booked.struck;
        one.struck_reason = booked.struck_reason;
        if (!booked.struck) {
            const auto hit = m_adjusted.find(booked.row.id);
            if (hit == m_adjusted.end())
                return;
            one.adjusted = *hit->second;
            if constexpr (std::is_same_v<Record, SightRow>)
                one.slip = slip_of(m_survey, booked.row, one.adjusted);
            if (const auto rise = m_rise_m.find(booked.row.id); place == Evidence::Place::Run && rise != m_rise_m.end())
                one.slip = rise_slip(rise->second, one.adjusted, one.subject);
        }
        m_all.push_back(std::move(one));
    }

    const Survey& m_survey;
    std::unordered_map<Id, const AdjustedObservation*> m_adjusted;
    std::unordered_map<Id, double> m_rise_m; // by the reading of a run
    std::vector<Evidence> m_all;
};

} // namespace

std::vector<Evidence> evidence_of(const Survey& survey, const SiteHeights& heights) {
    return Collector(survey, heights).all();
}

} // namespace rillmark
