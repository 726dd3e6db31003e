// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/level_parameters.h"
#include "exchange/reduce_methods.h"
#include "exchange/row_places.h"
#include "flow/velocity_area.h"

#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <string>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"distance", Quantity::Length, true, false, "exchange.velocity_area.distance"},
    {"depth", Quantity::Length, false, false, "exchange.velocity_area.depth"},
    {"fraction", Quantity::Number, false, false, "exchange.velocity_area.fraction"},
    {"velocity", Quantity::Velocity, false, false, "exchange.velocity_area.velocity"},
    {"revolutions", Quantity::Number, false, false, "exchange.velocity_area.revolutions"},
    {"time", Quantity::Time, false, false, "exchange.velocity_area.time"},
    {"angle", Quantity::Angle, false, false, "exchange.velocity_area.angle"},
    {"edge", {}, false, false, "exchange.velocity_area.edge"},
    {"meter", {}, false, false, "exchange.velocity_area.meter"},
    {"rating_a", Quantity::Length, false, false, "exchange.velocity_area.rating_a"},
    {"rating_b", Quantity::Velocity, false, false, "exchange.velocity_area.rating_b"},
    {"rating_limit", Quantity::Number, false, false, "exchange.velocity_area.rating_limit"},
    {"rating_a2", Quantity::Length, false, false, "exchange.velocity_area.rating_a2"},
    {"rating_b2", Quantity::Velocity, false, false, "exchange.velocity_area.rating_b2"},
    {"rating_limit2", Quantity::Number, false, false, "exchange.velocity_area.rating_limit2"},
    {"rating_a3", Quantity::Length, false, false, "exchange.velocity_area.rating_a3"},
    {"rating_b3", Quantity::Velocity, false, false, "exchange.velocity_area.rating_b3"},
    {"rated_from", Quantity::Velocity, false, false, "exchange.velocity_area.rated_from"},
    {"rated_to", Quantity::Velocity, false, false, "exchange.velocity_area.rated_to"},
    {"own_rating", {}, false, false, "exchange.velocity_area.own_rating"},
};
constexpr ReduceField kParameters[] = {
    {"rating_a", Quantity::Length, false, false, "exchange.velocity_area.rating_a"},
    {"rating_b", Quantity::Velocity, false, false, "exchange.velocity_area.rating_b"},
    {"rating_limit", Quantity::Number, false, false, "exchange.velocity_area.rating_limit"},
    {"rating_a2", Quantity::Length, false, false, "exchange.velocity_area.rating_a2"},
    {"rating_b2", Quantity::Velocity, false, false, "exchange.velocity_area.rating_b2"},
    {"rating_limit2", Quantity::Number, false, false, "exchange.velocity_area.rating_limit2"},
    {"rating_a3", Quantity::Length, false, false, "exchange.velocity_area.rating_a3"},
    {"rating_b3", Quantity::Velocity, false, false, "exchange.velocity_area.rating_b3"},
    {"rated_from", Quantity::Velocity, false, false, "exchange.velocity_area.rated_from"},
    {"rated_to", Quantity::Velocity, false, false, "exchange.velocity_area.rated_to"},
    {"own_rating", {}, false, false, "exchange.velocity_area.own_rating", "no"},
    {"surface_share", Quantity::Ratio, false, false, "exchange.velocity_area.surface_share", "0.87"},
    {"wall_share", Quantity::Ratio, false, false, "exchange.velocity_area.wall_share", "0.65"},
    {"depth_uncertainty", Quantity::Length, false, false, "exchange.velocity_area.depth_uncertainty", "0.02"},
};
constexpr PlacedField kPlaces[] = {
    {"distance_m", "distance"},  {"depth_m", "depth"},           {"angle_rad", "angle"}, {"edge", "edge"},
    {"velocity_ms", "velocity"}, {"revolutions", "revolutions"}, {"time_s", "time"},     {"depth_fraction", "fraction"},
};
// Depth of a reading that says nothing else: the one-point method.
constexpr double kOnePoint = 0.6;

/// The verticals, and the row of the file on which each begins.
struct Section {
    std::vector<Vertical> verticals;
    std::vector<std::size_t> first_row;
};

/// The ranges of a rating, each by its limit, a and b.
constexpr std::array<std::array<const char*, 3>, 3> kRanges{{{"", "rating_a", "rating_b"},
                                                             {"rating_limit", "rating_a2", "rating_b2"},
                                                             {"rating_limit2", "rating_a3", "rating_b3"}}};

