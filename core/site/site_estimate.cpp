// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/site_estimate.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

// Largest value of a standard against the nominal one; common practice, no source.
constexpr double kResistanceUncertainty_rel = 0.02;
constexpr double kDefaultLatitude_deg = 45.0; // gravity there is within 0.27 % of that anywhere at sea level

std::optional<Estimate> cable_length(const Survey& survey, const SiteHeights& heights,
                                     const std::optional<double>& entered_m) {
    if (entered_m)
        return Estimate{*entered_m, kLengthUncertainty_rel * *entered_m};
    const SiteLine line = site_line(survey, heights, StationLine::Cable);
    if (!line.known())
        return {};
    return line_length(survey, line, kLengthUncertainty_rel);
}

Current current_of(const std::string& stored) {
    if (stored == "dc")
        return Current::Direct;
    return stored == "three-phase" ? Current::ThreePhase : Current::SinglePhase;
}

Estimate chosen_or(const std::optional<double>& value, const std::optional<double>& uncertainty,
                   const Estimate& fallback) {
    if (!value)
        return fallback;
    return {*value, uncertainty.value_or(fallback.standard_uncertainty)};
}

/// Efficiency of the drive: as entered, else of the kind of drive chosen, else within the generator's.
std::optional<Estimate> drive_of(const PowerTables& tables, const AlternativeRow& alternative, Findings& findings) {
    std::optional<Estimate> usual;
    if (!alternative.drive_id.empty()) {
        const Expected<EfficiencyRange> range = tables.efficiency(alternative.drive_id);
        if (range)
            usual = range->estimate();
        else
            findings.push_back(range.error());
    }
    if (!alternative.drive_efficiency)
        return usual;
    return Estimate{*alternative.drive_efficiency,
                    alternative.drive_efficiency_u.value_or(usual ? usual->standard_uncertainty : 0.0)};
}

void add_cable(const Survey& survey, const SiteHeights& heights, const PowerTables& tables,
               const AlternativeRow& alternative, AlternativeEstimate& estimate) {
    if (alternative.cable_id.empty())
        return;
    const Expected<Conductor> conductor = tables.conductor(alternative.cable_id);
    if (!conductor) {
        estimate.findings.push_back(conductor.error());
        return;
    }
    const Expected<double> resistance =
        resistance_at_ohm_per_m(*conductor, alternative.conductor_temperature_C.value_or(kConductorTemperature_C));
    if (!resistance) {
        estimate.findings.push_back(resistance.error());
        return;
    }
    const std::optional<Estimate> length = cable_length(survey, heights, alternative.cable_length_m);
    if (!length || !alternative.voltage_V) {
        estimate.findings.push_back(warning(length ? "site.voltage_unknown" : "site.cable_length_unknown"));
        return;
    }
    ChainCable cable;
    cable.system = current_of(alternative.cable_system);
    cable.length_m = *length;
    cable.resistance_ohm_per_m = {*resistance, kResistanceUncertainty_rel * *resistance};
    cable.reactance_ohm_per_m = conductor->reactance_ohm_per_m.value_or(0.0);
    cable.voltage_V = *alternative.voltage_V;
    cable.power_factor = cable.system == Current::Direct ? 1.0 : alternative.power_factor.value_or(1.0);
    estimate.input.cable = cable;
}

/// Head of an alternative: from its own intake where it names one, else the running head.
std::optional<Estimate> head_of(const Survey& survey, const SiteHeights& heights, const AlternativeRow& alternative) {
    const StationRow* end = end_of_head(survey, &alternative);
    if (heights.network && alternative.intake_id && end != nullptr) {
        const Expected<Estimate> fall =
            heights.network->difference(station_node(end->id), station_node(*alternative.intake_id));
        if (fall)
            return *fall;
    }
    if (!heights.running_head)
        return {};
    return heights.running_head->head.estimate;
}

