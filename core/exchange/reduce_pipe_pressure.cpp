// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/row_places.h"
#include "power/pressure_profile.h"
#include "power/tables.h"

#include <algorithm>
#include <array>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"chainage", Quantity::Length, true, false, "exchange.pipe_pressure.chainage"},
    {"elevation", Quantity::Length, true, false, "exchange.pipe_pressure.elevation"},
    {"bend", Quantity::Angle, false, false, "exchange.pipe_pressure.bend"},
    {"pipe", {}, false, false, "exchange.pipe_pressure.pipe"},
    {"bore", Quantity::Bore, false, false, "exchange.pipe_pressure.bore"},
    {"wall", Quantity::Bore, false, false, "exchange.pipe_pressure.wall"},
    {"roughness", Quantity::Bore, false, false, "exchange.pipe_pressure.roughness"},
    {"material", {}, false, false, "exchange.pipe_pressure.material"},
    {"rating", Quantity::Pressure, false, false, "exchange.pipe_pressure.rating"},
};
constexpr ReduceField kParameters[] = {
    {"intake_level", Quantity::Length, false, false, "exchange.pipe_pressure.intake_level"},
    {"flow", Quantity::Discharge, false, false, "exchange.pipe_pressure.flow"},
    {"u_flow", Quantity::Discharge, false, true, "exchange.pipe_pressure.u_flow", "0"},
    {"closing_time", Quantity::Time, false, false, "exchange.pipe_pressure.closing_time", "0"},
    {"anchoring", {}, false, false, "exchange.pipe_pressure.anchoring", "joints"},
    {"entrance_k", Quantity::Number, false, false, "exchange.pipe_pressure.entrance_k", "0.5"},
    {"water_temperature", Quantity::Temperature, false, false, "exchange.pipe_pressure.water_temperature", "10"},
    {"wall_temperature", Quantity::Temperature, false, false, "exchange.pipe_pressure.wall_temperature", "20"},
    {"latitude", Quantity::Coordinate, false, false, "exchange.pipe_pressure.latitude", "45"},
    {"altitude", Quantity::Length, false, false, "exchange.pipe_pressure.altitude", "0"},
    {"soil_bearing", Quantity::Pressure, false, false, "exchange.pipe_pressure.soil_bearing"},
};
constexpr PlacedField kPlaces[] = {
    {"power.chainage", "chainage"},   {"power.pipe_level", "elevation"}, {"power.bend_angle", "bend"},
    {"power.bore", "bore"},           {"power.pipe_wall", "wall"},       {"power.pressure_rating", "rating"},
    {"power.roughness", "roughness"},
};

struct Anchoring {
    std::string_view name;
    PipeAnchoring value;
};
constexpr Anchoring kAnchorings[] = {{"joints", PipeAnchoring::ExpansionJoints},
                                     {"one-end", PipeAnchoring::OneEnd},
                                     {"throughout", PipeAnchoring::Throughout}};

constexpr std::array<std::string_view, 6> kSectionColumns{"pipe", "bore", "wall", "roughness", "material", "rating"};

bool begins_section(const ReduceTable& table, std::size_t row) {
    return std::ranges::any_of(kSectionColumns, [&](std::string_view column) { return table.has(row, column); });
}

/// The pipe from a row on: what the row says, and of the rest what held above it.
Expected<PipeSection> section_from(const ReduceTable& table, std::size_t row, PipeSection section,
                                   const PowerTables& sizes) {
    section.from_m = *table.number(row, "chainage");
    std::string material = table.text(row, "material");
    if (table.has(row, "pipe")) {
        const Expected<PipeSize> size = sizes.pipe(table.text(row, "pipe"));
        if (!size)
            return table.at(size.error(), row, "pipe");
        section.bore_m = size->bore_m;
        section.wall_m = size->wall_m;
        section.roughness_m = size->roughness_m;
        section.rating_Pa = size->pressure_rating_Pa;
        if (material.empty())
            material = size->material;
    }
    if (!material.empty()) {
        const Expected<PipeMaterial> known = pipe_material(material);
        if (!known)
            return table.at(known.error(), row, "material");
        section.material = *known;
    }
    section.bore_m = table.number(row, "bore").value_or(section.bore_m);
    section.wall_m = table.number(row, "wall").value_or(section.wall_m);
    section.roughness_m = table.number(row, "roughness").value_or(section.roughness_m);
    if (const std::optional<double> rating_Pa = table.number(row, "rating"))
        section.rating_Pa = rating_Pa;
    return section;
}