/// A rating out of its parts, wherever they stand; `part` gives one by its name.
template <class Part>
Expected<MeterRating> rating_of(Part part, const std::string& own) {
    MeterRating rating;
    std::size_t count = kRanges.size(); // up to the last range of which anything is there
    while (count > 0 &&
           std::ranges::none_of(kRanges[count - 1], [&](const char* name) { return part(name).has_value(); }))
        --count;
    for (std::size_t i = 0; i < count; ++i) {
        for (const char* needed : kRanges[i])
            if (*needed != '\0' && !part(needed))
                return refusal("exchange.rating_incomplete", {}, {{"parameter", std::string(needed)}});
        const auto& [limit, a, b] = kRanges[i];
        rating.ranges.push_back({i == 0 ? 0.0 : *part(limit), *part(a), *part(b)});
    }
    rating.min_velocity_ms = part("rated_from");
    rating.max_velocity_ms = part("rated_to");
    const Expected<bool> individual = yes_or_no(own, "own_rating");
    if (!individual)
        return individual.error();
    rating.individual = *individual;
    return rating;
}

/// The meters that a file names. The rating of one stands in the first row that names it; without one it shows the
/// velocity itself.
class Meters {
public:
    /// The meter of a row; nullptr where it names none: that of the parameters.
    Expected<std::shared_ptr<const MeterRating>> of(const ReduceTable& table, std::size_t row) {
        const std::string& name = table.text(row, "meter");
        const bool rated = std::ranges::any_of(kRated, [&](const char* part) { return table.has(row, part); });
        if (name.empty() && rated)
            return table.at(refusal("exchange.cell_empty"), row, "meter");
        if (name.empty())
            return std::shared_ptr<const MeterRating>();
        const auto known = m_meters.find(name);
        if (known != m_meters.end() && !rated)
            return known->second;
        const std::string& own = table.text(row, "own_rating");
        Expected<MeterRating> rating = rating_of([&](const char* part) { return table.number(row, part); },
                                                 own.empty() ? table.text_parameter("own_rating") : own);
        if (!rating)
            return table.at(rating.error(), row);
        rating->name = name;
        if (const Expected<Findings> checked = check_rating(*rating); !checked)
            return table.at(checked.error(), row);
        if (known == m_meters.end())
            return m_meters.emplace(name, std::make_shared<const MeterRating>(*rating)).first->second;
        if (*known->second == *rating)
            return known->second;
        return table.at(refusal("exchange.meter_differs", {}, {{"meter", name}}), row, "meter");
    }

private:
    static constexpr std::array kRated{"rating_a",   "rating_b",      "rating_limit", "rating_a2",
                                       "rating_b2",  "rating_limit2", "rating_a3",    "rating_b3",
                                       "rated_from", "rated_to",      "own_rating"};
    std::map<std::string, std::shared_ptr<const MeterRating>, std::less<>> m_meters;
};

Expected<VelocityAreaOptions> options_of(const ReduceTable& table) {
    const Expected<MeterRating> meter =
        rating_of([&](const char* part) { return table.parameter(part); }, table.text_parameter("own_rating"));
    if (!meter)
        return meter.error();
    VelocityAreaOptions options;
    options.meter = *meter;
    options.surface_share = *table.parameter("surface_share");
    options.wall_velocity_share = *table.parameter("wall_share");
    options.depth_u_m = *table.parameter("depth_uncertainty");
    return options;
}

Expected<BankEdge> edge_of(const ReduceTable& table, std::size_t row) {
    const std::string& text = table.text(row, "edge");
    if (text.empty())
        return BankEdge::None;
    if (text == "water-edge")
        return BankEdge::Sloping;
    if (text == "vertical-bank")
        return BankEdge::Vertical;
    return table.at(refusal("exchange.edge_unknown", {}, {{"cell", text}, {"accepted", "water-edge, vertical-bank"}}),
                    row, "edge");
}

Expected<Vertical> vertical_of(const ReduceTable& table, std::size_t row) {
    const Expected<BankEdge> edge = edge_of(table, row);
    if (!edge)
        return edge.error();
    Vertical vertical;
    vertical.id = table.line(row);
    vertical.distance_m = *table.number(row, "distance");
    const std::optional<double> depth = table.number(row, "depth");
    if (!depth && *edge != BankEdge::Sloping)
        return table.at(refusal("exchange.cell_empty"), row, "depth");
    vertical.depth_m = depth.value_or(0.0);
    vertical.angle_rad = table.number(row, "angle").value_or(0.0);
    vertical.edge = *edge;
    return vertical;
}

/// A further row of a vertical: what it repeats must be the same.
Expected<void> same_vertical(const ReduceTable& table, std::size_t row, const Vertical& vertical) {
    const Expected<BankEdge> edge = edge_of(table, row);
    if (!edge)
        return edge.error();
    const char* column = nullptr;
    if (table.number(row, "depth").value_or(vertical.depth_m) != vertical.depth_m)
        column = "depth";
    else if (table.number(row, "angle").value_or(vertical.angle_rad) != vertical.angle_rad)
        column = "angle";
    else if (*edge != BankEdge::None && *edge != vertical.edge)
        column = "edge";
    if (column == nullptr)
        return {};
    return table.at(refusal("exchange.vertical_differs", {}, {{"first_line", vertical.id}}), row, column);
}

