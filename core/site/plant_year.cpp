// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/plant_year.h"

#include "power/chain_year.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr double kMiddle = 0.5;
constexpr double kLow = 0.95;

/// Why there are no days of the site.
Finding missing_days(const SiteSeason& season) {
    if (season.site && season.site->mean && !season.site->ratio)
        return refusal("site.year_mean_only");
    return refusal(season.record ? "site.year_no_transfer" : "site.year_no_record");
}

/// Relative standard uncertainty that all days share: of the mean flow without the scatter of the years, which enters
/// it in proportion.
double measuring_u_rel(const SiteSeason& season) {
    const std::optional<Budgeted>& mean = season.site->mean;
    const DailySummary& summary = season.record->summary;
    if (!mean || mean->estimate.value <= 0.0 || summary.mean_m3s <= 0.0)
        return kDailyFlow_u_rel;
    const double all = mean->estimate.standard_uncertainty / mean->estimate.value;
    const double years =
        summary.full_years >= 2 && summary.mean_u_m3s ? *summary.mean_u_m3s / summary.mean_m3s : kOneYear_u_rel;
    return std::sqrt(std::max(all * all - years * years, 0.0));
}

/// One month's mean over its days, and the watts at two of its flows: at every flow by itself, since the flow to leave
/// and a turbine that stands make more flow mean more watts all the same.
std::optional<MonthOfWatts> month_of_watts(const EnergyPlant& plant, const FlowDuration& flows, unsigned month) {
    if (flows.size() == 0)
        return {};
    const auto watts = [&](double flow_m3s) { return power_at_flow_W(plant, flow_m3s, month).value_or(0.0); };
    MonthOfWatts out;
    for (const double flow_m3s : flows.flows_m3s()) {
        const double power_W = watts(flow_m3s);
        out.mean_W += power_W / static_cast<double>(flows.size());
        out.running += power_W > 0.0 ? 1.0 / static_cast<double>(flows.size()) : 0.0;
    }
    // by the linear rule, which knows the ends of a short month as well
    out.middle_W = watts(flows.flow_m3s(kMiddle, PlottingRule::Linear).value_or(0.0));
    out.low_W = watts(flows.flow_m3s(kLow, PlottingRule::Linear).value_or(0.0));
    return out;
}

Expected<EnergyPlant> year_plant(const Survey& survey, const SiteSeason& season, const AlternativeEstimate& estimate,
                                 const TurbineTables& tables) {
    const AlternativeRow* alternative = survey.alternative();
    std::optional<TurbineKind> kind;
    if (alternative != nullptr && !alternative->turbine_kind.empty()) {
        const Expected<TurbineKind> known = tables.kind(alternative->turbine_kind);
        if (!known)
            return known.error();
        kind = *known;
    }
    Expected<EnergyPlant> plant = chain_plant(estimate.input, kind);
    if (!plant)
        return plant;
    plant.value().leave = leave_of(survey.site).value_or(FlowToLeave{});
    if (season.site->q95)
        plant.value().q95_m3s = season.site->q95->estimate.value;
    plant.value().u_flow = measuring_u_rel(season);
    return plant;
}

/// The flows through the turbine of a mean year in classes, each with the mean of its flows.
std::vector<FlowTime> flow_classes(const EnergyPlant& plant, std::span<const FlowDay> days) {
    std::array<double, 12> count{};
    for (const FlowDay& day : days)
        count[day.month - 1] += 1.0;
    std::vector<FlowTime> classes(kFlowClasses);
    for (const FlowDay& day : days) {
        const double flow_m3s = turbine_flow_m3s(plant, day.flow_m3s, day.month).value_or(0.0);
        if (flow_m3s <= 0.0)
            continue;
        const double place = std::ceil(flow_m3s / plant.design_flow_m3s * static_cast<double>(kFlowClasses));
        FlowTime& one = classes[std::min(static_cast<std::size_t>(std::max(place, 1.0)), kFlowClasses) - 1];
        const double time_s = kEnergyYear_s / 12.0 / count[day.month - 1];
        one.flow_m3s = (one.flow_m3s * one.time_s + flow_m3s * time_s) / (one.time_s + time_s);
        one.time_s += time_s;
    }
    std::erase_if(classes, [](const FlowTime& one) { return one.time_s <= 0.0; });
    return classes;
}

} // namespace

std::vector<FlowDay> site_days(const SiteSeason& season) {
    std::vector<FlowDay> days;
    if (!season.record || !season.site || !season.site->ratio)
        return days;
    const DailyFlow& daily = season.record->daily;
    for (std::size_t i = 0; i < daily.flow_m3s.size(); ++i) {
        if (!daily.flow_m3s[i])
            continue;
        const std::chrono::year_month_day day = daily.day(i);
        days.push_back({static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                        *season.site->ratio * *daily.flow_m3s[i]});
    }
    return days;
}

PlantYear plant_year(const Survey& survey, const SiteSeason& season, const AlternativeEstimate& estimate,
                     const TurbineTables& tables) {
    PlantYear out;
    const std::vector<FlowDay> days = site_days(season);
    if (days.empty()) {
        out.findings.push_back(missing_days(season));
        return out;
    }
    const Expected<EnergyPlant> plant = year_plant(survey, season, estimate, tables);
    if (!plant) {
        out.findings.push_back(plant.error());
        return out;
    }
    if (survey.site.leave_rule.empty())
        out.findings.push_back(warning("site.year_nothing_left"));
    Expected<EnergyYear> year = energy_of_days(days, *plant);
    if (year) {
        out.findings.insert(out.findings.end(), year->findings.begin(), year->findings.end());
        out.year = std::move(year).value();
    } else {
        out.findings.push_back(year.error());
    }
    // a month that the record lacks keeps the year from being known, not the other months
    if (out.year || out.findings.back().code == "power.month_missing")
        for (unsigned month = 1; month <= 12; ++month)
            out.months[month - 1] = month_of_watts(*plant, season.site->months[month - 1], month);
    if (!out.year)
        return out;
    out.through_pipe = flow_classes(*plant, days);
    const Expected<DesignCurve> curve = design_curve(days, *plant, design_flows_around(plant->design_flow_m3s));
    if (curve)
        out.curve = *curve;
    else
        out.findings.push_back(curve.error());
    return out;
}

} // namespace rillmark