/// The first row must say all of the pipe that a computation needs.
Expected<void> check_first_row(const ReduceTable& table) {
    if (table.has(0, "pipe"))
        return {};
    for (const char* column : {"bore", "wall", "roughness", "material"})
        if (!table.has(0, column))
            return table.at(refusal("exchange.pipe_incomplete", {}, {{"column", std::string(column)}}), 0, column);
    return {};
}

struct Read {
    PressureInput input;
    std::vector<std::size_t> section_rows;
};

Expected<void> read_rows(const ReduceTable& table, Read& read) {
    if (const Expected<void> check = check_first_row(table); !check)
        return check.error();
    const Expected<PowerTables> sizes = read_power_tables();
    if (!sizes)
        return sizes.error();
    for (std::size_t row = 0; row < table.size(); ++row) {
        read.input.points.push_back(
            {*table.number(row, "chainage"), *table.number(row, "elevation"), table.number(row, "bend").value_or(0.0)});
        // nothing follows the last row that its pipe could be for
        if (row + 1 == table.size() || !begins_section(table, row))
            continue;
        const PipeSection above = read.input.sections.empty() ? PipeSection{} : read.input.sections.back();
        const Expected<PipeSection> section = section_from(table, row, above, *sizes);
        if (!section)
            return section.error();
        read.input.sections.push_back(*section);
        read.section_rows.push_back(row);
    }
    return {};
}

Expected<void> read_parameters(const ReduceTable& table, PressureInput& input) {
    for (const char* name : {"intake_level", "flow"})
        if (!table.parameter(name))
            return refusal("exchange.parameter_missing", {}, {{"parameter", std::string(name)}});
    const auto hit = std::ranges::find(kAnchorings, table.text_parameter("anchoring"), &Anchoring::name);
    if (hit == std::end(kAnchorings))
        return refusal("exchange.anchoring_unknown", {}, {{"cell", table.text_parameter("anchoring")}});
    input.anchoring = hit->value;
    input.intake_level_m = *table.parameter("intake_level");
    input.flow_m3s = {*table.parameter("flow"), *table.parameter("u_flow")};
    input.closing_s = *table.parameter("closing_time");
    input.entrance_k = *table.parameter("entrance_k");
    input.water_temperature_C = *table.parameter("water_temperature");
    input.wall_temperature_C = *table.parameter("wall_temperature");
    input.latitude_deg = *table.parameter("latitude");
    input.altitude_m = *table.parameter("altitude");
    input.soil_bearing_Pa = table.parameter("soil_bearing");
    return {};
}

ResultTable::Cell exact(const std::optional<double>& value) {
    if (!value)
        return std::monostate{};
    return Estimate{*value, 0.0};
}

ResultTable table_of_points(const PressureProfile& profile) {
    ResultTable points{"exchange.table.pipe_points",
                       {{"exchange.result.chainage", Quantity::Length},
                        {"exchange.result.pipe_elevation", Quantity::Length},
                        {"exchange.result.hydraulic_grade", Quantity::Length},
                        {"exchange.result.static_pressure", Quantity::Pressure},
                        {"exchange.result.flowing_pressure", Quantity::Pressure},
                        {"exchange.result.highest_pressure", Quantity::Pressure},
                        {"exchange.result.lowest_pressure", Quantity::Pressure},
                        {"exchange.result.draining_pressure", Quantity::Pressure}},
                       {}};
    for (const PressurePoint& point : profile.points)
        points.rows.push_back({exact(point.point.chainage_m), exact(point.point.level_m),
                               exact(point.hydraulic_grade_m), exact(point.static_Pa), exact(point.flowing_Pa),
                               exact(point.highest_Pa), exact(point.lowest_Pa), exact(point.draining_Pa)});
    return points;
}

