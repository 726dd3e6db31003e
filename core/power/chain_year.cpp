// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/chain_year.h"

#include "power/chain_budget.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <string_view>

namespace rillmark {

namespace {

constexpr double kSmallestTried = 0.2; // of the design flow
constexpr double kLargestTried = 3.0;

/// The model with the checked chain that it refers to.
struct KeptModel {
    explicit KeptModel(const ChainInput& input) : chain(check_chain(input)), model(chain) {}
    CheckedChain chain;
    ChainModel model;
};

// What turns net power into watts at the wire; all else but the flow is in the net head.
constexpr std::array<std::string_view, 5> kBehindTheHead{"power.turbine_efficiency", "power.drive_efficiency",
                                                         "power.generator_efficiency", "power.cable_length",
                                                         "power.cable_resistance"};

/// Relative standard uncertainties of net head and of all efficiencies, out of the budget of the watts.
void add_uncertainties(const ChainInput& input, double Links::*link, EnergyPlant& plant) {
    const Expected<Budgeted> watts = link_budget(input, link);
    if (!watts || watts->estimate.value <= 0.0)
        return;
    double head = 0.0;
    double efficiency = 0.0;
    for (const BudgetLine& line : watts->budget) {
        const double relative = line.contribution / watts->estimate.value;
        if (std::ranges::find(kBehindTheHead, line.input) != kBehindTheHead.end())
            efficiency = std::hypot(efficiency, relative);
        else if (line.input != "power.flow")
            head = std::hypot(head, relative);
    }
    plant.u_head = head;
    plant.u_efficiency = efficiency;
}

} // namespace

Expected<EnergyPlant> chain_plant(const ChainInput& input, const std::optional<TurbineKind>& kind) {
    const ChainResult chain = water_to_wire(input);
    const double watts = chain.house_W ? chain.house_W->estimate.value : chain.generator_W.value_or(Estimate{}).value;
    if (!chain.shaft_W || watts <= 0.0)
        return refusal("power.no_watts", {});
    const auto kept = std::make_shared<KeptModel>(input);
    const double gross_head_m = input.gross_head_m->value;
    EnergyPlant plant;
    plant.design_flow_m3s = input.flow_m3s->value;
    plant.smallest_flow = kind ? kind->smallest_flow : 0.0;
    plant.net_head_m = [kept, gross_head_m](double flow_m3s) { return gross_head_m - kept->model.loss_m(flow_m3s); };
    const double design_efficiency = input.turbine_efficiency.value;
    if (kind) {
        const double at_design = kind->efficiency_at(1.0);
        plant.turbine_efficiency = [turbine = *kind, design_efficiency, at_design](double ratio) {
            return at_design > 0.0 ? design_efficiency * turbine.efficiency_at(ratio) / at_design : 0.0;
        };
    } else {
        plant.turbine_efficiency = [design_efficiency](double) { return design_efficiency; };
    }
    plant.other_efficiency = watts / chain.shaft_W->value;
    const Links links = kept->model.at(kept->model.central());
    plant.gravity_ms2 = kept->chain.gravity_ms2;
    plant.density_kgm3 = links.gross_W / (plant.gravity_ms2 * plant.design_flow_m3s * gross_head_m);
    add_uncertainties(input, chain.house_W ? &Links::house_W : &Links::generator_W, plant);
    return plant;
}

std::vector<double> design_flows_around(double design_flow_m3s) {
    std::vector<double> flows;
    for (std::size_t i = 0; i < kDesignFlows; ++i)
        flows.push_back(design_flow_m3s * (kSmallestTried + (kLargestTried - kSmallestTried) * static_cast<double>(i) /
                                                                static_cast<double>(kDesignFlows - 1)));
    return flows;
}

} // namespace rillmark