/// The reading of a row, judged by itself so that a refusal names its row and not its vertical's first.
Expected<void> add_reading(const ReduceTable& table, std::size_t row, const MeterRating& usual, Meters& meters,
                           Vertical& vertical) {
    const Expected<std::shared_ptr<const MeterRating>> meter = meters.of(table, row);
    if (!meter)
        return meter.error();
    PointReading reading;
    reading.meter = *meter;
    reading.id = table.line(row);
    reading.depth_fraction = table.number(row, "fraction").value_or(kOnePoint);
    reading.velocity_ms = table.number(row, "velocity");
    reading.revolutions = table.number(row, "revolutions");
    reading.time_s = table.number(row, "time");
    if (!reading.velocity_ms && !reading.revolutions && !reading.time_s)
        return {};
    vertical.points.push_back(reading);
    if (vertical.depth_m == 0.0)
        return {}; // whether anything moves there is for the section to judge
    const Expected<VerticalVelocity> alone = vertical_velocity({reading}, usual);
    if (alone || alone.error().code == "flow.points_not_accepted")
        return {};
    const auto field = std::ranges::find(kPlaces, alone.error().where, &PlacedField::where);
    return table.at(alone.error(), row, field == std::end(kPlaces) ? std::string_view{} : field->column);
}

Expected<Section> section_of(const ReduceTable& table, const MeterRating& meter) {
    Section section;
    Meters meters;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const double distance_m = *table.number(row, "distance");
        auto at = std::ranges::find(section.verticals, distance_m, &Vertical::distance_m);
        if (at == section.verticals.end()) {
            const Expected<Vertical> vertical = vertical_of(table, row);
            if (!vertical)
                return vertical.error();
            at = section.verticals.insert(section.verticals.end(), *vertical);
            section.first_row.push_back(row);
        } else if (const Expected<void> same = same_vertical(table, row, *at); !same) {
            return same.error();
        }
        if (const Expected<void> reading = add_reading(table, row, meter, meters, *at); !reading)
            return reading.error();
    }
    return section;
}

ResultTable panel_table(const std::vector<Panel>& panels) {
    ResultTable table{"exchange.table.panels",
                      {{"exchange.result.distance", Quantity::Length},
                       {"exchange.result.depth", Quantity::Length},
                       {"exchange.result.velocity", Quantity::Velocity},
                       {"exchange.result.width", Quantity::Length},
                       {"exchange.result.area", Quantity::Area},
                       {"exchange.result.discharge", Quantity::Discharge},
                       {"exchange.result.share", Quantity::Ratio}},
                      {}};
    for (const Panel& panel : panels) {
        std::vector<ResultTable::Cell> row;
        for (const double value : {panel.distance_m, panel.depth_m, panel.velocity_ms, panel.width_m, panel.area_m2,
                                   panel.discharge_m3s, panel.share})
            row.emplace_back(Estimate{value, 0.0});
        table.rows.push_back(std::move(row));
    }
    return table;
}

Expected<Reduction> reduce_velocity_area(const ReduceTable& table) {
    const Expected<VelocityAreaOptions> options = options_of(table);
    if (!options)
        return options.error();
    const Expected<Section> section = section_of(table, options->meter);
    if (!section)
        return section.error();
    const RowPlaces places{table, section->first_row, kPlaces};
    const Expected<VelocityAreaResult> gauging = velocity_area(section->verticals, *options);
    if (!gauging)
        return gauging.error().code == "flow.bad_rating" || gauging.error().code == "flow.bad_option"
                   ? gauging.error()
                   : places.put(gauging.error());

    const auto exact = [](double value) { return Estimate{value, 0.0}; };
    Reduction reduction;
    reduction.results = {
        {"exchange.result.discharge", {}, gauging->flow.discharge.estimate, Quantity::Discharge},
        {"exchange.result.discharge_mean_section", {}, exact(gauging->mean_section_m3s), Quantity::Discharge},
        {"exchange.result.width", {}, exact(gauging->width_m), Quantity::Length},
        {"exchange.result.area", {}, exact(gauging->area_m2), Quantity::Area},
        {"exchange.result.mean_depth", {}, exact(gauging->mean_depth_m), Quantity::Length},
        {"exchange.result.mean_velocity", {}, exact(gauging->mean_velocity_ms), Quantity::Velocity}};
    if (gauging->by_interpolation)
        reduction.results.insert(reduction.results.begin() + 1, {"exchange.result.discharge_by_interpolation",
                                                                 {},
                                                                 gauging->by_interpolation->estimate,
                                                                 Quantity::Discharge});
    reduction.tables.push_back(panel_table(gauging->panels));
    for (const Finding& finding : gauging->flow.findings)
        reduction.findings.push_back(places.put(finding));
    reduction.findings.insert(reduction.findings.end(), gauging->improvements.begin(), gauging->improvements.end());
    return reduction;
}

} // namespace

const ReduceMethod& velocity_area_method() {
    static constexpr ReduceMethod method{"velocity-area", "exchange.method.velocity_area", kColumns, kParameters,
                                         reduce_velocity_area};
    return method;
}

} // namespace rillmark
