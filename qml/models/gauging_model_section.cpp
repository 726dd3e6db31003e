// SPDX-License-Identifier: GPL-3.0-or-later
// The section as drawn, and how sure its flow is.
#include "gauging_model.h"

#include "units/units.h"

using namespace rillmark;

namespace {

// The limits of flow.panel_large and flow.panel_very_large.
constexpr double kGoodPanelShare = 0.05;
constexpr double kLargestPanelShare = 0.10;
constexpr double kLeastNamedShare = 0.05; // of the variance, to be named

QString symbol_of(const Unit& unit) {
    return QString::fromUtf8(unit.symbol.data(), static_cast<qsizetype>(unit.symbol.size()));
}

} // namespace

QString GaugingModel::lengthUnit() const {
    return symbol_of(entry_unit(Quantity::Length, m_settings.formatter().options().system));
}

QString GaugingModel::velocityUnit() const {
    return symbol_of(entry_unit(Quantity::Velocity, m_settings.formatter().options().system));
}

QList<QPointF> GaugingModel::bed() const {
    QList<QPointF> points;
    const Unit unit = entry_unit(Quantity::Length, m_settings.formatter().options().system);
    if (const VelocityAreaResult* result = gauging())
        for (std::size_t i = 0; i < result->panels.size(); ++i) {
            const Panel& panel = result->panels[i];
            const double across = from_si(unit, panel.distance_m);
            const bool begins = i == 0 || result->panels[i - 1].part != panel.part;
            const bool ends = i + 1 == result->panels.size() || result->panels[i + 1].part != panel.part;
            if (begins && panel.depth_m > 0.0)
                points.append({across, 0.0}); // down a wall
            points.append({across, -from_si(unit, panel.depth_m)});
            if (ends && panel.depth_m > 0.0)
                points.append({across, 0.0});
        }
    return points;
}

QList<QPointF> GaugingModel::speeds() const {
    QList<QPointF> points;
    const UnitSystem system = m_settings.formatter().options().system;
    if (const VelocityAreaResult* result = gauging())
        for (const Panel& panel : result->panels)
            points.append({from_si(entry_unit(Quantity::Length, system), panel.distance_m),
                           from_si(entry_unit(Quantity::Velocity, system), panel.velocity_ms)});
    return points;
}

QList<PanelItem> GaugingModel::panels() const {
    QList<PanelItem> items;
    const VelocityAreaResult* result = gauging();
    if (result == nullptr)
        return items;
    const Formatter formatter = m_settings.formatter();
    const Unit unit = entry_unit(Quantity::Length, formatter.options().system);
    for (std::size_t i = 0; i < result->panels.size(); ++i) {
        const Panel& panel = result->panels[i];
        const auto half_way_to = [&](std::size_t other) {
            const bool beside = other < result->panels.size() && result->panels[other].part == panel.part;
            return from_si(unit,
                           beside ? (panel.distance_m + result->panels[other].distance_m) / 2.0 : panel.distance_m);
        };
        PanelItem item;
        item.from = half_way_to(i - 1); // of the first, i - 1 is beyond every end
        item.to = half_way_to(i + 1);
        item.depth = from_si(unit, panel.depth_m);
        item.share = formatter.percent(panel.share);
        item.weight = panel.share > kLargestPanelShare ? 2 : panel.share > kGoodPanelShare ? 1 : 0;
        if (panel.depth_m > 0.0)
            items.append(item);
    }
    return items;
}

QStringList GaugingModel::comparison() const {
    const VelocityAreaResult* result = gauging();
    if (result == nullptr)
        return {};
    const Formatter formatter = m_settings.formatter();
    const Estimate by_budget = result->flow.discharge.estimate;
    const auto with_share = [&](const Estimate& flow) {
        const QString text = formatter.estimate(flow, Quantity::Discharge);
        return flow.value > 0.0 ? tr("%1 (±%2)").arg(text, formatter.percent(flow.expanded() / flow.value)) : text;
    };
    QStringList lines{tr("By mid-section: %1. By mean-section: %2.")
                          .arg(formatter.value(by_budget.value, Quantity::Discharge),
                               formatter.value(result->mean_section_m3s, Quantity::Discharge)),
                      tr("± by the ISO 748 budget: %1.").arg(with_share(by_budget))};
    lines.append(result->by_interpolation
                     ? tr("± by how well neighbours foretell each vertical (interpolated variance): %1.")
                           .arg(with_share(result->by_interpolation->estimate))
                     : tr("± by interpolated variance: from seven verticals on."));
    for (const BudgetLine& line : result->flow.discharge.budget)
        if (line.share > kLeastNamedShare)
            lines.append(tr("%1: %2 of the variance of the budget")
                             .arg(Formatter::words(line.input), formatter.percent(line.share)));
    return lines;
}

QList<FindingText> GaugingModel::improvements() const {
    QList<FindingText> texts;
    if (const VelocityAreaResult* result = gauging())
        for (const Finding& finding : result->improvements) // their order is the advice
            texts.append(m_settings.formatter().finding(finding));
    return texts;
}
