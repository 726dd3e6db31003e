// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/energy.h"

#include "power/input_checks.h"
#include "uncertainty/propagate.h"
#include "units/constants.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace rillmark {

namespace {

constexpr std::array<double, 12> kDaysOfMonth{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/// Errors that all days share: what the flow, head and efficiency are multiplied by.
struct Scales {
    double flow = 1.0;
    double head = 1.0;
    double efficiency = 1.0;
};

Expected<void> check_share(const char* where, double value) {
    if (const Expected<void> check = check_not_negative(where, value); !check)
        return check;
    if (value > 1.0)
        return refusal("power.ratio_above_one", where, {{"value", value}});
    return {};
}

Expected<void> check_plant(const EnergyPlant& plant) {
    if (!plant.net_head_m || !plant.turbine_efficiency)
        return refusal("power.plant_incomplete");
    // any day will do: it is the rule that is looked at
    if (const Expected<DividedFlow> divided = divide_flow(plant.leave, {0.0, 1, plant.q95_m3s}); !divided)
        return divided.error();
    return first_refusal(check_positive("power.design_flow", plant.design_flow_m3s, Quantity::Discharge),
                         check_share("power.smallest_flow", plant.smallest_flow),
                         check_positive("power.other_efficiency", plant.other_efficiency),
                         check_share("power.other_efficiency", plant.other_efficiency),
                         check_positive("power.density", plant.density_kgm3, Quantity::Density),
                         check_positive("power.gravity", plant.gravity_ms2),
                         check_not_negative("power.flow_uncertainty", plant.u_flow),
                         check_not_negative("power.head_uncertainty", plant.u_head),
                         check_not_negative("power.efficiency_uncertainty", plant.u_efficiency));
}

double shaft_to_wire_W(const EnergyPlant& plant, double turbine_flow_m3s, const Scales& scales) {
    const double head_m = scales.head * plant.net_head_m(turbine_flow_m3s);
    if (head_m <= 0.0)
        return 0.0;
    return plant.density_kgm3 * plant.gravity_ms2 * turbine_flow_m3s * head_m * scales.efficiency *
           plant.turbine_efficiency(turbine_flow_m3s / plant.design_flow_m3s) * plant.other_efficiency;
}

/// The flow of a day in the stream.
struct StreamFlow {
    double flow_m3s = 0.0;
    unsigned month = 1;
};

/// What of it goes through the turbine; zero while the plant stands.
double turbine_m3s(const EnergyPlant& plant, const StreamFlow& stream, const Scales& scales) {
    DayFlow day{std::max(scales.flow * stream.flow_m3s, 0.0), stream.month, plant.q95_m3s};
    if (day.q95_m3s) // of the same record
        *day.q95_m3s = std::max(scales.flow * *day.q95_m3s, 0.0);
    const Expected<DividedFlow> divided = divide_flow(plant.leave, day);
    const double usable_m3s = divided ? divided->usable_m3s : 0.0;
    if (usable_m3s <= 0.0 || usable_m3s < plant.smallest_flow * plant.design_flow_m3s)
        return 0.0;
    return std::min(usable_m3s, plant.design_flow_m3s);
}

double power_W(const EnergyPlant& plant, const StreamFlow& stream, const Scales& scales) {
    const double flow_m3s = turbine_m3s(plant, stream, scales);
    return flow_m3s > 0.0 ? shaft_to_wire_W(plant, flow_m3s, scales) : 0.0;
}

/// What keeps a single flow from being looked at.
Expected<void> check_day(const EnergyPlant& plant, double flow_m3s, unsigned month) {
    if (const Expected<void> check =
            first_refusal(check_plant(plant), check_not_negative("power.flow", flow_m3s, Quantity::Discharge));
        !check)
        return check;
    const Expected<DividedFlow> divided = divide_flow(plant.leave, {flow_m3s, month, plant.q95_m3s});
    return divided ? Expected<void>() : Expected<void>(divided.error());
}

/// The mean power of a year, by calendar month where there are days.
struct DaySource {
    std::span<const FlowDay> days;

    [[nodiscard]] Expected<void> check(const EnergyPlant&) const {
        if (days.empty())
            return refusal("power.no_flows");
        std::array<bool, 12> seen{};
        for (const FlowDay& day : days) {
            if (day.month < 1 || day.month > 12)
                return refusal("power.bad_month", {}, {{"month", std::int64_t{day.month}}});
            if (const Expected<void> flow = check_not_negative("power.flow", day.flow_m3s, Quantity::Discharge); !flow)
                return flow;
            seen[day.month - 1] = true;
        }
        const auto gap = std::ranges::find(seen, false);
        if (gap != seen.end())
            return refusal("power.month_missing", {}, {{"month", std::int64_t{gap - seen.begin() + 1}}});
        return {};
    }

    /// Mean over the year of any function of a day's StreamFlow: of its months' means.
    template <class Function>
    [[nodiscard]] double mean(const Function& of_flow) const {
        std::array<double, 12> sum{};
        std::array<double, 12> count{};
        for (const FlowDay& day : days) {
            sum[day.month - 1] += of_flow(StreamFlow{day.flow_m3s, day.month});
            count[day.month - 1] += 1.0;
        }
        double total = 0.0;
        for (std::size_t month = 0; month < 12; ++month)
            total += kDaysOfMonth[month] * kSecondsPerDay * sum[month] / count[month];
        return total / kEnergyYear_s;
    }
};

struct DurationSource {
    std::span<const DurationPoint> curve;

    [[nodiscard]] Expected<void> check(const EnergyPlant& plant) const {
        if (curve.empty())
            return refusal("power.no_flows");
        if (plant.leave.rule == LeaveRule::Monthly)
            return refusal("power.leave_by_month");
        for (const DurationPoint& point : curve)
            if (const Expected<void> checked =
                    first_refusal(check_share("power.exceedance", point.exceedance),
                                  check_not_negative("power.flow", point.flow_m3s, Quantity::Discharge));
                !checked)
                return checked;
        const auto bad = std::ranges::adjacent_find(curve, [](const DurationPoint& a, const DurationPoint& b) {
            return b.exceedance <= a.exceedance || b.flow_m3s > a.flow_m3s;
        });
        if (curve.size() < 2 || bad != curve.end())
            return refusal("power.bad_duration_curve");
        return {};
    }

    template <class Function>
    [[nodiscard]] double mean(const Function& of_flow) const {
        double left = of_flow(StreamFlow{curve.front().flow_m3s});
        double total = curve.front().exceedance * left;
        for (std::size_t i = 1; i < curve.size(); ++i) {
            const double right = of_flow(StreamFlow{curve[i].flow_m3s});
            total += 0.5 * (left + right) * (curve[i].exceedance - curve[i - 1].exceedance);
            left = right;
        }
        return total + (1.0 - curve.back().exceedance) * left;
    }
};

template <class Source>
double energy_J(const Source& source, const EnergyPlant& plant, const Scales& scales) {
    return kEnergyYear_s * source.mean([&](const StreamFlow& flow) { return power_W(plant, flow, scales); });
}

Expected<double> rated_W(const EnergyPlant& plant) {
    const double rated = shaft_to_wire_W(plant, plant.design_flow_m3s, {});
    if (!std::isfinite(rated))
        return refusal("uncertainty.not_finite", "power.design_flow");
    if (rated <= 0.0)
        return refusal("power.no_rated_power", "power.design_flow");
    return rated;
}

/// What days and duration curves have in common.
template <class Source>
Expected<EnergyYear> energy_year(const Source& source, const EnergyPlant& plant) {
    if (const Expected<void> check = first_refusal(check_plant(plant), source.check(plant)); !check)
        return check.error();
    EnergyYear year;
    const Expected<double> rated = rated_W(plant);
    if (!rated)
        return rated.error();
    year.rated_W = *rated;
    const Expected<Budgeted> energy = propagate({{"power.flow", {}, {1.0, plant.u_flow}},
                                                 {"power.net_head", {}, {1.0, plant.u_head}},
                                                 {"power.efficiency", {}, {1.0, plant.u_efficiency}}},
                                                [&](std::span<const double> x) {
                                                    return energy_J(source, plant, {x[0], x[1], x[2]});
                                                });
    if (!energy)
        return energy.error();
    year.energy_J = *energy;
    // Head and efficiency scale the energy and the rated power alike, so only the flow is uncertain in their ratio.
    const Expected<Budgeted> factor =
        propagate({{"power.flow", {}, {1.0, plant.u_flow}}}, [&](std::span<const double> x) {
            return energy_J(source, plant, {x[0], 1.0, 1.0}) / (year.rated_W * kEnergyYear_s);
        });
    if (!factor)
        return factor.error();
    year.capacity_factor = factor->estimate;
    year.running = source.mean([&](const StreamFlow& flow) { return power_W(plant, flow, {}) > 0.0 ? 1.0 : 0.0; });
    return year;
}

void add_months(EnergyYear& year, std::span<const FlowDay> days, const EnergyPlant& plant) {
    for (std::size_t month = 0; month < 12; ++month) {
        MonthOfEnergy sum;
        for (const FlowDay& day : days) {
            if (day.month != month + 1)
                continue;
            const double power = power_W(plant, {day.flow_m3s, day.month}, {});
            ++sum.days;
            sum.energy_J += power;
            sum.running += power > 0.0 ? 1.0 : 0.0;
        }
        const auto count = static_cast<double>(sum.days);
        sum.energy_J *= kDaysOfMonth[month] * kSecondsPerDay / count;
        sum.running /= count;
        year.months_without_power += sum.running == 0.0 ? 1u : 0u;
        if (sum.days < kMonthThinDays)
            year.findings.push_back(warning("power.month_thin", {},
                                            {{"month", static_cast<std::int64_t>(month + 1)},
                                             {"days", static_cast<std::int64_t>(sum.days)},
                                             {"limit", static_cast<std::int64_t>(kMonthThinDays)}}));
        year.months[month] = sum;
    }
    if (year.months_without_power > 0)
        year.findings.push_back(warning("power.months_without_power", {},
                                        {{"months", static_cast<std::int64_t>(year.months_without_power)}}));
}

void add_year_spread(EnergyYear& year, std::span<const FlowDay> days, const EnergyPlant& plant) {
    std::map<int, std::pair<std::size_t, double>> years; // days, and their power in all
    for (const FlowDay& day : days) {
        auto& [count, power] = years[day.year];
        ++count;
        power += power_W(plant, {day.flow_m3s, day.month}, {});
    }
    std::vector<double> energies_J;
    for (const auto& [number, sum] : years)
        if (sum.first >= kFullYearDays)
            energies_J.push_back(kEnergyYear_s * sum.second / static_cast<double>(sum.first));
    year.full_years = energies_J.size();
    if (year.full_years < kFewYears)
        year.findings.push_back(warning(
            "power.record_short", {},
            {{"years", static_cast<std::int64_t>(year.full_years)}, {"limit", static_cast<std::int64_t>(kFewYears)}}));
    if (energies_J.size() < 2)
        return;
    const auto count = static_cast<double>(energies_J.size());
    double mean_J = 0.0;
    for (const double energy : energies_J)
        mean_J += energy / count;
    double squares = 0.0;
    for (const double energy : energies_J)
        squares += (energy - mean_J) * (energy - mean_J);
    year.year_spread_J = std::sqrt(squares / (count - 1.0));
}

std::optional<std::size_t> knee_of(const std::vector<DesignPoint>& points) {
    const DesignPoint& first = points.front();
    const double flow_range = points.back().design_flow_m3s - first.design_flow_m3s;
    const auto highest = std::ranges::max_element(points, {}, [](const DesignPoint& point) { return point.energy_J; });
    const double energy_range = highest->energy_J - first.energy_J;
    if (energy_range <= 0.0)
        return std::nullopt;
    // The line ends at the last point, which part-flow losses may have brought below the highest.
    const double slope = (points.back().energy_J - first.energy_J) / energy_range;
    // a straight curve has no knee: what rounding lifts above the line does not count
    double most = 1e-9;
    std::optional<std::size_t> knee;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double x = (points[i].design_flow_m3s - first.design_flow_m3s) / flow_range;
        const double above = (points[i].energy_J - first.energy_J) / energy_range - slope * x;
        if (above > most) {
            most = above;
            knee = i;
        }
    }
    return knee;
}

template <class Source>
Expected<DesignCurve> curve_over(const Source& source, EnergyPlant plant, std::span<const double> design_flows_m3s) {
    if (design_flows_m3s.size() < 3 || std::ranges::adjacent_find(design_flows_m3s, [](double a, double b) {
                                           return !(b > a);
                                       }) != design_flows_m3s.end())
        return refusal("power.bad_design_flows");
    if (const Expected<void> check = source.check(plant); !check)
        return check.error();
    DesignCurve result;
    for (const double flow_m3s : design_flows_m3s) {
        plant.design_flow_m3s = flow_m3s;
        if (const Expected<void> check = check_plant(plant); !check)
            return check.error();
        const Expected<double> rated = rated_W(plant);
        if (!rated)
            return rated.error();
        const double energy = energy_J(source, plant, {});
        if (!std::isfinite(energy))
            return refusal("uncertainty.not_finite", "power.design_flow");
        result.points.push_back({flow_m3s, energy, *rated, energy / (*rated * kEnergyYear_s)});
    }
    result.knee = knee_of(result.points);
    return result;
}

} // namespace

