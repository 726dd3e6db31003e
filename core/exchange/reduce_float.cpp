// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/reduce_words.h"
#include "exchange/row_places.h"
#include "flow/float_gauging.h"
#include "flow/float_section.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"time", Quantity::Time, false, false, "exchange.float.time"},
    {"length", Quantity::Length, false, false, "exchange.float.length"},
    {"across", Quantity::Length, false, false, "exchange.float.across"},
    {"section", {}, false, false, "exchange.float.section"},
    {"distance", Quantity::Length, false, false, "exchange.float.distance"},
    {"depth", Quantity::Length, false, false, "exchange.float.depth"},
};
constexpr ReduceField kParameters[] = {
    {"length", Quantity::Length, false, false, "exchange.float.reach"},
    {"width", Quantity::Length, false, false, "exchange.float.width"},
    {"mean_depth", Quantity::Length, false, false, "exchange.float.mean_depth"},
    {"bed", {}, false, false, "exchange.float.bed", "ordinary"},
    {"wind", {}, false, false, "exchange.float.wind", "none"},
    {"surface", {}, false, false, "exchange.float.surface", "even"},
    {"coefficient", Quantity::Number, false, false, "exchange.float.coefficient"},
    {"coefficient_uncertainty", Quantity::Number, false, false, "exchange.float.coefficient_uncertainty", "0.05"},
    {"area_uncertainty", Quantity::Ratio, false, false, "exchange.float.area_uncertainty", "0.05"},
};
constexpr PlacedField kRunPlaces[] = {{"time_s", "time"}, {"length_m", "length"}, {"distance_across_m", "across"}};
constexpr PlacedField kSoundingPlaces[] = {{"distance_m", "distance"}, {"depth_m", "depth"}};
constexpr ReduceWord<FloatBed> kBeds[] = {
    {"ordinary", FloatBed::Ordinary}, {"rough-shallow", FloatBed::RoughShallow}, {"smooth-deep", FloatBed::SmoothDeep}};
constexpr ReduceWord<FloatWind> kWinds[] = {
    {"none", FloatWind::None}, {"light", FloatWind::Light}, {"strong", FloatWind::Strong}};
constexpr ReduceWord<FloatSurface> kSurfaces[] = {
    {"even", FloatSurface::Even}, {"broken", FloatSurface::Broken}, {"turbulent", FloatSurface::Turbulent}};

struct FloatFile {
    std::vector<FloatRun> runs;
    std::vector<std::size_t> run_rows;
    std::vector<FloatSection> sections;
    std::vector<std::string> names;                     // of the sections
    std::vector<std::vector<std::size_t>> section_rows; // of the soundings of each
};

Expected<FloatOptions> options_of(const ReduceTable& table) {
    const Expected<FloatBed> bed = word_parameter<FloatBed>(table, "bed", kBeds);
    if (!bed)
        return bed.error();
    const Expected<FloatWind> wind = word_parameter<FloatWind>(table, "wind", kWinds);
    if (!wind)
        return wind.error();
    const Expected<FloatSurface> surface = word_parameter<FloatSurface>(table, "surface", kSurfaces);
    if (!surface)
        return surface.error();
    FloatOptions options;
    options.length_m = table.parameter("length");
    options.bed = *bed;
    options.wind = *wind;
    options.surface = *surface;
    options.coefficient = table.parameter("coefficient");
    options.coefficient_u = table.parameter("coefficient_uncertainty");
    options.area_u_rel = *table.parameter("area_uncertainty");
    return options;
}

void add_sounding(const ReduceTable& table, std::size_t row, FloatFile& file) {
    const std::string& name = table.text(row, "section");
    std::size_t at = 0;
    while (at < file.names.size() && file.names[at] != name)
        ++at;
    if (at == file.names.size()) {
        file.names.push_back(name);
        file.sections.emplace_back();
        file.section_rows.emplace_back();
    }
    file.sections[at].soundings.push_back({*table.number(row, "distance"), *table.number(row, "depth")});
    file.section_rows[at].push_back(row);
}

Expected<FloatFile> file_of(const ReduceTable& table) {
    FloatFile file;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const std::optional<double> time_s = table.number(row, "time");
        const bool distance = table.number(row, "distance").has_value();
        const bool depth = table.number(row, "depth").has_value();
        if (time_s ? distance || depth : !distance || !depth)
            return table.at(refusal("exchange.float_row_unclear"), row);
        if (time_s) {
            file.runs.push_back(
                {table.line(row), *time_s, table.number(row, "length"), table.number(row, "across"), false});
            file.run_rows.push_back(row);
        } else {
            add_sounding(table, row, file);
        }
    }
    const std::optional<double> width_m = table.parameter("width");
    const std::optional<double> mean_depth_m = table.parameter("mean_depth");
    if (width_m || mean_depth_m)
        file.sections.push_back({{}, width_m, mean_depth_m});
    // each by itself first, so that a refusal names its row
    for (std::size_t i = 0; i < file.names.size(); ++i)
        if (const Expected<FloatSectionArea> area = float_section_area(file.sections[i], i); !area)
            return RowPlaces{table, file.section_rows[i], kSoundingPlaces}.put(area.error());
    return file;
}

Expected<Reduction> reduce_float(const ReduceTable& table) {
    const Expected<FloatOptions> options = options_of(table);
    if (!options)
        return options.error();
    const Expected<FloatFile> file = file_of(table);
    if (!file)
        return file.error();
    const RowPlaces places{table, file->run_rows, kRunPlaces};
    const Expected<FloatResult> gauging = float_gauging(file->runs, file->sections, *options);
    if (!gauging)
        return places.put(gauging.error());
    Reduction reduction;
    reduction.results = {
        {"exchange.result.discharge", {}, gauging->flow.discharge.estimate, Quantity::Discharge},
        {"exchange.result.surface_velocity", {}, {gauging->surface_velocity_ms, 0.0}, Quantity::Velocity},
        {"exchange.result.float_coefficient", {}, gauging->coefficient, Quantity::Number},
        {"exchange.result.area", {}, {gauging->area_m2, 0.0}, Quantity::Area},
        {"exchange.result.mean_depth", {}, {gauging->mean_depth_m, 0.0}, Quantity::Length}};
    for (const Finding& finding : gauging->flow.findings)
        reduction.findings.push_back(places.put(finding));
    return reduction;
}

} // namespace

const ReduceMethod& float_method() {
    static constexpr ReduceMethod method{"float", "exchange.method.float", kColumns, kParameters, reduce_float};
    return method;
}

} // namespace rillmark
