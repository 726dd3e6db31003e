// SPDX-License-Identifier: GPL-3.0-or-later
// The part of FlowModel that is about the flow to leave in the creek.
#include "flow_model.h"

using namespace rillmark;

QList<Choice> FlowModel::leaveRules() const {
    return {{QString(), tr("Nothing")}, {QStringLiteral("fixed"), tr("A fixed flow")}, {QStringLiteral("share-of-flow"), tr("A share")}};
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
    if (leaveRule().isEmpty())
        return nullptr;
    return leaveRule() == QLatin1String("fixed") ? &m_leave_flow : &m_leave_share;
}

QString FlowModel::leaveText() const {
    const SiteRow& site = m_project.survey().site;
    const Formatter formatter = m_settings.formatter();
    if (site.leave_rule == "fixed" && site.leave_m3s)
        return tr("%1 stays in the creek.").arg(formatter.value(*site.leave_m3s, Quantity::Discharge));
    if (site.leave_rule == "share-of-flow" && site.leave_share)
        return tr("%1 of the flow stays in the creek.").arg(formatter.percent(*site.leave_share));
    return {};
}

void FlowModel::keepLeave() {
    EntryForm* form = leaveForm();
    if (form == nullptr || !form->complete())
        return;
    SiteRow site = m_project.survey().site;
    (form == &m_leave_flow ? site.leave_m3s : site.leave_share) = form->number(QString::fromLatin1(kLeave));
    m_project.change(site);
    form->booked();
}