Expected<double> turbine_flow_m3s(const EnergyPlant& plant, double flow_m3s, unsigned month) {
    if (const Expected<void> check = check_day(plant, flow_m3s, month); !check)
        return check.error();
    return turbine_m3s(plant, {flow_m3s, month}, {});
}

Expected<double> power_at_flow_W(const EnergyPlant& plant, double flow_m3s, unsigned month) {
    if (const Expected<void> check = check_day(plant, flow_m3s, month); !check)
        return check.error();
    const double power = power_W(plant, {flow_m3s, month}, {});
    if (!std::isfinite(power))
        return refusal("uncertainty.not_finite", "power.flow");
    return power;
}

Expected<EnergyYear> energy_of_days(std::span<const FlowDay> days, const EnergyPlant& plant) {
    Expected<EnergyYear> year = energy_year(DaySource{days}, plant);
    if (!year)
        return year;
    add_months(year.value(), days, plant);
    add_year_spread(year.value(), days, plant);
    return year;
}

Expected<EnergyYear> energy_of_duration(std::span<const DurationPoint> curve, const EnergyPlant& plant) {
    return energy_year(DurationSource{curve}, plant);
}

Expected<DesignCurve> design_curve(std::span<const FlowDay> days, const EnergyPlant& plant,
                                   std::span<const double> design_flows_m3s) {
    return curve_over(DaySource{days}, plant, design_flows_m3s);
}

Expected<DesignCurve> design_curve(std::span<const DurationPoint> curve, const EnergyPlant& plant,
                                   std::span<const double> design_flows_m3s) {
    return curve_over(DurationSource{curve}, plant, design_flows_m3s);
}

} // namespace rillmark
