// SPDX-License-Identifier: GPL-3.0-or-later
// The money of a study.
#include "study_model.h"

#include "power/chain_model.h"

#include <algorithm>

using namespace rillmark;

namespace {

QString amount_text(double amount, const std::string& currency) {
    return QStringLiteral("%L1 %2").arg(amount, 0, 'f', 0).arg(QString::fromStdString(currency)).trimmed();
}

/// Price of a metre of a size with its trench, as typed.
std::optional<double> metre_price(const Survey& survey, const std::string& pipe_id) {
    for (const Booked<PipePriceRow>& one : survey.pipe_prices)
        if (!one.struck && one.row.pipe_id == pipe_id)
            return one.row.size_price.value_or(0.0) + one.row.trench_price.value_or(0.0);
    return {};
}

/// The pipe as it is chosen with its trench; nothing where one of its sizes has no price.
std::optional<double> price_of_pipe(const Survey& survey, const PlantPipe& pipe, const AlternativeRow& alternative) {
    const std::vector<PipeSectionRow> sections = survey.sections(alternative.id);
    std::optional<double> sum;
    for (std::size_t i = 0; i < pipe.pipes.size(); ++i) {
        const std::optional<double> metre =
            metre_price(survey, i < sections.size() ? sections[i].pipe_id : alternative.pipe_id);
        if (!metre)
            return {};
        sum = sum.value_or(0.0) + pipe.parallel * pipe.pipes[i].route.length_m.value * *metre;
    }
    return sum;
}

/// What is typed for cable and all else, and for the pipe as it is chosen, with what is not typed named.
QList<FactItem> totals_of(const Survey& survey, const AlternativeEstimate& chosen, const AlternativeRow& alternative) {
    const auto money = [&alternative](double amount) { return amount_text(amount, alternative.currency); };
    QList<FactItem> totals;
    double all = 0.0;
    bool whole = true;
    const auto add = [&](const QString& label, std::optional<double> amount) {
        all += amount.value_or(0.0);
        whole = whole && amount.has_value();
        totals.append({label, amount ? money(*amount) : StudyModel::tr("no price entered")});
    };
    add(StudyModel::tr("Pipe as chosen, with its trench"), price_of_pipe(survey, chosen.pipe, alternative));
    if (chosen.input.cable)
        add(StudyModel::tr("Cable"), alternative.cable_price
                                         ? std::optional(*alternative.cable_price * chosen.input.cable->length_m.value)
                                         : std::nullopt);
    add(StudyModel::tr("All else"), alternative.other_price);
    totals.append({whole ? StudyModel::tr("Together") : StudyModel::tr("Together, without what has no price"), money(all)});
    return totals;
}

/// What the sizes are priced for; nothing while prices, length or watts are missing.
std::optional<EconomicSite> economic_site(const AlternativeEstimate& chosen, const AlternativeRow& alternative) {
    const ChainInput& input = chosen.input;
    const ChainResult& result = chosen.result;
    const std::optional<Estimate> watts = result.house_W ? std::optional(result.house_W->estimate) : result.generator_W;
    if (!alternative.energy_price_per_J || !alternative.price_years || !chosen.pipe.length_m || !result.net_W || !watts)
        return {};
    const CheckedChain checked = check_chain(input);
    const ChainModel model(checked);
    EconomicSite site;
    site.gross_head_m = input.gross_head_m->value;
    site.length_m = chosen.pipe.length_m->value;
    for (const ChainPipe& pipe : input.pipes)
        site.minor_k += pipe.route.minor_k.value;
    site.water = model.water(input.water_temperature_C.value);
    site.density_kgm3 = result.net_W->value / (checked.gravity_ms2 * input.flow_m3s->value * result.net_head_m->value);
    site.efficiency = watts->value / result.net_W->value;
    site.energy_price_per_J = *alternative.energy_price_per_J;
    site.years = *alternative.price_years;
    site.interest = alternative.price_interest.value_or(0.0);
    return site;
}

} // namespace

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

StudyModel::Money StudyModel::price_sizes() const {
    Money priced;
    const AlternativeRow* alternative = m_project.survey().alternative();
    std::vector<PricedSize> sizes;
    for (const Booked<PipePriceRow>& one : m_project.survey().pipe_prices)
        if (const Expected<PipeSize> size = m_project.tables().pipe(one.row.pipe_id); size && !one.struck)
            sizes.push_back({size->label, size->bore_m, size->roughness_m, one.row.size_price.value_or(0.0),
                             one.row.trench_price.value_or(0.0)});
    if (alternative == nullptr)
        return priced;
    priced.totals = totals_of(m_project.survey(), chosen(), *alternative);
    const std::optional<EconomicSite> site = economic_site(chosen(), *alternative);
    if (sizes.empty() || !site)
        return priced;
    // where the season is not known: all year at the flow of the chain
    std::vector<FlowTime> times = plantYear().through_pipe;
    if (times.empty())
        times.push_back({chosen().input.flow_m3s->value, kEnergyYear_s});
    for (FlowTime& time : times)
        time.flow_m3s /= chosen().pipe.parallel;
    const Expected<EconomicDiameter> cheapest = economic_diameter(sizes, *site, times);
    if (!cheapest) {
        priced.findings.push_back(cheapest.error());
        return priced;
    }
    const auto money = [&](double amount) { return amount_text(chosen().pipe.parallel * amount, alternative->currency); };
    for (std::size_t i = 0; i < cheapest->rows.size(); ++i) {
        const PricedRow& row = cheapest->rows[i];
        priced.sizes.append({QString::fromStdString(row.size.label),
                             row.carries ? tr("built %1, energy lost %2 over the years, together %3")
                                               .arg(money(row.build_cost), money(row.loss_cost), money(row.total_cost))
                                         : tr("too small: the loss would take the whole head"),
                             i == cheapest->cheapest});
    }
    if (cheapest->at_an_end)
        priced.findings.push_back(note("power.economic_at_an_end", cheapest->rows[cheapest->cheapest].size.label));
    if (plantYear().through_pipe.empty())
        priced.findings.push_back(note("power.economic_all_year"));
    return priced;
}

const StudyModel::Money& StudyModel::priced() const {
    if (!m_money)
        m_money = price_sizes();
    return *m_money;
}

QList<PriceItem> StudyModel::money() const {
    return priced().sizes;
}

QList<FactItem> StudyModel::totals() const {
    return priced().totals;
}

QList<FindingText> StudyModel::moneyFindings() const {
    return m_settings.formatter().findings(priced().findings);
}
