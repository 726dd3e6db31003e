// SPDX-License-Identifier: GPL-3.0-or-later
#include "readout_model.h"

using namespace rillmark;

namespace {

Quantity quantity_of(ReadoutModel::Figure figure) {
    switch (figure) {
    case ReadoutModel::Figure::Head: return Quantity::Length;
    case ReadoutModel::Figure::Flow: return Quantity::Discharge;
    case ReadoutModel::Figure::Power: return Quantity::Power;
    }
    return Quantity::Number;
}

} // namespace

ReadoutModel::ReadoutModel(OpenProject& project, SettingsModel& settings, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings) {
    connect(&m_project, &OpenProject::changed, this, &ReadoutModel::changed);
    connect(&m_settings, &SettingsModel::changed, this, &ReadoutModel::changed);
}

const Budgeted* ReadoutModel::budgeted(Figure figure) const {
    const SiteEstimate& site = m_project.estimate();
    switch (figure) {
    case Figure::Head: return site.heights.running_head ? &site.heights.running_head->head : nullptr;
    case Figure::Flow: return site.flow.usable ? &site.flow.usable->usable : nullptr;
    case Figure::Power: return site.chosen.result.house_W ? &*site.chosen.result.house_W : nullptr;
    }
    return nullptr;
}

FigureText ReadoutModel::head() const {
    const Budgeted* head = budgeted(Figure::Head);
    return head ? m_settings.formatter().figure(head->estimate, Quantity::Length) : FigureText{};
}

FigureText ReadoutModel::flow() const {
    const Budgeted* flow = budgeted(Figure::Flow);
    return flow ? m_settings.formatter().figure(flow->estimate, Quantity::Discharge) : FigureText{};
}

FigureText ReadoutModel::power() const {
    const Budgeted* power = budgeted(Figure::Power);
    return power ? m_settings.formatter().figure(power->estimate, Quantity::Power) : FigureText{};
}

QString ReadoutModel::head_statement(const RunningHead& head) const {
    const QString from = QString::fromStdString(head.from);
    const QString to = QString::fromStdString(head.to);
    if (!head.to_powerhouse)
        return tr("Fall from %1 to %2").arg(from, to);
    const AlternativeRow* alternative = m_project.survey().alternative();
    return alternative != nullptr && alternative->lower_end == "tailwater"
               ? tr("Fall from %1 to %2, the tailwater of a reaction turbine with a draft tube").arg(from, to)
               : tr("Fall from %1 to %2, the axis of an impulse wheel").arg(from, to);
}

QString ReadoutModel::flow_statement(const SiteFlow& flow) const {
    if (!flow.to_use || !flow.usable)
        return {};
    const QString from = flow.to_use->choice == FlowChoice::Season
                             ? tr("From the year's flow; days tested: %1").arg(flow.to_use->visits.size())
                             : tr("From flow tests; days tested: %1").arg(flow.to_use->visits.size());
    if (m_project.survey().site.leave_rule.empty())
        return from;
    return tr("%1. Flow to use %2, of which %3 stays in the creek.")
        .arg(from, m_settings.formatter().estimate(flow.to_use->discharge.estimate, Quantity::Discharge),
             m_settings.formatter().value(flow.usable->left_m3s, Quantity::Discharge));
}

QString ReadoutModel::statement(Figure figure) const {
    const SiteEstimate& site = m_project.estimate();
    switch (figure) {
    case Figure::Head:
        if (!site.heights.running_head)
            return {};
        return head_statement(*site.heights.running_head);
    case Figure::Flow:
        return flow_statement(site.flow);
    case Figure::Power: {
        const AlternativeRow* alternative = m_project.survey().alternative();
        return alternative ? tr("At the house, by %1").arg(QString::fromStdString(alternative->name)) : QString();
    }
    }
    return {};
}

QList<FindingText> ReadoutModel::doubts(Figure figure) const {
    const SiteEstimate& site = m_project.estimate();
    switch (figure) {
    case Figure::Head: return m_settings.formatter().findings(site.head_doubts);
    case Figure::Flow: return m_settings.formatter().findings(site.flow_doubts);
    case Figure::Power: return m_settings.formatter().findings(site.power_doubts);
    }
    return {};
}

QList<BudgetBar> ReadoutModel::bars(Figure figure) const {
    const Budgeted* result = budgeted(figure);
    return result ? budget_bars(*result, quantity_of(figure), m_settings.formatter()) : QList<BudgetBar>{};
}

QString ReadoutModel::advice(Figure figure) const {
    const Budgeted* result = budgeted(figure);
    return result ? repeat_advice(*result, quantity_of(figure), m_settings.formatter()) : QString{};
}
