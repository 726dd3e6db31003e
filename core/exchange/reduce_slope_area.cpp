// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "flow/roughness_table.h"
#include "flow/slope_area.h"

#include <algorithm>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"distance", Quantity::Length, true, false, "exchange.slope_area.distance"},
    {"offset", Quantity::Length, false, false, "exchange.slope_area.offset"},
    {"height", Quantity::Length, true, false, "exchange.slope_area.height"},
};
constexpr ReduceField kParameters[] = {
    {"channel", {}, false, false, "exchange.slope_area.channel"},
    {"n", Quantity::Number, false, false, "exchange.slope_area.n"},
    {"n_uncertainty", Quantity::Number, false, true, "exchange.slope_area.n_uncertainty"},
    {"mark_uncertainty", Quantity::Length, false, true, "exchange.slope_area.mark_uncertainty", "0.03"},
};
// Common practice, no source: relative standard uncertainty of an n chosen by eye.
constexpr double kChosenN_u_rel = 0.15;

struct Surveyed {
    std::vector<SurveyedSection> sections;
    std::vector<std::size_t> section_row; // of the file, on which each begins
    std::vector<HighWaterMark> marks;
    std::vector<std::size_t> mark_row;
};

Surveyed surveyed(const ReduceTable& table) {
    Surveyed reach;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const double distance_m = *table.number(row, "distance");
        const double height_m = *table.number(row, "height");
        const std::optional<double> offset_m = table.number(row, "offset");
        if (!offset_m) {
            reach.marks.push_back({table.line(row), distance_m, height_m, false});
            reach.mark_row.push_back(row);
            continue;
        }
        auto section = std::ranges::find(reach.sections, distance_m, &SurveyedSection::distance_m);
        if (section == reach.sections.end()) {
            section = reach.sections.insert(reach.sections.end(), {table.line(row), distance_m, {}});
            reach.section_row.push_back(row);
        }
        section->points.push_back({*offset_m, height_m});
    }
    return reach;
}

Expected<Estimate> roughness_of(const ReduceTable& table) {
    if (const std::optional<double> n = table.parameter("n"))
        return Estimate{*n, table.parameter("n_uncertainty").value_or(kChosenN_u_rel * *n)};
    const std::string& channel = table.text_parameter("channel");
    if (channel.empty())
        return refusal("exchange.roughness_missing");
    const Expected<ChannelRoughness> roughness = channel_roughness(channel);
    if (!roughness)
        return roughness.error();
    return roughness->estimate();
}

/// A finding that counts its row among the sections or marks, at the row of the file.
Finding placed(const ReduceTable& table, const Surveyed& reach, Finding finding) {
    const std::vector<std::size_t>& rows = finding.code == "flow.section_bad" ? reach.section_row : reach.mark_row;
    for (Arg& arg : finding.args) {
        const auto* const item = std::get_if<std::int64_t>(&arg.value);
        if (arg.name != "row" || item == nullptr || *item < 1 || static_cast<std::size_t>(*item) > rows.size())
            continue;
        const std::size_t row = rows[static_cast<std::size_t>(*item) - 1];
        arg.value = table.line(row);
        return table.at(std::move(finding), row, finding.code == "flow.section_bad" ? "offset" : "height");
    }
    return finding;
}

ResultTable section_table(const std::vector<SlopeAreaSection>& sections) {
    ResultTable table{"exchange.table.sections",
                      {{"exchange.result.distance", Quantity::Length},
                       {"exchange.result.water_level", Quantity::Length},
                       {"exchange.result.area", Quantity::Area},
                       {"exchange.result.width", Quantity::Length},
                       {"exchange.result.hydraulic_radius", Quantity::Length},
                       {"exchange.result.velocity", Quantity::Velocity},
                       {"exchange.result.froude", Quantity::Number}},
                      {}};
    for (const SlopeAreaSection& one : sections) {
        std::vector<ResultTable::Cell> row;
        for (const double value : {one.distance_m, one.level_m, one.wetted.area_m2, one.wetted.width_m,
                                   one.wetted.hydraulic_radius_m(), one.velocity_ms, one.froude})
            row.emplace_back(Estimate{value, 0.0});
        table.rows.push_back(std::move(row));
    }
    return table;
}

Expected<Reduction> reduce_slope_area(const ReduceTable& table) {
    const Expected<Estimate> n = roughness_of(table);
    if (!n)
        return n.error();
    const Surveyed reach = surveyed(table);
    SlopeAreaOptions options;
    options.mark_u_m = *table.parameter("mark_uncertainty");
    const Expected<SlopeAreaResult> result = slope_area(reach.sections, reach.marks, *n, options);
    if (!result)
        return placed(table, reach, result.error());
    Reduction reduction;
    reduction.results = {{"exchange.result.discharge", {}, result->flow.discharge.estimate, Quantity::Discharge},
                         {"exchange.result.water_slope", {}, {result->slope, 0.0}, Quantity::Slope},
                         {"exchange.result.roughness", {}, *n, Quantity::Number}};
    reduction.tables.push_back(section_table(result->sections));
    reduction.findings = result->flow.findings;
    return reduction;
}

} // namespace

const ReduceMethod& slope_area_method() {
    static constexpr ReduceMethod method{"slope-area", "exchange.method.slope_area", kColumns, kParameters,
                                         reduce_slope_area};
    return method;
}

} // namespace rillmark
