// SPDX-License-Identifier: GPL-3.0-or-later
#include "pressure_model.h"

#include "units/units.h"

using namespace rillmark;

PressureModel::PressureModel(OpenProject& project, SettingsModel& settings, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings) {
    connect(&m_project, &OpenProject::changed, this, &PressureModel::compute);
    connect(&m_settings, &SettingsModel::changed, this, &PressureModel::changed);
    compute();
}

void PressureModel::compute() {
    m_profile.reset();
    m_findings.clear();
    const AlternativeEstimate& chosen = m_project.estimate().chosen;
    const AlternativeRow* alternative = m_project.survey().alternative();
    const Expected<PressureInput> input =
        plant_pressure_input(m_project.survey(), m_project.estimate().heights, chosen.pipe, chosen.input,
                             alternative ? *alternative : AlternativeRow{});
    if (!input) {
        m_findings.push_back(input.error());
        emit changed();
        return;
    }
    m_intake_m = input->intake_level_m;
    Expected<PressureProfile> profile = pressure_profile(*input);
    if (profile) {
        m_findings = profile->findings;
        m_profile = std::move(profile).value();
        const PressurePoint& end = m_profile->points.back(); // lies below the intake, else the profile is refused
        m_weight_Pa_per_m = end.static_Pa / (m_intake_m - end.point.level_m);
    } else {
        m_findings.push_back(profile.error());
    }
    emit changed();
}

template <class Level>
QList<QPointF> PressureModel::line(const Level& level) const {
    QList<QPointF> points;
    if (!m_profile)
        return points;
    const Unit unit = entry_unit(Quantity::Length, m_settings.formatter().options().system);
    for (const PressurePoint& point : m_profile->points)
        points.append({from_si(unit, point.point.chainage_m), from_si(unit, level(point) - m_intake_m)});
    return points;
}

QList<QPointF> PressureModel::pipe() const {
    return line([](const PressurePoint& p) { return p.point.level_m; });
}

QList<QPointF> PressureModel::standing() const {
    return line([this](const PressurePoint&) { return m_intake_m; });
}

QList<QPointF> PressureModel::gradeLine() const {
    return line([](const PressurePoint& p) { return p.hydraulic_grade_m; });
}

QList<QPointF> PressureModel::highest() const {
    return line([this](const PressurePoint& p) { return p.point.level_m + p.highest_Pa / m_weight_Pa_per_m; });
}

QList<QPointF> PressureModel::lowest() const {
    return line([this](const PressurePoint& p) { return p.point.level_m + p.lowest_Pa / m_weight_Pa_per_m; });
}

QString PressureModel::lengthUnit() const {
    const std::string_view symbol = entry_unit(Quantity::Length, m_settings.formatter().options().system).symbol;
    return QString::fromUtf8(symbol.data(), static_cast<qsizetype>(symbol.size()));
}

QList<FactItem> PressureModel::facts() const {
    if (!m_profile)
        return {};
    const Formatter f = m_settings.formatter();
    const PressurePoint& end = m_profile->points.back();
    QList<FactItem> facts{
        {tr("Standing water at the lower end"), f.value(end.static_Pa, Quantity::Pressure)},
        {tr("Flowing water there"), f.value(end.flowing_Pa, Quantity::Pressure)},
        {tr("Surge at the valve"), f.estimate(m_profile->surge_Pa.estimate, Quantity::Pressure)},
        {tr("Surge of a sudden stop"), f.value(m_profile->sudden_stop_Pa, Quantity::Pressure)},
        {tr("Wave there and back"), f.value(m_profile->reflection_s, Quantity::Time)},
        {tr("Thrust on the shut valve"), tr("%1 kN").arg(m_profile->end_thrust_N / 1000.0, 0, 'f', 1)}};
    if (m_profile->closing_needed_s)
        facts.append({tr("Close no faster than"), f.value(m_profile->closing_needed_s, Quantity::Time)});
    for (const GradeSpot& spot : m_profile->grade.spots)
        facts.append({spot.kind == SpotKind::High ? tr("High spot, traps air") : tr("Low spot, traps silt"),
                      tr("at %1").arg(f.value(m_profile->points[spot.point].point.chainage_m, Quantity::Length))});
    for (const PipeBend& bend : m_profile->bends)
        facts.append({tr("Thrust block at %1")
                          .arg(f.value(m_profile->points[bend.point].point.chainage_m, Quantity::Length)),
                      bend.block_area_m2 ? tr("%1 kN, %2").arg(bend.thrust_N / 1000.0, 0, 'f', 1)
                                               .arg(f.value(bend.block_area_m2, Quantity::Area))
                                         : tr("%1 kN").arg(bend.thrust_N / 1000.0, 0, 'f', 1)});
    return facts;
}

QList<FactItem> PressureModel::sections() const {
    QList<FactItem> items;
    if (!m_profile)
        return items;
    const Formatter f = m_settings.formatter();
    const std::vector<ChainPipe>& pipes = m_project.estimate().chosen.pipe.pipes;
    for (std::size_t i = 0; i < m_profile->sections.size(); ++i) {
        const SectionPressure& one = m_profile->sections[i];
        QString says = tr("%1 to %2: up to %3")
                           .arg(f.value(one.from_m, Quantity::Length), f.value(one.to_m, Quantity::Length),
                                f.value(one.highest_Pa, Quantity::Pressure));
        if (one.holds_Pa)
            says += tr(", holds %1").arg(f.value(one.holds_Pa, Quantity::Pressure));
        if (one.passed_from_m)
            says += tr("; must end at %1").arg(f.value(one.passed_from_m, Quantity::Length));
        items.append({i < pipes.size() ? QString::fromStdString(pipes[i].label) : QString(), says});
    }
    return items;
}

QList<FindingText> PressureModel::findings() const {
    return m_settings.formatter().findings(m_findings);
}
