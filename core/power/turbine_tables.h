// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "embedded_text.h"
#include "expected.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

struct CurvePoint {
    double x = 0.0;
    double y = 0.0;
};
/// Straight lines between points in ascending x; nothing outside them.
[[nodiscard]] std::optional<double> on_curve(std::span<const CurvePoint> curve, double x);

/// A kind of turbine; see assets/tables/turbines.csv for what each number is.
struct TurbineKind {
    std::string id; // "pelton"
    std::string label;
    bool reaction = false; // runs full, may sit above tailwater and can cavitate
    double head_min_m = 0.0;
    double head_max_m = 0.0;
    std::optional<double> ns_min; // rpm, kW, m, per jet
    std::optional<double> ns_max;
    double smallest_flow = 0.0; // of the design flow
    double best_efficiency = 0.0;
    double runaway_min = 0.0; // times the rated speed
    double runaway_max = 0.0;
    std::string source;
    std::string provenance;
    // Efficiency as part of the best by flow as part of the design flow. Unconfirmed: see part_flow.csv.
    std::vector<CurvePoint> part_flow;

    /// Efficiency at a part of the design flow: zero below the smallest flow (the machine stands), at more than the
    /// design flow that of the design flow.
    [[nodiscard]] double efficiency_at(double flow_ratio) const;
};

struct TurbineTables {
    std::vector<TurbineKind> kinds;
    std::vector<CurvePoint> francis_sigma;   // x: specific speed in rpm, horsepower, ft
    std::vector<CurvePoint> propeller_sigma;

    /// Refuses an unknown one with `power.unknown_turbine` (argument `id`).
    [[nodiscard]] Expected<TurbineKind> kind(std::string_view id) const;
    /// Critical Thoma number of a Francis, propeller or Kaplan runner by specific speed (rpm, kW, m). Nothing for other
    /// kinds and outside the table. Source: Handbook of Turbomachinery, 2nd ed., table 4.
    [[nodiscard]] std::optional<double> critical_sigma(const TurbineKind& kind, double ns_kW) const;
};
/// Reads turbines.csv, part_flow.csv and thoma_sigma.csv. Refuses as read_power_tables does.
[[nodiscard]] Expected<TurbineTables> read_turbine_tables(std::span<const EmbeddedText> texts = table_texts());

} // namespace rillmark
