// SPDX-License-Identifier: GPL-3.0-or-later
// The year of a study.
#include "study_model.h"

#include "units/units.h"

#include <QLocale>

#include <algorithm>

using namespace rillmark;

namespace {

QString symbol(const Unit& unit) {
    return QString::fromUtf8(unit.symbol.data(), static_cast<qsizetype>(unit.symbol.size()));
}

} // namespace

const PlantYear& StudyModel::plantYear() const {
    if (!m_year) {
        const SiteEstimate& site = m_project.estimate();
        m_year = site.season ? plant_year(m_project.survey(), *site.season, site.chosen, m_turbines) : PlantYear{};
    }
    return *m_year;
}

QList<FactItem> StudyModel::year() const {
    const PlantYear& plant = plantYear();
    if (!plant.year)
        return {};
    const EnergyYear& year = *plant.year;
    const Formatter f = m_settings.formatter();
    QList<FactItem> facts{{tr("Energy of a mean year"), f.estimate(year.energy_J.estimate, Quantity::Energy)},
                          {tr("Capacity factor"), f.estimate(year.capacity_factor, Quantity::Ratio)},
                          {tr("Runs for"), tr("%1 of the year").arg(f.percent(year.running))},
                          {tr("Months without power"), QString::number(year.months_without_power)}};
    if (year.year_spread_J)
        facts.append({tr("Spread from year to year (standard deviation), apart from the ±"),
                      f.value(*year.year_spread_J, Quantity::Energy)});
    if (plant.curve && plant.curve->knee) {
        const DesignPoint& knee = plant.curve->points[*plant.curve->knee];
        facts.append({tr("Knee: beyond this design flow more brings little"),
                      tr("%1, %2 a year").arg(f.value(knee.design_flow_m3s, Quantity::Discharge),
                                              f.value(knee.energy_J, Quantity::Energy))});
    }
    return facts;
}

QList<MonthItem> StudyModel::months() const {
    const auto& months = plantYear().months;
    double greatest = 0.0;
    for (const std::optional<MonthOfWatts>& month : months)
        greatest = std::max(greatest, month ? month->middle_W : 0.0);
    QList<MonthItem> items;
    if (std::ranges::none_of(months, [](const auto& month) { return month.has_value(); }))
        return items;
    const Formatter f = m_settings.formatter();
    for (std::size_t i = 0; i < months.size(); ++i) {
        MonthItem item;
        item.name = QLocale().standaloneMonthName(static_cast<int>(i) + 1, QLocale::ShortFormat);
        item.words = tr("no days in the record");
        if (const std::optional<MonthOfWatts>& month = months[i]) {
            if (greatest > 0.0) {
                item.middle = month->middle_W / greatest;
                item.low = month->low_W / greatest;
            }
            item.words = tr("%1, on dry days %2; runs %3 of the days")
                             .arg(f.value(month->middle_W, Quantity::Power), f.value(month->low_W, Quantity::Power),
                                  f.percent(month->running));
        }
        items.append(item);
    }
    return items;
}

QString StudyModel::flowUnit() const {
    return symbol(entry_unit(Quantity::Discharge, m_settings.formatter().options().system));
}

QString StudyModel::energyUnit() const {
    return symbol(entry_unit(Quantity::Energy, m_settings.formatter().options().system));
}

QList<QPointF> StudyModel::designCurve() const {
    QList<QPointF> points;
    const PlantYear& plant = plantYear();
    if (!plant.curve)
        return points;
    const UnitSystem system = m_settings.formatter().options().system;
    for (const DesignPoint& point : plant.curve->points)
        points.append({from_si(entry_unit(Quantity::Discharge, system), point.design_flow_m3s),
                       from_si(entry_unit(Quantity::Energy, system), point.energy_J)});
    return points;
}

QList<QPointF> StudyModel::knee() const {
    const PlantYear& plant = plantYear();
    if (!plant.curve || !plant.curve->knee)
        return {};
    return {designCurve()[static_cast<qsizetype>(*plant.curve->knee)]};
}

QList<BudgetBar> StudyModel::energyBars() const {
    const PlantYear& plant = plantYear();
    return plant.year ? budget_bars(plant.year->energy_J, Quantity::Energy, m_settings.formatter()) : QList<BudgetBar>{};
}

QString StudyModel::energyAdvice() const {
    const PlantYear& plant = plantYear();
    return plant.year ? repeat_advice(plant.year->energy_J, Quantity::Energy, m_settings.formatter()) : QString{};
}

QList<FindingText> StudyModel::yearFindings() const {
    return m_settings.formatter().findings(plantYear().findings);
}
