// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/project.h"
#include "site/series_values.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace rillmark {

/// Everything of one project file but the track and the pictures, in memory: what the figures are computed from.
struct Survey {
    SiteRow site;
    std::vector<Booked<StationRow>> stations;
    std::vector<Booked<OccupationRow>> occupations;
    std::vector<Booked<LevelBookRow>> books;
    std::vector<Booked<SightRow>> sights;
    std::vector<Booked<HeightRunRow>> height_runs;
    std::vector<Booked<HeightReadingRow>> height_readings;
    std::vector<Booked<FlowTestRow>> tests;
    std::vector<Booked<MeterRow>> meters;
    std::vector<Booked<FillRow>> fills;
    std::vector<Booked<FlowReadingRow>> flow_readings;
    std::vector<Booked<VerticalRow>> verticals;
    std::vector<Booked<VelocityRow>> velocities;
    std::vector<Booked<AlternativeRow>> alternatives;
    std::vector<Booked<FlowSeriesRow>> series;
    /// The readings of each series. They never change, so a survey that is read again takes them over.
    std::map<Id, std::shared_ptr<const SeriesValues>> series_values;
    std::vector<Booked<PipeSectionRow>> pipe_sections;
    std::vector<Booked<PipeFittingRow>> pipe_fittings;
    std::vector<Booked<PipePriceRow>> pipe_prices;
    std::vector<Booked<NoteRow>> notes;
    std::vector<Booked<PhotoRow>> photos;
    std::vector<Booked<AnswerRow>> answers;
    std::vector<Project::PhotoLink> photo_links;

    /// The table of a record; nothing for a record that a survey does not hold (fixes).
    template <class Record>
    std::vector<Booked<Record>>& rows();

    /// The row with that id, struck or not, or nullptr.
    [[nodiscard]] const StationRow* station(Id id) const;
    [[nodiscard]] const FlowTestRow* test(Id id) const;
    [[nodiscard]] const MeterRow* meter(Id id) const;
    [[nodiscard]] const LevelBookRow* book(Id id) const;
    [[nodiscard]] const HeightRunRow* height_run(Id id) const;
    /// The last stay at a station that is not struck out, or nullptr.
    [[nodiscard]] const OccupationRow* latest_stay(Id station) const;
    /// The first station of a kind that is not struck out, or nullptr.
    [[nodiscard]] const StationRow* first_of_kind(std::string_view kind) const;
    /// The alternative that the strip shows: the chosen one, else the first that is not struck out, or nullptr.
    [[nodiscard]] const AlternativeRow* alternative() const;
    /// The series that the year's flow is taken from: the chosen one, else the last read in that is not struck out.
    [[nodiscard]] const FlowSeriesRow* year_series() const;
    /// The sections of an alternative's pipe from the intake down, and its fittings; without struck ones.
    [[nodiscard]] std::vector<PipeSectionRow> sections(Id alternative) const;
    [[nodiscard]] std::vector<PipeFittingRow> fittings(Id alternative) const;
    /// The sights of a book in the order of the page.
    [[nodiscard]] std::vector<Booked<SightRow>> page(Id book) const;
    /// The readings of a flow test in their order.
    [[nodiscard]] std::vector<Booked<FlowReadingRow>> test_readings(Id test) const;
    /// The readings of a run in their order.
    [[nodiscard]] std::vector<Booked<HeightReadingRow>> readings(Id run) const;
};

/// Reads all of it, but for the readings of series that `known` holds already: those are long. Refuses what Project::all
/// refuses.
[[nodiscard]] Expected<Survey> load_survey(const Project& project, const Survey* known = nullptr);

} // namespace rillmark
