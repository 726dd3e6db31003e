// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/intake_link.h"

#include "water/gravity.h"
#include "water/water.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rillmark {

namespace {

constexpr double kRad = std::numbers::pi / 180.0;

/// What all parts of the intake need.
struct Waters {
    double design_m3s = 0.0;
    double gravity_ms2 = 0.0;
};

template <class Value>
std::optional<Value> taken(const Expected<Value>& value, Findings& findings) {
    if (value)
        return *value;
    findings.push_back(value.error());
    return {};
}

template <class Value>
void take_findings(const std::optional<Value>& part, Findings& findings) {
    if (part)
        findings.insert(findings.end(), part->findings.begin(), part->findings.end());
}

void add_creek(const SiteFlow& flow, const AlternativeRow& alternative, const Waters& waters, IntakeLink& link) {
    if (flow.to_use) {
        link.creek_m3s = flow.to_use->discharge.estimate.value;
        link.left_m3s = std::max(*link.creek_m3s - waters.design_m3s, 0.0);
        if (waters.design_m3s > *link.creek_m3s)
            link.findings.push_back(warning(
                "site.flow_more_than_creek", {},
                {{"flow", waters.design_m3s, Quantity::Discharge}, {"creek", *link.creek_m3s, Quantity::Discharge}}));
    }
    link.flood_m3s = alternative.flood_m3s ? alternative.flood_m3s : flow.flood_m3s;
}

void add_wall(const AlternativeRow& alternative, const Waters& waters, IntakeLink& link) {
    if (alternative.intake_kind.empty() || !alternative.crest_width_m)
        return;
    Wall wall;
    wall.crest.kind = alternative.intake_kind == "sharp-crest" ? CrestKind::Sharp : CrestKind::Broad;
    wall.crest.width_m = *alternative.crest_width_m;
    wall.crest.breadth_m = alternative.crest_breadth_m.value_or(0.0);
    wall.crest.height_m = alternative.crest_height_m.value_or(0.0);
    wall.design_overflow_m3s = link.left_m3s.value_or(0.0);
    if (!link.flood_m3s || !alternative.wall_top_m) {
        link.findings.push_back(note("site.no_freeboard_known"));
        return;
    }
    wall.top_level_m = *alternative.wall_top_m;
    wall.flood_m3s = *link.flood_m3s;
    link.wall = taken(wall_levels(wall, waters.gravity_ms2), link.findings);
    take_findings(link.wall, link.findings);
}

void add_rack_and_screen(const AlternativeRow& alternative, const Waters& waters, IntakeLink& link) {
    if (alternative.rack_area_m2 && alternative.rack_bar_m && alternative.rack_gap_m) {
        link.rack = taken(rack_loss({waters.design_m3s, *alternative.rack_area_m2, *alternative.rack_bar_m,
                                     *alternative.rack_gap_m, alternative.rack_slope_deg.value_or(90.0) * kRad},
                                    waters.gravity_ms2),
                          link.findings);
        take_findings(link.rack, link.findings);
    }
    if (alternative.screen_capacity_m2s)
        link.screen_width_m = taken(screen_width_m(waters.design_m3s, *alternative.screen_capacity_m2s), link.findings);
    if (link.rack)
        link.loss_m = Estimate{0.5 * (link.rack->clean_m + link.rack->clogged_m),
                               (link.rack->clogged_m - link.rack->clean_m) / std::sqrt(12.0)};
    if (alternative.screen_drop_m) {
        Estimate loss = link.loss_m.value_or(Estimate{});
        loss.value += *alternative.screen_drop_m;
        link.loss_m = loss;
    }
}

void add_mouth(const AlternativeRow& alternative, const ChainInput& chain, const Waters& waters, IntakeLink& link) {
    if (chain.pipes.empty() || chain.parallel_pipes < 1)
        return;
    const double bore_m = chain.pipes.front().bore_m.value;
    const double speed_ms = waters.design_m3s / chain.parallel_pipes / (std::numbers::pi / 4.0 * bore_m * bore_m);
    link.mouth = taken(submergence({speed_ms, bore_m}, waters.gravity_ms2), link.findings);
    if (link.mouth && alternative.mouth_depth_m && *alternative.mouth_depth_m < link.mouth->needed_m)
        link.findings.push_back(warning("site.mouth_too_shallow", {},
                                        {{"depth", *alternative.mouth_depth_m, Quantity::Length},
                                         {"needed", link.mouth->needed_m, Quantity::Length}}));
}

void add_basin(const AlternativeRow& alternative, const ChainInput& chain, const Waters& waters, IntakeLink& link) {
    if (!alternative.basin_width_m || !alternative.grain_m || waters.design_m3s <= 0.0)
        return;
    Grain grain;
    grain.diameter_m = *alternative.grain_m;
    grain.kinematic_viscosity_m2s = water_kinematic_viscosity_m2s(chain.water_temperature_C.value).value_or(0.0);
    link.settling_ms = taken(settling_velocity_ms(grain, waters.gravity_ms2), link.findings);
    if (link.settling_ms)
        link.basin =
            taken(settling_basin(waters.design_m3s, *link.settling_ms, *alternative.basin_width_m), link.findings);
}

} // namespace

IntakeLink intake_link(const SiteFlow& flow, const AlternativeRow& alternative, const ChainInput& chain) {
    IntakeLink link;
    const Expected<double> gravity = normal_gravity_ms2({chain.latitude_deg, chain.altitude_m});
    if (!gravity)
        return link; // said by the chain
    const Waters waters{chain.flow_m3s ? chain.flow_m3s->value : 0.0, *gravity};
    add_creek(flow, alternative, waters, link);
    add_wall(alternative, waters, link);
    if (!chain.flow_m3s)
        return link;
    add_rack_and_screen(alternative, waters, link);
    add_mouth(alternative, chain, waters, link);
    add_basin(alternative, chain, waters, link);
    return link;
}

} // namespace rillmark
