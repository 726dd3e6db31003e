// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "season/flow_to_leave.h"
#include "uncertainty/estimate.h"

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace rillmark {

// A year here has 365 days, as in the usual capacity factor; February has 28.
inline constexpr double kEnergyYear_s = 8760.0 * 3600.0;
// Days of record below which a calendar month is thin, days that make a year full, and full years below which a record
// says little about other years; our choice, no source.
inline constexpr std::size_t kMonthThinDays = 20;
inline constexpr std::size_t kFullYearDays = 360;
inline constexpr std::size_t kFewYears = 5;

/// The mean flow of the stream on one day.
struct FlowDay {
    int year = 0;
    unsigned month = 1; // 1 to 12
    double flow_m3s = 0.0;
};
/// A flow that is reached or passed for a part of the time.
struct DurationPoint {
    double exceedance = 0.0; // 0 to 1
    double flow_m3s = 0.0;
};

/// What turns the flow of a day into power.
struct EnergyPlant {
    double design_flow_m3s = 0.0;   // through the turbine, > 0
    FlowToLeave leave;              // what stays in the stream, by the permit
    std::optional<double> q95_m3s;  // of the stream, for a share of Q95
    double smallest_flow = 0.0;     // of the design flow, 0 to 1: with less the plant stands
    std::function<double(double flow_m3s)> net_head_m;          // zero or less: no power
    std::function<double(double flow_ratio)> turbine_efficiency; // by part of the design flow, 0 to 1
    double other_efficiency = 1.0;  // generator, drive, cable, down time; above 0, at most 1
    double density_kgm3 = 0.0;      // > 0
    double gravity_ms2 = 0.0;       // > 0
    // Relative standard uncertainties, >= 0, each shared by all days: a rating that is 10 % wrong is so every day.
    double u_flow = 0.0;
    double u_head = 0.0; // of the net head
    double u_efficiency = 0.0;
};

struct MonthOfEnergy {
    std::size_t days = 0; // in the record
    double energy_J = 0.0; // in a mean month of that name
    double running = 0.0; // part of the days with power
};

struct EnergyYear {
    Budgeted energy_J;        // of a mean year; the measuring uncertainty only: `power.flow`, `power.net_head`, `power.efficiency`
    double rated_W = 0.0;     // at the design flow
    Estimate capacity_factor; // energy over that of the rated power all year; only the flow is uncertain in it
    double running = 0.0;     // part of the year with power
    std::array<std::optional<MonthOfEnergy>, 12> months; // January first; days only
    std::size_t months_without_power = 0;                // calendar months without power on any day of the record
    std::size_t full_years = 0;
    std::optional<double> year_spread_J; // standard deviation from year to year, with two full years or more
    Findings findings; // `power.month_thin`, `power.record_short`, `power.months_without_power`
};

/// Power (W) at a flow in the stream: rho g Q H(Q) eta(Q/Qd) eta_other of Q = min(usable flow, design flow); zero below
/// the smallest flow and without net head. Usable is what divide_flow leaves to the plant in that month (1 to 12). Refuses
/// a plant out of the ranges above (`power.not_positive`, `power.negative`, `power.ratio_above_one`,
/// `power.plant_incomplete`), what divide_flow refuses, a negative flow and what is not finite, of the functions too.
[[nodiscard]] Expected<double> power_at_flow_W(const EnergyPlant& plant, double flow_m3s, unsigned month = 1);

/// The flow (m3/s) through the turbine at a flow in the stream; zero while the plant stands. Refuses as power_at_flow_W.
[[nodiscard]] Expected<double> turbine_flow_m3s(const EnergyPlant& plant, double flow_m3s, unsigned month = 1);

/// Energy of a mean year from daily flows: the mean of each calendar month's days times its length, so that an uneven record
/// does not count a season twice. The uncertainty is that of the scales of flow, head and efficiency, through the whole
/// sum (JCGM 100:2008, 5.1.2); the spread of the years stands apart. Accuracy: flow within the day is taken as even.
/// Refuses as power_at_flow_W, an empty record (`power.no_flows`), a month that there is not (`power.bad_month`), a
/// calendar month without a day (`power.month_missing`) and a plant without power at its design flow
/// (`power.no_rated_power`).
[[nodiscard]] Expected<EnergyYear> energy_of_days(std::span<const FlowDay> days, const EnergyPlant& plant);

/// The same from a flow-duration curve: E = T int P d(exceedance), by the trapezoidal rule on the given points; beyond the
/// first and last point the flow is held. No months. Refuses as energy_of_days, fewer than two points and points whose
/// exceedance does not rise or whose flow rises (`power.bad_duration_curve`), and a monthly table of the flow to leave
/// (`power.leave_by_month`): the curve does not say in which month a flow comes.
[[nodiscard]] Expected<EnergyYear> energy_of_duration(std::span<const DurationPoint> curve, const EnergyPlant& plant);

struct DesignPoint {
    double design_flow_m3s = 0.0;
    double energy_J = 0.0;
    double rated_W = 0.0;
    double capacity_factor = 0.0;
};
struct DesignCurve {
    std::vector<DesignPoint> points;
    // The point highest above the straight line from the first to the last point, both axes as part of their range; nothing
    // where no point is above it. The definition is ours: it marks where more design flow begins to bring little, it is
    // no optimum, which needs prices. It moves with the range that was asked for.
    std::optional<std::size_t> knee;
};
/// Energy over the design flow; net head and efficiency are those of `plant`, its own design flow is not looked at. Refuses
/// fewer than three flows or flows that do not rise (`power.bad_design_flows`), and what the energy refuses.
[[nodiscard]] Expected<DesignCurve> design_curve(std::span<const FlowDay> days, const EnergyPlant& plant,
                                                 std::span<const double> design_flows_m3s);
[[nodiscard]] Expected<DesignCurve> design_curve(std::span<const DurationPoint> curve, const EnergyPlant& plant,
                                                 std::span<const double> design_flows_m3s);

} // namespace rillmark
