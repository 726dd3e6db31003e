// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/machine_link.h"

#include "water/gravity.h"

#include <algorithm>

namespace rillmark {

namespace {

void hold_against_head(const TurbineOption& option, double net_head_m, MachineLink& link) {
    if (option.fit == TurbineFit::HeadTooLow || option.fit == TurbineFit::HeadTooHigh)
        link.findings.push_back(warning("site.turbine_head_outside", option.kind.label,
                                        {{"head", net_head_m, Quantity::Length},
                                         {"lowest", option.kind.head_min_m, Quantity::Length},
                                         {"highest", option.kind.head_max_m, Quantity::Length}}));
    if (option.fit == TurbineFit::NoDirectSpeed)
        link.findings.push_back(note("site.turbine_no_direct_speed", option.kind.label));
}

void hold_against_speed(const TurbineOption& option, MachineLink& link) {
    const TurbineKind& kind = option.kind;
    if (!link.specific || !kind.ns_min || !kind.ns_max)
        return;
    if (link.specific->ns_kW < *kind.ns_min || link.specific->ns_kW > *kind.ns_max)
        link.findings.push_back(
            warning("site.turbine_speed_outside", kind.label,
                    {{"ns", link.specific->ns_kW}, {"lowest", *kind.ns_min}, {"highest", *kind.ns_max}}));
}

void hold_against_setting(const TurbineOption& option, const AlternativeRow& alternative, MachineLink& link) {
    if (option.setting_m && alternative.setting_m && *alternative.setting_m > *option.setting_m)
        link.findings.push_back(warning(
            "site.turbine_set_too_high", option.kind.label,
            {{"setting", *alternative.setting_m, Quantity::Length}, {"limit", *option.setting_m, Quantity::Length}}));
    const bool to_tailwater = alternative.lower_end == "tailwater";
    if (to_tailwater != option.kind.reaction)
        link.findings.push_back(warning(option.kind.reaction ? "site.head_ends_at_axis" : "site.head_ends_at_tailwater",
                                        option.kind.label));
}

/// Speed, specific speed and wheel with what was entered in place of what was proposed.
void add_figures(const TurbineSite& site, const TurbineOption& option, const AlternativeRow& alternative,
                 MachineLink& link) {
    const int jets = static_cast<int>(alternative.jets.value_or(option.jets.value_or(1)));
    link.speed_rpm = alternative.turbine_rpm ? alternative.turbine_rpm : option.speed_rpm;
    link.wheel = option.wheel;
    link.specific = option.specific;
    if (option.kind.id == "pump")
        if (const Expected<PumpChoice> pump =
                pump_as_turbine(site.net_head_m, site.flow_m3s, option.kind.best_efficiency))
            link.pump = *pump;
    if (!link.speed_rpm)
        return;
    link.runaway_rpm = option.kind.runaway_max * *link.speed_rpm;
    if (const Expected<SpecificSpeed> specific = specific_speed(
            {*link.speed_rpm, site.net_head_m, site.flow_m3s / jets, option.shaft_W / jets, site.gravity_ms2}))
        link.specific = *specific;
    if (option.kind.id != "pelton")
        return;
    const Expected<ImpulseWheel> wheel =
        impulse_wheel({site.net_head_m, site.flow_m3s, jets, *link.speed_rpm, site.gravity_ms2});
    if (!wheel) {
        link.findings.push_back(wheel.error());
        return;
    }
    link.wheel = *wheel;
    link.findings.insert(link.findings.end(), wheel->findings.begin(), wheel->findings.end());
}

} // namespace

MachineLink machine_link(const ChainInput& chain, const ChainResult& result, const TurbineTables& tables,
                         const AlternativeRow& alternative) {
    MachineLink link;
    if (!result.net_head_m || !result.flow_m3s || result.net_head_m->value <= 0.0 || result.flow_m3s->value <= 0.0)
        return link;
    TurbineSite site;
    site.net_head_m = result.net_head_m->value;
    site.flow_m3s = result.flow_m3s->value;
    site.frequency_Hz = alternative.frequency_Hz.value_or(kUsualFrequency_Hz);
    site.altitude_m = chain.altitude_m;
    site.water_temperature_C = chain.water_temperature_C.value;
    site.gravity_ms2 = normal_gravity_ms2({chain.latitude_deg, chain.altitude_m}).value_or(0.0);
    Expected<std::vector<TurbineOption>> options = turbine_options(site, tables);
    if (!options) {
        link.findings.push_back(options.error());
        return link;
    }
    link.options = std::move(options).value();
    if (alternative.turbine_kind.empty())
        return link;
    const auto chosen = std::ranges::find_if(
        link.options, [&](const TurbineOption& one) { return one.kind.id == alternative.turbine_kind; });
    if (chosen == link.options.end()) {
        link.findings.push_back(refusal("power.unknown_turbine", {}, {{"id", alternative.turbine_kind}}));
        return link;
    }
    link.chosen = *chosen;
    hold_against_head(*chosen, site.net_head_m, link);
    add_figures(site, *chosen, alternative, link);
    hold_against_speed(*chosen, link);
    hold_against_setting(*chosen, alternative, link);
    link.findings.push_back(note("site.turbine_stands_below", chosen->kind.label,
                                 {{"flow", chosen->kind.smallest_flow * site.flow_m3s, Quantity::Discharge}}));
    return link;
}

} // namespace rillmark
