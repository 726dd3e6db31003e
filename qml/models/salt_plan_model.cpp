// SPDX-License-Identifier: GPL-3.0-or-later
#include "salt_plan_model.h"

using namespace rillmark;

namespace {

const QString kWidth = QStringLiteral("width");
const QString kDepth = QStringLiteral("depth");
const QString kVelocity = QStringLiteral("velocity");
const QString kSlope = QStringLiteral("slope");
const QString kFlow = QStringLiteral("flow");
const QString kBackground = QStringLiteral("background");
const QString kRise = QStringLiteral("rise");
const QString kBank = QStringLiteral("bank");
const QString kPouring = QStringLiteral("draft/salt-plan/pouring");

std::vector<EntryForm::Field> plan_fields() {
    const auto tr = [](const char* text) { return SaltPlanModel::tr(text); };
    return {{kWidth, tr("Width of the water"), Quantity::Length},
            {kDepth, tr("Mean depth, about"), Quantity::Length},
            {kVelocity, tr("Speed of the water, about"), Quantity::Velocity},
            {kSlope, tr("Slope of the water, about"), Quantity::Slope, false},
            {kFlow, tr("Flow, if you have a guess"), Quantity::Discharge, false},
            {kBackground, tr("Background conductivity"), Quantity::Conductivity, false},
            {kRise, tr("Rise that the probe should see"), Quantity::Conductivity, false}};
}

} // namespace

SaltPlanModel::SaltPlanModel(SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_settings(settings), m_resume(resume),
      m_form(QStringLiteral("salt-plan"), plan_fields(), settings, resume) {
    connect(&m_form, &EntryForm::judged, this, &SaltPlanModel::changed);
    connect(&m_settings, &SettingsModel::changed, this, &SaltPlanModel::changed);
}

QList<Choice> SaltPlanModel::pourings() const {
    return {{QString(), tr("in the middle")}, {kBank, tr("at a bank")}};
}

QString SaltPlanModel::pouring() const {
    return m_resume.text(kPouring);
}

void SaltPlanModel::setPouring(const QString& id) {
    m_resume.setText(kPouring, id);
    emit changed();
}

Expected<SaltPlan> SaltPlanModel::plan() const {
    SaltPlanInput input;
    input.width_m = m_form.number(kWidth).value_or(0.0);
    input.depth_m = m_form.number(kDepth).value_or(0.0);
    input.velocity_ms = m_form.number(kVelocity).value_or(0.0);
    input.slope = m_form.number(kSlope);
    input.flow_m3s = m_form.number(kFlow);
    input.background_Sm = m_form.number(kBackground);
    input.rise_Sm = m_form.number(kRise);
    input.from_the_bank = pouring() == kBank;
    input.steady = m_steady;
    return salt_plan(input);
}

QStringList SaltPlanModel::slug_advice(const SaltPlan& plan) const {
    const Formatter show = m_settings.formatter();
    const auto mass = [&show](double kg) { return show.value(kg, Quantity::Mass); };
    return {tr("Salt for a rise of %1 at the probe: %2, if the wave takes about %3 to go by. Weigh it to 1 %.")
                .arg(show.value(plan.rise_Sm, Quantity::Conductivity), mass(*plan.dose.for_rise_kg),
                     show.value(plan.cloud_s, Quantity::Time, 0)),
            tr("Rule of thumb for %1 (from memory, unconfirmed): %2 where it mixes well, mostly %3, up to %4 on a long "
               "reach.")
                .arg(show.value(plan.flow_m3s, Quantity::Discharge), mass(plan.dose.least_kg), mass(plan.dose.usual_kg),
                     mass(plan.dose.long_reach_kg))};
}

QStringList SaltPlanModel::advice() const {
    if (!m_form.complete())
        return {};
    const Expected<SaltPlan> plan = this->plan();
    if (!plan)
        return {};
    const Formatter show = m_settings.formatter();
    QStringList lines{tr("Read at least %1 below the place where it goes in: 25 widths.")
                          .arg(show.value(kGoodMixing_widths * *m_form.number(kWidth), Quantity::Length, 0))};
    if (plan->mixing_m)
        lines.append(
            tr("The mixing formula asks for %1 (Fischer 1979, from memory, unconfirmed); take the longer of the two.")
                .arg(show.value(*plan->mixing_m, Quantity::Length, 0)));
    if (m_steady)
        lines.append(tr("Salt for a plateau %1 above the background: %2 a minute, dissolved; inject for several times "
                        "the time that the "
                        "water takes to the probe, about %3.")
                         .arg(show.value(plan->rise_Sm, Quantity::Conductivity),
                              show.value(60.0 * plan->salt_kgs, Quantity::Mass),
                              show.value(plan->cloud_s, Quantity::Time, 0)));
    else
        lines.append(slug_advice(*plan));
    lines.append(tr("At the probe that is %1 of chloride; nearer to where the salt goes in it is more.")
                     .arg(show.value(plan->chloride_kgm3, Quantity::Density)));
    return lines;
}

QStringList SaltPlanModel::limits() const {
    QStringList lines;
    for (const ChlorideLimit& limit : chloride_limits())
        if (limit.short_term != m_steady)
            lines.append(tr("%1: %2").arg(Formatter::words(std::string(limit.name_code)),
                                          m_settings.formatter().value(limit.chloride_kgm3, Quantity::Density)));
    return lines;
}

QList<FindingText> SaltPlanModel::findings() const {
    if (!m_form.complete())
        return {};
    const Expected<SaltPlan> plan = this->plan();
    return m_settings.formatter().findings(plan ? plan->findings : Findings{plan.error()});
}