void note_doubts(SiteEstimate& site) {
    if (!site.heights.running_head)
        site.head_doubts.push_back(note("site.head_missing"));
    else {
        if (!site.heights.running_head->to_powerhouse)
            site.head_doubts.push_back(
                warning("site.head_not_to_powerhouse", {}, {{"point", site.heights.running_head->to}}));
        if (!site.heights.running_head->checked)
            site.head_doubts.push_back(warning("site.head_unchecked"));
    }
    for (const Finding& finding : site.flow.findings)
        if (finding.severity != Severity::Note)
            site.flow_doubts.push_back(finding);
    if (site.flow.usable)
        for (const Finding& finding : site.flow.usable->findings)
            if (finding.severity != Severity::Note)
                site.flow_doubts.push_back(finding);
    for (const Finding& finding : site.chosen.result.findings)
        if (finding.code.starts_with("power.missing_"))
            site.power_doubts.push_back(finding);
    site.power_doubts.insert(site.power_doubts.end(), site.chosen.findings.begin(), site.chosen.findings.end());
}

} // namespace

AlternativeEstimate alternative_estimate(const Survey& survey, const SiteHeights& heights, const SiteFlow& flow,
                                         const PowerTables& tables, const AlternativeRow& alternative) {
    AlternativeEstimate estimate;
    estimate.alternative_id = alternative.id;
    ChainInput& input = estimate.input;
    input.gross_head_m = head_of(survey, heights, alternative);
    if (alternative.design_flow_m3s)
        input.flow_m3s = Estimate{*alternative.design_flow_m3s, 0.0};
    else if (flow.usable)
        input.flow_m3s = flow.usable->usable.estimate;
    if (survey.site.water_temperature_C)
        input.water_temperature_C = {*survey.site.water_temperature_C, 1.0};
    const StationRow* intake =
        alternative.intake_id ? survey.station(*alternative.intake_id) : survey.first_of_kind("intake");
    input.latitude_deg = intake != nullptr ? intake->latitude_deg.value_or(kDefaultLatitude_deg) : kDefaultLatitude_deg;
    if (intake != nullptr)
        if (const OccupationRow* stay = survey.latest_stay(intake->id))
            input.altitude_m = stay->height_msl_m.value_or(stay->height_ellipsoid_m.value_or(0.0));
    input.turbine_efficiency =
        chosen_or(alternative.turbine_efficiency, alternative.turbine_efficiency_u, kDefaultTurbineEfficiency);
    input.generator_efficiency =
        chosen_or(alternative.generator_efficiency, alternative.generator_efficiency_u, kDefaultGeneratorEfficiency);
    input.drive_efficiency = drive_of(tables, alternative, estimate.findings);
    estimate.pipe = plant_pipe(survey, heights, tables, alternative);
    input.pipes = estimate.pipe.pipes;
    input.parallel_pipes = estimate.pipe.parallel;
    estimate.findings.insert(estimate.findings.end(), estimate.pipe.findings.begin(), estimate.pipe.findings.end());
    estimate.intake = intake_link(flow, alternative, input);
    input.intake_loss_m = estimate.intake.loss_m;
    add_cable(survey, heights, tables, alternative, estimate);
    estimate.result = water_to_wire(input);
    return estimate;
}

SiteEstimate site_estimate(const Survey& survey, const PowerTables& tables,
                           const std::shared_ptr<const SiteSeason>& before) {
    SiteEstimate site;
    site.heights = site_heights(survey);
    site.flow = site_flow(survey);
    site.season = site_season(survey, site.flow, before);
    use_season(survey.site, *site.season, site.flow);
    if (site.flow.to_use)
        site.flow.usable = usable_flow_of(survey.site, *site.flow.to_use, *site.season);
    const AlternativeRow* alternative = survey.alternative();
    site.chosen = alternative_estimate(survey, site.heights, site.flow, tables,
                                       alternative != nullptr ? *alternative : AlternativeRow{});
    note_doubts(site);
    return site;
}

} // namespace rillmark
