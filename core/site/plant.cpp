// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/plant.h"

#include "power/minor_losses.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rillmark {

namespace {

constexpr double kWallTemperature_C = 20.0; // where nothing is entered: a buried pipe; common practice, no source

/// A section of the record, or the one pipe of an alternative without sections.
struct Piece {
    std::string name;
    std::string pipe_id;
    const PipeSectionRow* row = nullptr;
    std::optional<double> length_m;
};

std::vector<Piece> pieces_of(const std::vector<PipeSectionRow>& rows, const AlternativeRow& alternative) {
    std::vector<Piece> pieces;
    for (const PipeSectionRow& row : rows)
        pieces.push_back({row.name, row.pipe_id, &row, row.length_m});
    if (pieces.empty() && !alternative.pipe_id.empty())
        pieces.push_back({{}, alternative.pipe_id, nullptr, {}});
    return pieces;
}

Finding of_section(Finding finding, const Piece& piece) {
    finding.args.push_back({"section", piece.name});
    return finding;
}

/// Gives what is left of the route to the pieces without a length.
void share_out(std::vector<Piece>& pieces, const std::optional<Estimate>& route, PlantPipe& plant) {
    double entered_m = 0.0;
    std::ptrdiff_t open = 0;
    for (const Piece& piece : pieces) {
        entered_m += piece.length_m.value_or(0.0);
        open += piece.length_m ? 0 : 1;
    }
    if (open == 0) {
        plant.length_m = Estimate{entered_m, kLengthUncertainty_rel * entered_m};
        if (route && std::abs(entered_m - route->value) > kSectionsOffRoute * route->value)
            plant.findings.push_back(
                warning("site.sections_off_route", {},
                        {{"sections", entered_m, Quantity::Length}, {"route", route->value, Quantity::Length}}));
        return;
    }
    if (!route) {
        plant.findings.push_back(warning("site.pipe_length_unknown"));
        return;
    }
    plant.length_m = route;
    for (Piece& piece : pieces)
        if (!piece.length_m) {
            piece.length_m = std::max(route->value - entered_m, 0.0) / static_cast<double>(open);
            if (*piece.length_m <= 0.0)
                plant.findings.push_back(of_section(
                    refusal("site.section_no_length", {},
                            {{"sections", entered_m, Quantity::Length}, {"route", route->value, Quantity::Length}}),
                    piece));
        }
}

/// The size of a piece: of the table, or as described in the record.
Expected<PipeSize> size_of(const Piece& piece, const PowerTables& tables) {
    if (piece.row == nullptr || !piece.pipe_id.empty())
        return tables.pipe(piece.pipe_id);
    const PipeSectionRow& row = *piece.row;
    if (!row.bore_m)
        return refusal("site.section_incomplete");
    PipeSize size;
    size.label = row.name;
    size.material = row.material;
    size.bore_m = *row.bore_m;
    size.wall_m = row.wall_m.value_or(0.0);
    size.outside_m = size.bore_m + 2.0 * size.wall_m;
    size.roughness_m = row.roughness_m.value_or(0.0);
    size.pressure_rating_Pa = row.rating_Pa.value_or(0.0);
    return size;
}

/// Coefficients of the fittings that stand in each piece.
Expected<std::vector<double>> listed_k(const std::vector<PipeFittingRow>& fittings, const std::vector<Piece>& pieces,
                                       const PowerTables& tables) {
    std::vector<double> k(pieces.size(), 0.0);
    for (const PipeFittingRow& fitting : fittings) {
        double one = fitting.k.value_or(0.0);
        if (!fitting.k) {
            const Expected<Fitting> known = tables.fitting(fitting.fitting_id);
            if (!known)
                return known.error();
            one = known->k;
        }
        std::size_t place = 0;
        for (std::size_t i = 0; i < pieces.size(); ++i)
            if (pieces[i].row != nullptr && fitting.section_id == pieces[i].row->id)
                place = i;
        k[place] += one * static_cast<double>(fitting.count);
    }
    return k;
}

ChainPipe chain_piece(const PipeSize& size, const Piece& piece, const Estimate& length_m, const Estimate& k) {
    ChainPipe pipe = chain_pipe(size, {length_m, k});
    if (piece.row != nullptr && piece.pipe_id.empty()) {
        // of its own wall: the bore as entered, without a table's spread of walls
        pipe.bore_m = {size.bore_m, 0.0};
        if (size.pressure_rating_Pa <= 0.0)
            pipe.pressure_rating_Pa.reset();
    }
    if (pipe.label.empty())
        pipe.label = piece.name;
    return pipe;
}

double bearing_rad(const StationRow& from, const StationRow& to) {
    constexpr double kDegree = std::numbers::pi / 180.0;
    const double east = (*to.longitude_deg - *from.longitude_deg) * std::cos(*from.latitude_deg * kDegree);
    return std::atan2(east, *to.latitude_deg - *from.latitude_deg);
}

/// The points of the ground along the line that have a height, with the turns seen from above.
struct GroundLine {
    std::vector<PipePoint> points;
    std::vector<Id> stations;
};

GroundLine ground_line(const Survey& survey, const SiteHeights& heights, const AlternativeRow& alternative) {
    const SiteLine line = pipe_line(survey, heights, alternative);
    GroundLine ground;
    for (std::size_t i = 0; i < line.stations.size(); ++i) {
        const auto height = heights.height.find(line.stations[i]);
        if (height == heights.height.end())
            continue;
        if (!ground.points.empty() && line.slope_chainage_m[i] <= ground.points.back().chainage_m)
            continue; // two stations in one place
        PipePoint point{line.slope_chainage_m[i], height->second.value, 0.0};
        if (i > 0 && i + 1 < line.stations.size()) {
            const double turn = bearing_rad(*survey.station(line.stations[i]), *survey.station(line.stations[i + 1])) -
                                bearing_rad(*survey.station(line.stations[i - 1]), *survey.station(line.stations[i]));
            point.bend_rad = std::abs(std::remainder(turn, 2.0 * std::numbers::pi));
        }
        ground.points.push_back(point);
        ground.stations.push_back(line.stations[i]);
    }
    return ground;
}

PipeAnchoring anchoring_of(const std::string& stored) {
    if (stored == "one-end")
        return PipeAnchoring::OneEnd;
    return stored == "throughout" ? PipeAnchoring::Throughout : PipeAnchoring::ExpansionJoints;
}

} // namespace

