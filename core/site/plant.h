// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/pressure_profile.h"
#include "power/water_to_wire.h"
#include "site/flow_tests.h"
#include "site/heights.h"
#include "site/site_line.h"
#include "site/survey.h"

#include <optional>
#include <vector>

namespace rillmark {

// Laid pipe and cable differ from the walked line by some per cent of the length. Common practice, no source.
inline constexpr double kLengthUncertainty_rel = 0.02;
// Entrance, one valve and the bends of a route that follows the ground; while no fitting is listed. Common practice, no
// source.
inline constexpr double kDefaultMinorK = 2.0;
inline constexpr double kMinorKUncertainty_rel = 0.25;

/// The pipe of an alternative, section by section.
struct PlantPipe {
    std::vector<ChainPipe> pipes;      // empty where none is chosen or one cannot be used
    std::vector<PipeSection> sections; // the same with wall and material, for the pressures; empty where one lacks them
    int parallel = 1;
    std::optional<Estimate> length_m; // of all sections; of the route while no pipe is chosen
    Findings findings;
};

/// Puts the pipe together out of the record.
///
/// Lengths: those entered; a section without one takes what the others leave of the length entered for the whole pipe,
/// or else of the true slope length through the stations (several such share it evenly). Standard uncertainty 2 % of
/// the length, or that of the positions of the ends where that is more. Coefficients: the sum entered, else that of the
/// listed fittings in their sections, else kDefaultMinorK. An alternative without sections has the one pipe of its row.
/// Findings: `site.pipe_length_unknown`, `site.section_no_length` (nothing is left for it), `site.sections_off_route`
/// (the sections are more than 5 % longer or shorter than the route), `site.section_incomplete` (no bore), and those of
/// the tables (`power.unknown_pipe`, `power.unknown_fitting`, `power.unknown_material`); argument `section`.
[[nodiscard]] PlantPipe plant_pipe(const Survey& survey, const SiteHeights& heights, const PowerTables& tables,
                                   const AlternativeRow& alternative);
// Part by which sections may miss the route before it is said; our choice.
inline constexpr double kSectionsOffRoute = 0.05;

/// What the pressures along the pipe are computed from: the stations of its line that have a height, stretched to the
/// length of the sections. The level of the intake station is the water's. Refuses a line without two heights
/// (`site.no_pipe_profile`), no pipe (`power.missing_pipe`) and no flow (`power.missing_flow`).
[[nodiscard]] Expected<PressureInput> plant_pressure_input(const Survey& survey, const SiteHeights& heights,
                                                           const PlantPipe& pipe, const ChainInput& chain,
                                                           const AlternativeRow& alternative);

/// Stations at which the pipe's line stops falling, for the plan.
struct GradeStation {
    Id station = 0;
    SpotKind kind = SpotKind::High;
};
/// High and low spots of the line on the ground; none while its heights are not known.
[[nodiscard]] std::vector<GradeStation> grade_stations(const Survey& survey, const SiteHeights& heights,
                                                       const AlternativeRow& alternative);

/// A new alternative like another, with its sections and fittings, in one booking. Refuses as Project::book does.
[[nodiscard]] Expected<Id> copy_alternative(Project& project, const Survey& survey, Id alternative,
                                            const std::string& name);

} // namespace rillmark
