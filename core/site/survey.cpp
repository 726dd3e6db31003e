// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/survey.h"

#include <algorithm>

namespace rillmark {

namespace {

template <class Record>
const Record* with_id(const std::vector<Booked<Record>>& rows, Id id) {
    const auto hit = std::find_if(rows.begin(), rows.end(), [id](const Booked<Record>& one) { return one.row.id == id; });
    return hit == rows.end() ? nullptr : &hit->row;
}

/// The rows that `wanted` takes, by their position.
template <class Record, class Wanted>
std::vector<Booked<Record>> in_order(const std::vector<Booked<Record>>& rows, const Wanted& wanted) {
    std::vector<Booked<Record>> taken;
    for (const Booked<Record>& one : rows)
        if (wanted(one.row))
            taken.push_back(one);
    std::stable_sort(taken.begin(), taken.end(), [](const Booked<Record>& a, const Booked<Record>& b) {
        return a.row.position < b.row.position;
    });
    return taken;
}

/// The rows of an alternative that count, by their position.
template <class Record>
std::vector<Record> of_alternative(const std::vector<Booked<Record>>& rows, Id alternative) {
    std::vector<Record> taken;
    for (const Booked<Record>& one : in_order(rows, [](const Record&) { return true; }))
        if (!one.struck && one.row.alternative_id == alternative)
            taken.push_back(one.row);
    return taken;
}

template <class Record>
Expected<void> read(const Project& project, std::vector<Booked<Record>>& into) {
    Expected<std::vector<Booked<Record>>> rows = project.all<Record>();
    if (!rows)
        return rows.error();
    into = std::move(rows).value();
    return {};
}

Expected<void> read_series_values(const Project& project, Survey& survey, const Survey* known) {
    bool all_known = true;
    for (const Booked<FlowSeriesRow>& one : survey.series) {
        if (known != nullptr && known->series_values.contains(one.row.id))
            survey.series_values[one.row.id] = known->series_values.at(one.row.id);
        else
            all_known = false;
    }
    if (all_known)
        return {};
    const Expected<std::vector<Booked<FlowSeriesBlockRow>>> blocks = project.all<FlowSeriesBlockRow>();
    if (!blocks)
        return blocks.error();
    for (const Booked<FlowSeriesRow>& one : survey.series) {
        if (survey.series_values.contains(one.row.id))
            continue;
        std::vector<const FlowSeriesBlockRow*> ours;
        for (const Booked<FlowSeriesBlockRow>& block : *blocks)
            if (block.row.series_id == one.row.id)
                ours.push_back(&block.row);
        std::ranges::sort(ours, {}, &FlowSeriesBlockRow::position);
        Expected<SeriesValues> values = series_values(one.row.kind, ours);
        survey.series_values[one.row.id] = std::make_shared<const SeriesValues>(
            values ? std::move(values).value() : SeriesValues{{}, {}, values.error()});
    }
    return {};
}

} // namespace

template <>
std::vector<Booked<StationRow>>& Survey::rows() { return stations; }
template <>
std::vector<Booked<OccupationRow>>& Survey::rows() { return occupations; }
template <>
std::vector<Booked<LevelBookRow>>& Survey::rows() { return books; }
template <>
std::vector<Booked<SightRow>>& Survey::rows() { return sights; }
template <>
std::vector<Booked<HeightRunRow>>& Survey::rows() { return height_runs; }
template <>
std::vector<Booked<HeightReadingRow>>& Survey::rows() { return height_readings; }
template <>
std::vector<Booked<FlowTestRow>>& Survey::rows() { return tests; }
template <>
std::vector<Booked<MeterRow>>& Survey::rows() { return meters; }
template <>
std::vector<Booked<FillRow>>& Survey::rows() { return fills; }
template <>
std::vector<Booked<FlowReadingRow>>& Survey::rows() { return flow_readings; }
template <>
std::vector<Booked<VerticalRow>>& Survey::rows() { return verticals; }
template <>
std::vector<Booked<VelocityRow>>& Survey::rows() { return velocities; }
template <>
std::vector<Booked<AlternativeRow>>& Survey::rows() { return alternatives; }
template <>
std::vector<Booked<FlowSeriesRow>>& Survey::rows() { return series; }
template <>
std::vector<Booked<PipeSectionRow>>& Survey::rows() { return pipe_sections; }
template <>
std::vector<Booked<PipeFittingRow>>& Survey::rows() { return pipe_fittings; }
template <>
std::vector<Booked<PipePriceRow>>& Survey::rows() { return pipe_prices; }
template <>
std::vector<Booked<NoteRow>>& Survey::rows() { return notes; }
template <>
std::vector<Booked<PhotoRow>>& Survey::rows() { return photos; }
template <>
std::vector<Booked<AnswerRow>>& Survey::rows() { return answers; }

const StationRow* Survey::station(Id id) const { return with_id(stations, id); }
const FlowTestRow* Survey::test(Id id) const { return with_id(tests, id); }
const MeterRow* Survey::meter(Id id) const { return with_id(meters, id); }
const LevelBookRow* Survey::book(Id id) const { return with_id(books, id); }
const HeightRunRow* Survey::height_run(Id id) const { return with_id(height_runs, id); }

const OccupationRow* Survey::latest_stay(Id station) const {
    const OccupationRow* latest = nullptr;
    for (const Booked<OccupationRow>& one : occupations)
        if (!one.struck && one.row.station_id == station)
            latest = &one.row;
    return latest;
}

const StationRow* Survey::first_of_kind(std::string_view kind) const {
    for (const Booked<StationRow>& station : stations)
        if (!station.struck && station.row.kind == kind)
            return &station.row;
    return nullptr;
}

const AlternativeRow* Survey::alternative() const {
    const AlternativeRow* first = nullptr;
    for (const Booked<AlternativeRow>& one : alternatives) {
        if (one.struck)
            continue;
        if (site.alternative_id == one.row.id)
            return &one.row;
        if (first == nullptr)
            first = &one.row;
    }
    return first;
}

const FlowSeriesRow* Survey::year_series() const {
    const FlowSeriesRow* last = nullptr;
    for (const Booked<FlowSeriesRow>& one : series) {
        if (one.struck)
            continue;
        if (site.series_id == one.row.id)
            return &one.row;
        last = &one.row;
    }
    return last;
}

std::vector<Booked<SightRow>> Survey::page(Id book) const {
    return in_order(sights, [book](const SightRow& sight) { return sight.book_id == book; });
}

std::vector<Booked<HeightReadingRow>> Survey::readings(Id run) const {
    return in_order(height_readings, [run](const HeightReadingRow& reading) { return reading.run_id == run; });
}

std::vector<Booked<FlowReadingRow>> Survey::test_readings(Id test) const {
    return in_order(flow_readings, [test](const FlowReadingRow& reading) { return reading.test_id == test; });
}

std::vector<PipeSectionRow> Survey::sections(Id alternative) const { return of_alternative(pipe_sections, alternative); }
std::vector<PipeFittingRow> Survey::fittings(Id alternative) const { return of_alternative(pipe_fittings, alternative); }

Expected<Survey> load_survey(const Project& project, const Survey* known) {
    Survey survey;
    const Expected<SiteRow> site = project.site();
    if (!site)
        return site.error();
    survey.site = *site;
    const Expected<std::vector<Project::PhotoLink>> links = project.photo_links();
    if (!links)
        return links.error();
    survey.photo_links = *links;
    for (const Expected<void>& done :
         {read(project, survey.stations), read(project, survey.occupations), read(project, survey.books),
          read(project, survey.sights), read(project, survey.height_runs), read(project, survey.height_readings),
          read(project, survey.tests), read(project, survey.meters),
          read(project, survey.fills), read(project, survey.flow_readings), read(project, survey.verticals), read(project, survey.velocities),
          read(project, survey.alternatives), read(project, survey.pipe_sections), read(project, survey.pipe_fittings),
          read(project, survey.pipe_prices), read(project, survey.series), read(project, survey.notes),
          read(project, survey.photos), read(project, survey.answers)})
        if (!done)
            return done.error();
    if (const Expected<void> done = read_series_values(project, survey, known); !done)
        return done.error();
    return survey;
}

} // namespace rillmark