PlantPipe plant_pipe(const Survey& survey, const SiteHeights& heights, const PowerTables& tables,
                     const AlternativeRow& alternative) {
    PlantPipe plant;
    plant.parallel = static_cast<int>(alternative.parallel_pipes.value_or(1));
    std::optional<Estimate> route;
    if (alternative.pipe_length_m)
        route = Estimate{*alternative.pipe_length_m, kLengthUncertainty_rel * *alternative.pipe_length_m};
    else if (const SiteLine line = pipe_line(survey, heights, alternative); line.known())
        route = line_length(survey, line, kLengthUncertainty_rel);
    plant.length_m = route;
    const std::vector<PipeSectionRow> rows = survey.sections(alternative.id);
    std::vector<Piece> pieces = pieces_of(rows, alternative);
    if (pieces.empty())
        return plant;
    std::vector<PipeSize> sizes;
    for (const Piece& piece : pieces) {
        const Expected<PipeSize> size = size_of(piece, tables);
        if (!size)
            plant.findings.push_back(of_section(size.error(), piece));
        sizes.push_back(size.value_or(PipeSize{}));
    }
    share_out(pieces, route, plant);

    const std::vector<PipeFittingRow> fittings = survey.fittings(alternative.id);
    const Expected<std::vector<double>> listed = listed_k(fittings, pieces, tables);
    if (!listed)
        plant.findings.push_back(listed.error());
    if (!plant.length_m || !listed ||
        std::ranges::any_of(plant.findings, [](const Finding& f) { return f.severity == Severity::Refusal; }))
        return plant;
    const bool one_sum = alternative.minor_k.has_value() || fittings.empty();
    const double relative_u = plant.length_m->value > 0.0 ? plant.length_m->standard_uncertainty / plant.length_m->value
                                                          : kLengthUncertainty_rel;
    double from_m = 0.0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const double length_m = *pieces[i].length_m;
        const double k = one_sum ? (i == 0 ? alternative.minor_k.value_or(kDefaultMinorK) : 0.0) : (*listed)[i];
        const double k_u = one_sum ? kMinorKUncertainty_rel : kMinorLossUncertainty;
        plant.pipes.push_back(chain_piece(sizes[i], pieces[i], {length_m, relative_u * length_m}, {k, k_u * k}));
        const Expected<PipeMaterial> material = pipe_material(sizes[i].material);
        if (material && sizes[i].wall_m > 0.0 && plant.sections.size() == i)
            plant.sections.push_back({from_m, sizes[i].bore_m, sizes[i].wall_m, sizes[i].roughness_m, *material,
                                      plant.pipes.back().pressure_rating_Pa});
        from_m += length_m;
    }
    if (plant.sections.size() != plant.pipes.size())
        plant.sections.clear();
    return plant;
}

