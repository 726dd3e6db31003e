// SPDX-License-Identifier: GPL-3.0-or-later
// What stands behind the links: their budgets, the conductor for a loss, the pipe by another formula and with age.
#include "power_model.h"

#include "power/chain_budget.h"
#include "power/pipe_ageing.h"

#include <algorithm>
#include <array>

using namespace rillmark;

namespace {

constexpr double kUsualLoss = 0.1; // of the gross head: within the 5 to 15 % of usual designs; common practice, no source
constexpr std::array kAges_years{10.0, 20.0, 30.0};

/// The link of that key, and in what its figure is counted.
struct KeyedLink {
    const char* key;
    double Links::*link;
    Quantity quantity;
};
constexpr KeyedLink kLinks[] = {
    {"intake", &Links::intake_m, Quantity::Length},     {"pipe", &Links::friction_m, Quantity::Length},
    {"net-head", &Links::net_head_m, Quantity::Length}, {"turbine", &Links::shaft_W, Quantity::Power},
    {"drive", &Links::drive_W, Quantity::Power},        {"generator", &Links::generator_W, Quantity::Power},
    {"cable", &Links::cable_loss_W, Quantity::Power},   {"house", &Links::house_W, Quantity::Power},
};

Quantity quantity_of(const QString& key) {
    const auto hit = std::ranges::find_if(kLinks, [&](const KeyedLink& one) { return key == QLatin1String(one.key); });
    if (hit != std::end(kLinks))
        return hit->quantity;
    return key == QLatin1String("head") ? Quantity::Length : Quantity::Discharge;
}

/// The friction of all sections by Hazen and Williams, as if new; nothing where a wall's material is not known.
std::optional<double> hazen_williams_m(const AlternativeEstimate& chosen) {
    const PlantPipe& plant = chosen.pipe;
    if (!chosen.input.flow_m3s || plant.sections.empty())
        return {};
    double sum_m = 0.0;
    for (std::size_t i = 0; i < plant.sections.size(); ++i) {
        const Expected<WallAgeing> wall = wall_ageing(plant.sections[i].material.id);
        if (!wall)
            return {};
        const ChainPipe& pipe = plant.pipes[i];
        const Expected<double> loss =
            hazen_williams_loss_m({pipe.route.length_m.value, pipe.bore_m.value, wall->hazen_williams_c},
                                  chosen.input.flow_m3s->value / plant.parallel);
        if (!loss)
            return {};
        sum_m += *loss;
    }
    return sum_m;
}

/// The bore of a single size of pipe that would lose the usual part of the gross head.
std::optional<double> usual_bore_m(const AlternativeEstimate& chosen) {
    const ChainInput& input = chosen.input;
    if (input.pipes.empty() || !input.flow_m3s || !input.gross_head_m)
        return {};
    PipeRun run{0.0, input.pipes.front().bore_m.value, input.pipes.front().roughness_m.value, 0.0};
    for (const ChainPipe& pipe : input.pipes) {
        run.length_m += pipe.route.length_m.value;
        run.minor_k += pipe.route.minor_k.value;
    }
    const CheckedChain checked = check_chain(input);
    const PipeWater water = ChainModel(checked).water(input.water_temperature_C.value);
    const Expected<double> bore =
        bore_for_loss_m(run, water, input.flow_m3s->value / input.parallel_pipes, kUsualLoss * input.gross_head_m->value);
    return bore ? std::optional(*bore) : std::nullopt;
}

} // namespace

std::optional<Budgeted> PowerModel::budget(const QString& link) const {
    const SiteEstimate& site = m_project.estimate();
    if (link == QLatin1String("head") && site.heights.running_head && !row().intake_id)
        return site.heights.running_head->head;
    if (link == QLatin1String("flow") && site.flow.usable && !row().design_flow_m3s)
        return site.flow.usable->usable;
    const auto hit = std::ranges::find_if(kLinks, [&](const KeyedLink& one) { return link == QLatin1String(one.key); });
    const bool no_drive = link == QLatin1String("drive") && !site.chosen.input.drive_efficiency;
    if (hit == std::end(kLinks) || no_drive)
        return {};
    const Expected<Budgeted> known = link_budget(site.chosen.input, hit->link);
    return known ? std::optional(*known) : std::nullopt;
}

QList<BudgetBar> PowerModel::bars(const QString& link) const {
    const std::optional<Budgeted> known = budget(link);
    return known ? budget_bars(*known, quantity_of(link), m_settings.formatter()) : QList<BudgetBar>{};
}

