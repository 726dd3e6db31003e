// SPDX-License-Identifier: GPL-3.0-or-later
// The part of FlowModel that is about the flow to leave in the creek and the staff gauge.
#include "flow_model.h"

using namespace rillmark;

QList<Choice> FlowModel::leaveRules() const {
    return {{QString(), tr("Nothing")},
            {QStringLiteral("fixed"), tr("A fixed flow")},
            {QStringLiteral("share-of-flow"), tr("A share")},
            {QStringLiteral("share-of-q95"), tr("A share of Q95")},
            {QStringLiteral("monthly"), tr("A monthly table")}};
}

QString FlowModel::leaveRule() const {
    return QString::fromStdString(m_project.survey().site.leave_rule);
}

void FlowModel::setLeaveRule(const QString& rule) {
    if (rule == leaveRule())
        return;
    SiteRow site = m_project.survey().site;
    site.leave_rule = rule.toStdString();
    m_project.change(site);
}

EntryForm* FlowModel::leaveForm() {
    const std::string& rule = m_project.survey().site.leave_rule;
    if (rule == "fixed")
        return &m_leave_flow;
    if (rule == "share-of-flow")
        return &m_leave_share;
    if (rule == "share-of-q95")
        return &m_leave_q95;
    return rule == "monthly" ? &m_leave_months : nullptr;
}

QString FlowModel::leaveText() const {
    const std::optional<UsableFlow>& usable = m_project.estimate().flow.usable;
    if (leaveRule().isEmpty() || !usable)
        return {};
    const Formatter formatter = m_settings.formatter();
    return tr("%1 stays in the creek, %2 may be taken.")
        .arg(formatter.value(usable->left_m3s, Quantity::Discharge), formatter.estimate(usable->usable.estimate, Quantity::Discharge));
}

QList<FindingText> FlowModel::leaveFindings() const {
    const std::optional<UsableFlow>& usable = m_project.estimate().flow.usable;
    return usable ? m_settings.formatter().findings(usable->findings) : QList<FindingText>();
}

void FlowModel::keepLeave() {
    EntryForm* form = leaveForm();
    if (form == nullptr || !form->complete())
        return;
    SiteRow site = m_project.survey().site;
    if (form == &m_leave_months)
        for (std::size_t month = 0; month < leave_columns().size(); ++month)
            site.*leave_columns()[month] = form->number(QString::number(month + 1));
    else
        (form == &m_leave_flow    ? site.leave_m3s
         : form == &m_leave_share ? site.leave_share
                                  : site.leave_q95_share) = form->number(QString::fromLatin1(kLeave));
    m_project.change(site);
    if (form != &m_leave_months) // a table stays in sight
        form->booked();
}

void FlowModel::show_leave_months() {
    const SiteRow& site = m_project.survey().site;
    const QString key = QStringLiteral("flow/leave-site");
    if (m_resume.text(key) == key_text(site.id))
        return;
    m_resume.setText(key, key_text(site.id));
    for (std::size_t month = 0; month < leave_columns().size(); ++month)
        m_leave_months.setTypedByKey(QString::number(month + 1),
                                     m_settings.formatter().value(site.*leave_columns()[month], Quantity::Discharge));
}

QString FlowModel::stageText() const {
    return row() && row()->stage_m ? tr("Staff gauge: %1").arg(m_settings.formatter().value(*row()->stage_m, Quantity::Length)) : QString();
}

void FlowModel::keepStage() {
    if (row() == nullptr || !m_stage.complete())
        return;
    FlowTestRow test = *row();
    test.stage_m = m_stage.number(QString::fromLatin1(kStage));
    m_project.change(test);
    m_stage.booked();
}