ResultTable table_of_sections(const PressureProfile& profile) {
    ResultTable sections{"exchange.table.pipe_sections",
                         {{"exchange.result.from_chainage", Quantity::Length},
                          {"exchange.result.to_chainage", Quantity::Length},
                          {"exchange.result.speed", Quantity::Velocity},
                          {"exchange.result.wave_speed", Quantity::Velocity},
                          {"exchange.result.highest_pressure", Quantity::Pressure},
                          {"exchange.result.class_holds", Quantity::Pressure},
                          {"exchange.result.heavier_from", Quantity::Length},
                          {"exchange.result.short_vacuum", Quantity::Pressure}},
                         {}};
    for (const SectionPressure& section : profile.sections)
        sections.rows.push_back({exact(section.from_m), exact(section.to_m), exact(section.speed_ms),
                                 exact(section.wave_speed_ms), exact(section.highest_Pa), exact(section.holds_Pa),
                                 exact(section.passed_from_m), exact(section.short_vacuum_Pa)});
    return sections;
}

ResultTable table_of_bends(const PressureProfile& profile) {
    ResultTable bends{"exchange.table.pipe_bends",
                      {{"exchange.result.chainage", Quantity::Length},
                       {"exchange.result.bend", Quantity::Angle},
                       {"exchange.result.thrust_newton", Quantity::Number},
                       {"exchange.result.block_area", Quantity::Area}},
                      {}};
    for (const PipeBend& bend : profile.bends)
        bends.rows.push_back({exact(profile.points[bend.point].point.chainage_m), exact(bend.angle_rad),
                              exact(bend.thrust_N), exact(bend.block_area_m2)});
    return bends;
}

Expected<Reduction> reduce_pipe_pressure(const ReduceTable& table) {
    Read read;
    if (const Expected<void> done = read_parameters(table, read.input); !done)
        return done.error();
    if (const Expected<void> done = read_rows(table, read); !done)
        return done.error();
    const Expected<PressureProfile> profile = pressure_profile(read.input);
    if (!profile) {
        std::vector<std::size_t> rows(table.size());
        for (std::size_t row = 0; row < rows.size(); ++row)
            rows[row] = row;
        // a section that is refused came from the row where it begins
        Finding finding = profile.error();
        const auto section = std::ranges::find(finding.args, "section", &Arg::name);
        if (section == finding.args.end())
            return RowPlaces{table, rows, kPlaces}.put(finding);
        section->name = "row";
        return RowPlaces{table, read.section_rows, kPlaces}.put(finding);
    }
    Reduction reduction;
    const auto add = [&](const char* code, const Estimate& value, Quantity quantity) {
        reduction.results.push_back({code, {}, value, quantity});
    };
    add("exchange.result.surge", profile->surge_Pa.estimate, Quantity::Pressure);
    add("exchange.result.sudden_stop", {profile->sudden_stop_Pa, 0.0}, Quantity::Pressure);
    add("exchange.result.reflection_time", {profile->reflection_s, 0.0}, Quantity::Time);
    if (profile->closing_needed_s)
        add("exchange.result.closing_needed", {*profile->closing_needed_s, 0.0}, Quantity::Time);
    add("exchange.result.valve_pressure", {profile->points.back().highest_Pa, 0.0}, Quantity::Pressure);
    add("exchange.result.end_thrust_newton", {profile->end_thrust_N, 0.0}, Quantity::Number);
    reduction.tables = {table_of_points(*profile), table_of_sections(*profile)};
    if (!profile->bends.empty())
        reduction.tables.push_back(table_of_bends(*profile));
    reduction.findings = profile->findings;
    return reduction;
}

} // namespace

const ReduceMethod& pipe_pressure_method() {
    static constexpr ReduceMethod method{"pipe-pressure", "exchange.method.pipe_pressure", kColumns, kParameters,
                                         reduce_pipe_pressure};
    return method;
}

} // namespace rillmark
