// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/velocity_area.h"

#include "flow/gauged_section.h"
#include "flow/velocity_area_uncertainty.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace rillmark {

namespace {

std::vector<Panel> mid_section(const std::vector<GaugedVertical>& section) {
    std::vector<Panel> panels;
    panels.reserve(section.size());
    for (std::size_t i = 0; i < section.size(); ++i) {
        const Vertical& vertical = *section[i].vertical;
        const double left_m = section[i == 0 ? 0 : i - 1].vertical->distance_m;
        const double right_m = section[std::min(i + 1, section.size() - 1)].vertical->distance_m;
        Panel panel;
        panel.vertical_id = vertical.id;
        panel.row = section[i].row;
        panel.distance_m = vertical.distance_m;
        panel.depth_m = vertical.depth_m;
        panel.velocity_ms = section[i].velocity_ms;
        panel.width_m = (right_m - left_m) / 2.0;
        panel.area_m2 = panel.width_m * panel.depth_m;
        panel.discharge_m3s = panel.area_m2 * panel.velocity_ms;
        panels.push_back(panel);
    }
    return panels;
}

double mean_section_m3s(const std::vector<GaugedVertical>& section) {
    double sum_m3s = 0.0;
    for (std::size_t i = 1; i < section.size(); ++i) {
        const GaugedVertical& a = section[i - 1];
        const GaugedVertical& b = section[i];
        const double width_m = b.vertical->distance_m - a.vertical->distance_m;
        sum_m3s += width_m * (a.vertical->depth_m + b.vertical->depth_m) / 2.0 * (a.velocity_ms + b.velocity_ms) / 2.0;
    }
    return sum_m3s;
}

std::vector<PanelDoubt> doubts(const std::vector<GaugedVertical>& section, const VelocityAreaResult& result,
                               const VelocityAreaOptions& options) {
    std::vector<PanelFacts> facts(section.size());
    for (std::size_t i = 0; i < section.size(); ++i) {
        facts[i].total_width_m = result.width_m;
        facts[i].depth_m = result.panels[i].depth_m;
        facts[i].depth_u_m = options.depth_u_m;
        facts[i].discharge_m3s = result.panels[i].discharge_m3s;
        facts[i].velocity_area_m2 += result.panels[i].area_m2;
        facts[i].cosine = std::cos(section[i].vertical->angle_rad);
        facts[i].individual_rating = options.meter.individual;
        facts[i].measured = section[i].measured ? &*section[i].measured : nullptr;
        if (section[i].wall_estimated) {
            // The wall's velocity is borrowed: an error of the neighbour's acts on the wall's panel as well.
            const std::size_t neighbour = i == 0 ? 1 : i - 1;
            facts[neighbour].velocity_area_m2 += options.wall_velocity_share * result.panels[i].area_m2;
            facts[i].wall_u_m3s =
                result.panels[i].area_m2 * std::abs(section[neighbour].velocity_ms) * kWallVelocityShare_u;
        }
    }
    std::vector<PanelDoubt> panels;
    panels.reserve(facts.size());
    for (const PanelFacts& of_panel : facts)
        panels.push_back(panel_doubt(of_panel));
    return panels;
}

void share_out_variance(std::vector<Panel>& panels, const std::vector<PanelDoubt>& doubts) {
    double total = 0.0;
    for (const PanelDoubt& doubt : doubts)
        total += doubt.variance();
    for (std::size_t i = 0; i < panels.size(); ++i)
        panels[i].variance_share = total > 0.0 ? doubts[i].variance() / total : 0.0;
}

} // namespace

Expected<VelocityAreaResult> velocity_area(const std::vector<Vertical>& verticals, const VelocityAreaOptions& options) {
    const Expected<Findings> rating = check_rating(options.meter);
    if (!rating)
        return rating.error();
    const Expected<std::vector<GaugedVertical>> checked = gauged_section(verticals, options);
    if (!checked)
        return checked.error();
    const std::vector<GaugedVertical>& section = *checked;

    VelocityAreaResult result;
    result.panels = mid_section(section);
    double discharge_m3s = 0.0;
    for (const Panel& panel : result.panels) {
        result.area_m2 += panel.area_m2;
        discharge_m3s += panel.discharge_m3s;
    }
    if (discharge_m3s < 0.0)
        return refusal("flow.runs_backwards", {}, {{"discharge", discharge_m3s, Quantity::Discharge}});
    for (Panel& panel : result.panels)
        panel.share = discharge_m3s > 0.0 ? panel.discharge_m3s / discharge_m3s : 0.0;
    result.mean_section_m3s = mean_section_m3s(section);
    result.width_m = section.back().vertical->distance_m - section.front().vertical->distance_m;
    result.mean_depth_m = result.area_m2 / result.width_m;
    result.mean_velocity_ms = discharge_m3s / result.area_m2;

    const std::vector<PanelDoubt> panel_doubts = doubts(section, result, options);
    share_out_variance(result.panels, panel_doubts);
    const auto measured =
        std::ranges::count_if(section, [](const GaugedVertical& at) { return at.measured.has_value(); });
    result.flow.method = FlowMethod::VelocityArea;
    result.flow.discharge = combine_velocity_area(discharge_m3s, iso748::kSystematic,
                                                  iso748::verticals(static_cast<int>(measured)), panel_doubts);
    result.flow.findings = *rating;
    for (Finding& finding : velocity_area_findings(section, result, options))
        result.flow.findings.push_back(std::move(finding));
    return result;
}

} // namespace rillmark