Expected<PressureInput> plant_pressure_input(const Survey& survey, const SiteHeights& heights, const PlantPipe& pipe,
                                             const ChainInput& chain, const AlternativeRow& alternative) {
    if (pipe.pipes.empty())
        return refusal("power.missing_pipe");
    if (pipe.sections.empty())
        return refusal("site.section_incomplete", {}, {{"section", pipe.pipes.front().label}});
    if (!chain.flow_m3s)
        return refusal("power.missing_flow");
    GroundLine ground = ground_line(survey, heights, alternative);
    if (ground.points.size() < 2)
        return refusal("site.no_pipe_profile");
    const double begins_m = ground.points.front().chainage_m;
    const double walked_m = ground.points.back().chainage_m - begins_m;
    for (PipePoint& point : ground.points)
        point.chainage_m = (point.chainage_m - begins_m) * pipe.length_m->value / walked_m;
    PressureInput input;
    input.points = ground.points;
    input.sections = pipe.sections;
    input.intake_level_m = ground.points.front().level_m;
    input.flow_m3s = {chain.flow_m3s->value / pipe.parallel, chain.flow_m3s->standard_uncertainty / pipe.parallel};
    input.closing_s = alternative.closing_s.value_or(0.0);
    input.anchoring = anchoring_of(alternative.pipe_anchoring);
    input.water_temperature_C = chain.water_temperature_C.value;
    input.wall_temperature_C = alternative.wall_temperature_C.value_or(kWallTemperature_C);
    input.latitude_deg = chain.latitude_deg;
    input.altitude_m = chain.altitude_m;
    input.soil_bearing_Pa = alternative.soil_bearing_Pa;
    return input;
}

std::vector<GradeStation> grade_stations(const Survey& survey, const SiteHeights& heights,
                                         const AlternativeRow& alternative) {
    const GroundLine ground = ground_line(survey, heights, alternative);
    std::vector<GradeStation> list;
    if (const Expected<PipeGrade> grade = pipe_grade(ground.points))
        for (const GradeSpot& spot : grade->spots)
            list.push_back({ground.stations[spot.point], spot.kind});
    return list;
}

Expected<Id> copy_alternative(Project& project, const Survey& survey, Id alternative, const std::string& name) {
    const auto from = std::ranges::find_if(
        survey.alternatives, [alternative](const Booked<AlternativeRow>& one) { return one.row.id == alternative; });
    AlternativeRow copy = from == survey.alternatives.end() ? AlternativeRow{} : from->row;
    copy.id = 0;
    copy.created_at.clear();
    copy.name = name;
    Id made = 0;
    const Expected<void> done = project.together([&](Project::Batch& batch) -> Expected<void> {
        const Expected<Id> booked = batch.book(copy);
        if (!booked)
            return booked.error();
        made = *booked;
        std::map<Id, Id> section_of; // of the copy, by the key of the original
        for (PipeSectionRow section : survey.sections(alternative)) {
            const Id old = section.id;
            section.id = 0;
            section.created_at.clear();
            section.alternative_id = made;
            const Expected<Id> id = batch.book(section);
            if (!id)
                return id.error();
            section_of[old] = *id;
        }
        for (PipeFittingRow fitting : survey.fittings(alternative)) {
            fitting.id = 0;
            fitting.created_at.clear();
            fitting.alternative_id = made;
            if (fitting.section_id) {
                const auto hit = section_of.find(*fitting.section_id);
                fitting.section_id = hit == section_of.end() ? std::nullopt : std::optional(hit->second);
            }
            if (const Expected<Id> id = batch.book(fitting); !id)
                return id.error();
        }
        return {};
    });
    return done ? Expected<Id>(made) : Expected<Id>(done.error());
}

} // namespace rillmark
