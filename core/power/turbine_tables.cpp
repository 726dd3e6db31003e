// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/turbine_tables.h"

#include "power/specific_speed.h"
#include "power/table_reader.h"

#include <algorithm>

namespace rillmark {

namespace {

struct NamedPoint {
    std::string name;
    CurvePoint point;
};

TurbineKind read_kind(TableReader& t, std::size_t row) {
    return {t.text(row, "id"),
            t.text(row, "label"),
            t.text(row, "kind") == "reaction",
            t.number(row, "head_min_m"),
            t.number(row, "head_max_m"),
            t.number_if_any(row, "ns_min"),
            t.number_if_any(row, "ns_max"),
            t.number(row, "smallest_flow"),
            t.number(row, "best_efficiency"),
            t.number(row, "runaway_min"),
            t.number(row, "runaway_max"),
            t.text(row, "source"),
            t.text(row, "provenance"),
            {}};
}

NamedPoint read_part_flow(TableReader& t, std::size_t row) {
    return {t.text(row, "turbine"), {t.number(row, "flow_ratio"), t.number(row, "efficiency_ratio")}};
}

NamedPoint read_sigma(TableReader& t, std::size_t row) {
    return {t.text(row, "runner"), {t.number(row, "ns_us"), t.number(row, "sigma")}};
}

std::vector<CurvePoint> curve_of(const std::vector<NamedPoint>& points, std::string_view name) {
    std::vector<CurvePoint> curve;
    for (const NamedPoint& named : points)
        if (named.name == name)
            curve.push_back(named.point);
    return curve;
}

} // namespace

std::optional<double> on_curve(std::span<const CurvePoint> curve, double x) {
    if (curve.empty() || !(x >= curve.front().x && x <= curve.back().x))
        return std::nullopt;
    const auto right = std::ranges::lower_bound(curve, x, {}, &CurvePoint::x);
    if (right == curve.begin() || right->x == x)
        return right->y;
    const auto left = right - 1;
    return left->y + (right->y - left->y) * (x - left->x) / (right->x - left->x);
}

double TurbineKind::efficiency_at(double flow_ratio) const {
    return best_efficiency * on_curve(part_flow, std::min(flow_ratio, 1.0)).value_or(0.0);
}

Expected<TurbineKind> TurbineTables::kind(std::string_view id) const {
    const auto found = std::ranges::find(kinds, id, &TurbineKind::id);
    if (found == kinds.end())
        return refusal("power.unknown_turbine", {}, {{"id", std::string(id)}});
    return *found;
}

std::optional<double> TurbineTables::critical_sigma(const TurbineKind& kind, double ns_kW) const {
    if (!kind.reaction || !kind.ns_min)
        return std::nullopt;
    return on_curve(kind.id == "francis" ? francis_sigma : propeller_sigma, us_specific_speed(ns_kW));
}

Expected<TurbineTables> read_turbine_tables(std::span<const EmbeddedText> texts) {
    Expected<std::vector<TurbineKind>> kinds = read_table<TurbineKind>(TableReader(texts, "turbines.csv"), read_kind);
    if (!kinds)
        return kinds.error();
    const auto part_flow = read_table<NamedPoint>(TableReader(texts, "part_flow.csv"), read_part_flow);
    if (!part_flow)
        return part_flow.error();
    const auto sigma = read_table<NamedPoint>(TableReader(texts, "thoma_sigma.csv"), read_sigma);
    if (!sigma)
        return sigma.error();
    for (TurbineKind& kind : kinds.value())
        kind.part_flow = curve_of(part_flow.value(), kind.id);
    return TurbineTables{kinds.value(), curve_of(sigma.value(), "francis"), curve_of(sigma.value(), "propeller")};
}

} // namespace rillmark
