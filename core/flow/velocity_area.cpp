// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/velocity_area.h"

#include "flow/gauged_section.h"
#include "flow/gauging_improvements.h"
#include "flow/interpolated_variance.h"
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
        const auto [left, right] = neighbours(section, i);
        const double left_m = (left != nullptr ? *left : section[i]).vertical->distance_m;
        const double right_m = (right != nullptr ? *right : section[i]).vertical->distance_m;
        Panel panel;
        panel.vertical_id = vertical.id;
        panel.row = section[i].row;
        panel.part = section[i].part;
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

/// What is between each vertical and the next of its part, added up.
template <class Between>
double sum_between(const std::vector<GaugedVertical>& section, Between between) {
    double sum = 0.0;
    for (std::size_t i = 1; i < section.size(); ++i)
        if (section[i - 1].part == section[i].part)
            sum += between(section[i - 1], section[i],
                           section[i].vertical->distance_m - section[i - 1].vertical->distance_m);
    return sum;
}

double mean_section_m3s(const std::vector<GaugedVertical>& section) {
    return sum_between(section, [](const GaugedVertical& a, const GaugedVertical& b, double width_m) {
        return width_m * (a.vertical->depth_m + b.vertical->depth_m) / 2.0 * (a.velocity_ms + b.velocity_ms) / 2.0;
    });
}

std::vector<PanelFacts> panel_facts(const std::vector<GaugedVertical>& section, const VelocityAreaResult& result,
                                    const VelocityAreaOptions& options) {
    std::vector<PanelFacts> facts(section.size());
    for (std::size_t i = 0; i < section.size(); ++i) {
        facts[i].total_width_m = result.width_m;
        facts[i].depth_m = result.panels[i].depth_m;
        facts[i].depth_u_m = options.depth_u_m;
        facts[i].discharge_m3s = result.panels[i].discharge_m3s;
        facts[i].velocity_area_m2 += result.panels[i].area_m2;
        facts[i].cosine = std::cos(section[i].vertical->angle_rad);
        facts[i].measured = section[i].measured ? &*section[i].measured : nullptr;
        if (section[i].wall_estimated) {
            // The wall's velocity is borrowed: an error of the neighbour's acts on the wall's panel as well.
            const std::size_t neighbour = neighbours(section, i).left != nullptr ? i - 1 : i + 1;
            facts[neighbour].velocity_area_m2 += options.wall_velocity_share * result.panels[i].area_m2;
            facts[i].wall_u_m3s =
                result.panels[i].area_m2 * std::abs(section[neighbour].velocity_ms) * kWallVelocityShare_u;
        }
    }
    return facts;
}

/// Looks over the rating of the gauging and of every other meter that was used.
Expected<Findings> check_ratings(const std::vector<Vertical>& verticals, const MeterRating& meter) {
    Expected<Findings> findings = check_rating(meter);
    std::vector<const MeterRating*> seen;
    for (const Vertical& vertical : verticals)
        for (const PointReading& point : vertical.points) {
            if (!findings)
                return findings;
            if (point.struck || !point.meter || std::ranges::count(seen, point.meter.get()) > 0)
                continue;
            seen.push_back(point.meter.get());
            const Expected<Findings> more = check_rating(*point.meter);
            if (!more)
                return more;
            findings->insert(findings->end(), more->begin(), more->end());
        }
    return findings;
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
    Expected<Findings> rating = check_ratings(verticals, options.meter);
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
    result.width_m =
        sum_between(section, [](const GaugedVertical&, const GaugedVertical&, double width_m) { return width_m; });
    result.mean_depth_m = result.area_m2 / result.width_m;
    result.mean_velocity_ms = discharge_m3s / result.area_m2;

    const std::vector<PanelFacts> facts = panel_facts(section, result, options);
    std::vector<PanelDoubt> panel_doubts;
    for (const PanelFacts& panel : facts)
        panel_doubts.push_back(panel_doubt(panel));
    share_out_variance(result.panels, panel_doubts);
    const auto measured =
        std::ranges::count_if(section, [](const GaugedVertical& at) { return at.measured.has_value(); });
    result.flow.method = FlowMethod::VelocityArea;
    result.flow.discharge = combine_velocity_area(discharge_m3s, iso748::kSystematic,
                                                  iso748::verticals(static_cast<int>(measured)), panel_doubts);
    result.by_interpolation = interpolated_variance(section, facts, discharge_m3s);
    result.improvements = gauging_improvements(facts, discharge_m3s);
    result.flow.findings = std::move(rating).value();
    for (Finding& finding : velocity_area_findings(section, result, options))
        result.flow.findings.push_back(std::move(finding));
    return result;
}

} // namespace rillmark
