// SPDX-License-Identifier: GPL-3.0-or-later
// The year and the money of a study.
#include "study_model.h"

#include "power/chain_model.h"
#include "power/chain_year.h"
#include "power/economic_diameter.h"
#include "units/units.h"

#include <QLocale>

using namespace rillmark;

void StudyModel::setSeason(std::vector<DurationPoint> duration, std::vector<FlowDay> days) {
    m_duration = std::move(duration);
    m_days = std::move(days);
    renew();
}

void StudyModel::study_year() {
    m_year.reset();
    m_design.reset();
    m_year_findings.clear();
    if (!seasonKnown())
        return;
    const AlternativeRow* alternative = m_project.survey().alternative();
    std::optional<TurbineKind> kind;
    if (alternative != nullptr && !alternative->turbine_kind.empty())
        if (const Expected<TurbineKind> known = m_turbines.kind(alternative->turbine_kind))
            kind = *known;
    const Expected<EnergyPlant> plant =
        chain_plant(chosen().input, kind, m_project.survey().site.leave_m3s.value_or(0.0));
    if (!plant) {
        m_year_findings.push_back(plant.error());
        return;
    }
    const Expected<EnergyYear> year =
        m_days.empty() ? energy_of_duration(m_duration, *plant) : energy_of_days(m_days, *plant);
    if (!year) {
        m_year_findings.push_back(year.error());
        return;
    }
    m_year = *year;
    m_year_findings = year->findings;
    const std::vector<double> flows = design_flows_around(plant->design_flow_m3s);
    const Expected<DesignCurve> curve =
        m_days.empty() ? design_curve(m_duration, *plant, flows) : design_curve(m_days, *plant, flows);
    if (curve)
        m_design = *curve;
    else
        m_year_findings.push_back(curve.error());
}

QList<FactItem> StudyModel::year() const {
    if (!m_year)
        return {};
    const Formatter f = m_settings.formatter();
    QList<FactItem> facts{{tr("Energy of a mean year"), f.estimate(m_year->energy_J.estimate, Quantity::Energy)},
                          {tr("Capacity factor"), f.estimate(m_year->capacity_factor, Quantity::Ratio)},
                          {tr("Runs for"), tr("%1 of the year").arg(f.percent(m_year->running))}};
    if (m_year->year_spread_J)
        facts.append({tr("Spread from year to year, apart from the ±"), f.value(m_year->year_spread_J, Quantity::Energy)});
    for (std::size_t i = 0; i < m_year->months.size(); ++i)
        if (m_year->months[i])
            facts.append({QLocale().standaloneMonthName(static_cast<int>(i) + 1),
                          tr("%1, runs %2 of the days").arg(f.value(m_year->months[i]->energy_J, Quantity::Energy),
                                                            f.percent(m_year->months[i]->running))});
    if (m_design && m_design->knee)
        facts.append({tr("Knee: beyond this design flow more brings little"),
                      f.value(m_design->points[*m_design->knee].design_flow_m3s, Quantity::Discharge)});
    return facts;
}

QList<QPointF> StudyModel::designCurve() const {
    QList<QPointF> points;
    if (!m_design)
        return points;
    const UnitSystem system = m_settings.formatter().options().system;
    for (const DesignPoint& point : m_design->points)
        points.append({from_si(entry_unit(Quantity::Discharge, system), point.design_flow_m3s),
                       from_si(entry_unit(Quantity::Energy, system), point.energy_J)});
    return points;
}

QList<QPointF> StudyModel::knee() const {
    if (!m_design || !m_design->knee)
        return {};
    return {designCurve()[static_cast<qsizetype>(*m_design->knee)]};
}

QList<FindingText> StudyModel::yearFindings() const {
    return m_settings.formatter().findings(m_year_findings);
}

QList<Choice> StudyModel::priceable() const {
    QList<Choice> choices;
    for (const PipeSize& size : m_project.tables().pipes)
        choices.append({QString::fromStdString(size.id), QString::fromStdString(size.label)});
    return choices;
}

void StudyModel::addPrice(const QString& pipe) {
    PipePriceRow price;
    for (const Booked<PipePriceRow>& one : m_project.survey().pipe_prices)
        if (!one.struck && one.row.pipe_id == pipe.toStdString())
            price = one.row;
    price.pipe_id = pipe.toStdString();
    price.size_price = m_price.number(QStringLiteral("pipe"));
    price.trench_price = m_price.number(QStringLiteral("trench"));
    if (price.id == 0)
        m_project.book(price);
    else
        m_project.change(price);
    m_price.booked();
}

void StudyModel::study_money() {
    m_money.clear();
    m_money_findings.clear();
    const AlternativeRow* alternative = m_project.survey().alternative();
    std::vector<PricedSize> sizes;
    for (const Booked<PipePriceRow>& one : m_project.survey().pipe_prices)
        if (const Expected<PipeSize> size = m_project.tables().pipe(one.row.pipe_id); size && !one.struck)
            sizes.push_back({size->label, size->bore_m, size->roughness_m, one.row.size_price.value_or(0.0),
                             one.row.trench_price.value_or(0.0)});
    const ChainInput& input = chosen().input;
    const ChainResult& result = chosen().result;
    if (alternative == nullptr || sizes.empty() || !alternative->energy_price_per_J || !alternative->price_years ||
        !chosen().pipe.length_m || !input.gross_head_m || !input.flow_m3s || !result.net_W || !watts_of(result))
        return;
    const CheckedChain checked = check_chain(input);
    const ChainModel model(checked);
    EconomicSite site;
    site.gross_head_m = input.gross_head_m->value;
    site.length_m = chosen().pipe.length_m->value;
    for (const ChainPipe& pipe : input.pipes)
        site.minor_k += pipe.route.minor_k.value;
    site.water = model.water(input.water_temperature_C.value);
    site.density_kgm3 = result.net_W->value / (checked.gravity_ms2 * input.flow_m3s->value * result.net_head_m->value);
    site.efficiency = watts_of(result)->value / result.net_W->value;
    site.energy_price_per_J = *alternative->energy_price_per_J;
    site.years = *alternative->price_years;
    site.interest = alternative->price_interest.value_or(0.0);
    // all year at the flow of the chain, shared by the part of the year that the plant runs where the season is known
    const FlowTime times[] = {{input.flow_m3s->value, (m_year ? m_year->running : 1.0) * kEnergyYear_s}};
    const Expected<EconomicDiameter> cheapest = economic_diameter(sizes, site, times);
    if (!cheapest) {
        m_money_findings.push_back(cheapest.error());
        return;
    }
    const QString currency = QString::fromStdString(alternative->currency);
    const auto money = [&currency](double amount) {
        return QStringLiteral("%L1 %2").arg(amount, 0, 'f', 0).arg(currency).trimmed();
    };
    for (std::size_t i = 0; i < cheapest->rows.size(); ++i) {
        const PricedRow& row = cheapest->rows[i];
        m_money.append({QString::fromStdString(row.size.label),
                        row.carries ? tr("built %1, energy lost %2 over the years, together %3")
                                          .arg(money(row.build_cost), money(row.loss_cost), money(row.total_cost))
                                    : tr("too small: the loss would take the whole head"),
                        i == cheapest->cheapest});
    }
}

QList<PriceItem> StudyModel::money() const {
    return m_money;
}

QList<FindingText> StudyModel::moneyFindings() const {
    return m_settings.formatter().findings(m_money_findings);
}