QString PowerModel::advice(const QString& link) const {
    const std::optional<Budgeted> known = budget(link);
    return known ? repeat_advice(*known, quantity_of(link), m_settings.formatter()) : QString{};
}

std::optional<Expected<SizedConductor>> PowerModel::sized() const {
    const std::optional<double> loss = m_loss.number(QStringLiteral("loss"));
    const AlternativeEstimate& chosen = m_project.estimate().chosen;
    if (!loss || !chosen.input.cable || !chosen.result.generator_W)
        return {};
    const ChainCable& cable = *chosen.input.cable;
    CableDemand demand;
    demand.cable.system = cable.system;
    demand.cable.length_m = cable.length_m.value;
    demand.cable.voltage_V = cable.voltage_V;
    demand.cable.power_factor = cable.power_factor;
    demand.conductor_temperature_C = row().conductor_temperature_C.value_or(kConductorTemperature_C);
    demand.sent_W = chosen.result.generator_W->value;
    demand.largest_loss = *loss;
    // of the metal, and of the list of sizes, of the conductor in hand
    std::vector<Conductor> alike;
    const Expected<Conductor> in_hand = m_project.tables().conductor(row().cable_id);
    for (const Conductor& one : m_project.tables().conductors)
        if (in_hand && one.material == in_hand->material && one.resistance_temperature_C == in_hand->resistance_temperature_C)
            alike.push_back(one);
    return conductor_for_loss(alike, demand);
}

QString PowerModel::cableSize() const {
    const std::optional<Expected<SizedConductor>> found = sized();
    if (!found)
        return m_loss.number(QStringLiteral("loss")) ? tr("Choose a conductor, length and voltage first: any size of the metal that you want.")
                                                     : QString();
    const Formatter f = m_settings.formatter();
    if (!found->ok())
        return f.finding(found->error()).sentence;
    const CableLoss& loss = (*found)->loss;
    return tr("%1 loses %2 (%3), drop %4.")
        .arg(QString::fromStdString((*found)->conductor.label), f.percent(loss.loss_W / loss.sent_W),
             f.value(loss.loss_W, Quantity::Power), f.value(loss.drop_V, Quantity::Voltage));
}

bool PowerModel::cableSizeKnown() const {
    const std::optional<Expected<SizedConductor>> found = sized();
    return found && found->ok();
}

void PowerModel::takeCableSize() {
    const std::optional<Expected<SizedConductor>> found = sized();
    if (found && found->ok())
        setConductor(QString::fromStdString((*found)->conductor.id));
}

QList<FactItem> PowerModel::pipeFacts() const {
    const AlternativeEstimate& chosen = m_project.estimate().chosen;
    const std::optional<Estimate>& friction = chosen.result.friction_loss_m;
    QList<FactItem> facts;
    if (!friction)
        return facts;
    const Formatter f = m_settings.formatter();
    facts.append({tr("Friction by Darcy, Weisbach, Colebrook and White: the one that counts"),
                  f.estimate(*friction, Quantity::Length)});
    if (const std::optional<double> beside = hazen_williams_m(chosen))
        facts.append({tr("Friction by Hazen and Williams, new pipe, for comparison"), f.value(*beside, Quantity::Length)});
    if (chosen.result.pipe_capacity_m3s)
        facts.append({tr("The head pushes at most"), f.value(*chosen.result.pipe_capacity_m3s, Quantity::Discharge)});
    if (const std::optional<double> bore = usual_bore_m(chosen))
        facts.append({tr("Bore that loses %1 of the head at this flow").arg(f.percent(kUsualLoss)), f.value(*bore, Quantity::Bore)});
    std::vector<std::string> materials;
    for (const PipeSection& section : chosen.pipe.sections)
        materials.emplace_back(section.material.id);
    const Expected<std::vector<AgedChain>> ages = over_ages(chosen.input, materials, kAges_years);
    if (!ages)
        return facts;
    for (const AgedChain& age : *ages) {
        const std::optional<Estimate> watts =
            age.result.house_W ? std::optional(age.result.house_W->estimate) : age.result.generator_W;
        if (age.result.friction_loss_m && watts)
            facts.append({tr("After %1 years").arg(age.years),
                          tr("friction %1, %2").arg(f.value(age.result.friction_loss_m->value, Quantity::Length),
                                                    f.value(watts->value, Quantity::Power))});
    }
    return facts;
}
