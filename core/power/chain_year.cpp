// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/chain_year.h"

#include "power/chain_model.h"

#include <memory>

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

double relative(const Estimate& estimate) {
    return estimate.value > 0.0 ? estimate.standard_uncertainty / estimate.value : 0.0;
}

} // namespace

Expected<EnergyPlant> chain_plant(const ChainInput& input, const std::optional<TurbineKind>& kind,
                                  double flow_to_leave_m3s) {
    const ChainResult chain = water_to_wire(input);
    const double watts = chain.house_W ? chain.house_W->estimate.value : chain.generator_W.value_or(Estimate{}).value;
    if (!chain.shaft_W || watts <= 0.0)
        return refusal("power.no_watts", {});
    const auto kept = std::make_shared<KeptModel>(input);
    const double gross_head_m = input.gross_head_m->value;
    EnergyPlant plant;
    plant.design_flow_m3s = input.flow_m3s->value;
    plant.flow_to_leave_m3s = flow_to_leave_m3s;
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
    plant.u_flow = relative(*input.flow_m3s);
    plant.u_head = relative(*input.gross_head_m);
    plant.u_efficiency = relative(input.turbine_efficiency);
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
