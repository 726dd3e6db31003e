// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/chain_model.h"

#include "power/friction.h"
#include "power/pipe_flow.h"
#include "water/water.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

enum Input : std::size_t {
    GrossHead,
    Flow,
    WaterTemperature,
    PipeLength, // deviation of all lengths, in their standard uncertainties
    FrictionFormula,
    MinorK, // likewise of all coefficients
    TurbineEfficiency,
    GeneratorEfficiency,
    CableLength,
    CableResistance,
    AlwaysThere, // the count of those above
};

/// One deviation that moves several values together, each by its own uncertainty.
Estimate shared_deviation(const std::vector<ChainPipe>& pipes, Estimate PipeRoute::*of) {
    const bool uncertain =
        std::ranges::any_of(pipes, [of](const ChainPipe& pipe) { return (pipe.route.*of).standard_uncertainty > 0.0; });
    return {0.0, uncertain ? 1.0 : 0.0};
}

double moved(const Estimate& estimate, double deviation) {
    return estimate.value + deviation * estimate.standard_uncertainty;
}

CableRun cable_run(const ChainCable& cable, double length_m, double resistance_ohm_per_m) {
    return {.system = cable.system,
            .length_m = length_m,
            .resistance_ohm_per_m = std::max(resistance_ohm_per_m, 0.0),
            .reactance_ohm_per_m = cable.reactance_ohm_per_m,
            .voltage_V = cable.voltage_V,
            .voltage_at = CableEnd::Generator,
            .power_factor = cable.power_factor};
}

double in_range_C(double temperature_C) {
    return std::clamp(temperature_C, kWaterTemperatureMin_C, kWaterTemperatureMax_C);
}

} // namespace

ChainModel::ChainModel(const CheckedChain& chain) : m_chain(chain) {
    const ChainInput& input = chain.input;
    const ChainCable cable = input.cable.value_or(ChainCable{});
    m_inputs = {{"power.gross_head", {}, input.gross_head_m.value_or(Estimate{})},
                {"power.flow", {}, input.flow_m3s.value_or(Estimate{})},
                {"power.water_temperature", {}, input.water_temperature_C},
                {"power.pipe_length", {}, shared_deviation(input.pipes, &PipeRoute::length_m)},
                {"power.friction_formula", {}, {1.0, kFrictionFormulaUncertainty}},
                {"power.minor_k", {}, shared_deviation(input.pipes, &PipeRoute::minor_k)},
                {"power.turbine_efficiency", {}, input.turbine_efficiency},
                {"power.generator_efficiency", {}, input.generator_efficiency},
                {"power.cable_length", {}, cable.length_m},
                {"power.cable_resistance", {}, cable.resistance_ohm_per_m}};
    add_pipe_inputs();
    if (input.drive_efficiency)
        m_inputs.push_back({"power.drive_efficiency", {}, *input.drive_efficiency});
    if (input.intake_loss_m)
        m_inputs.push_back({"power.intake_loss", {}, *input.intake_loss_m});
    for (const ModelInput& one : m_inputs)
        m_central.push_back(one.estimate.value);
    if (!input.flow_m3s || !chain.water_known)
        return;
    const double temperature_C = in_range_C(m_central[WaterTemperature]);
    for (std::size_t i = 0; i < input.pipes.size(); ++i) {
        const Conditions at = conditions(i, m_central, temperature_C);
        m_known.push_back({at, gradient(at)});
    }
}

void ChainModel::add_pipe_inputs() {
    const std::vector<ChainPipe>& pipes = m_chain.input.pipes;
    for (std::size_t i = 0; i < pipes.size(); ++i) {
        const auto same =
            std::find_if(pipes.begin(), pipes.begin() + static_cast<std::ptrdiff_t>(i), [&](const ChainPipe& other) {
                return other.label == pipes[i].label && other.bore_m.value == pipes[i].bore_m.value &&
                       other.roughness_m.value == pipes[i].roughness_m.value;
            });
        const auto first = static_cast<std::size_t>(same - pipes.begin());
        if (first < i) {
            m_bore_of.push_back(m_bore_of[first]);
            continue;
        }
        m_bore_of.push_back(m_inputs.size());
        m_inputs.push_back({"power.bore", pipes[i].label, pipes[i].bore_m});
        m_inputs.push_back({"power.roughness", pipes[i].label, pipes[i].roughness_m});
    }
}

PipeWater ChainModel::water(double temperature_C) const {
    return {water_kinematic_viscosity_m2s(in_range_C(temperature_C)).value_or(Links::kNotComputed),
            m_chain.gravity_ms2};
}

ChainModel::Conditions ChainModel::conditions(std::size_t section, std::span<const double> x,
                                              double temperature_C) const {
    const double bore_m = x[m_bore_of[section]];
    // Clamped, since one uncertainty below a small roughness may lie below zero.
    const double roughness_m =
        std::clamp(x[m_bore_of[section] + 1], 0.0, std::max(kRelativeRoughnessMax * bore_m, 0.0));
    return {bore_m, roughness_m, std::abs(x[Flow]) / m_chain.input.parallel_pipes, temperature_C};
}

ChainModel::Gradient ChainModel::gradient(const Conditions& at) const {
    const Expected<PipeLoss> loss =
        pipe_loss({1.0, at.bore_m, at.roughness_m, 1.0}, water(at.temperature_C), at.flow_m3s);
    if (!loss)
        return {};
    return {loss->friction_m, loss->minor_m, loss->speed_ms};
}

std::vector<PipeRun> ChainModel::sections(std::span<const double> x) const {
    std::vector<PipeRun> runs;
    for (std::size_t i = 0; i < m_chain.input.pipes.size(); ++i) {
        const PipeRoute& route = m_chain.input.pipes[i].route;
        const Conditions at = conditions(i, x, x[WaterTemperature]);
        runs.push_back({moved(route.length_m, x[PipeLength]), at.bore_m, at.roughness_m,
                        std::max(moved(route.minor_k, x[MinorK]), 0.0)});
    }
    return runs;
}

void ChainModel::add_pipe_losses(std::span<const double> x, double temperature_C, Links& links) const {
    const double direction = x[Flow] < 0.0 ? -1.0 : 1.0;
    links.friction_m = 0.0;
    links.minor_m = 0.0;
    links.speed_ms = 0.0;
    for (std::size_t i = 0; i < m_chain.input.pipes.size(); ++i) {
        const PipeRoute& route = m_chain.input.pipes[i].route;
        const Conditions at = conditions(i, x, temperature_C);
        const Gradient here = at == m_known[i].at ? m_known[i].gradient : gradient(at);
        links.friction_m += direction * x[FrictionFormula] * here.friction * moved(route.length_m, x[PipeLength]);
        links.minor_m += direction * here.velocity_head_m * std::max(moved(route.minor_k, x[MinorK]), 0.0);
        if (std::abs(here.speed_ms) > std::abs(links.speed_ms) || std::isnan(here.speed_ms))
            links.speed_ms = direction * here.speed_ms;
    }
}

/// A rack or entrance loses with the square of the flow; the loss is given at the central flow.
double ChainModel::intake_loss_m(std::span<const double> x) const {
    if (!m_chain.input.intake_loss_m || m_central[Flow] <= 0.0)
        return 0.0;
    const double ratio = x[Flow] / m_central[Flow];
    return x.back() * ratio * std::abs(ratio);
}

Links ChainModel::at(std::span<const double> x) const {
    const ChainInput& input = m_chain.input;
    Links links;
    const double temperature_C = in_range_C(x[WaterTemperature]);
    const double weight_Nm3 = water_density_kgm3(temperature_C).value_or(Links::kNotComputed) * m_chain.gravity_ms2;
    links.gross_W = weight_Nm3 * x[Flow] * x[GrossHead];
    if (m_known.empty())
        return links;
    add_pipe_losses(x, temperature_C, links);
    links.intake_m = intake_loss_m(x);
    links.net_head_m = x[GrossHead] - links.intake_m - links.friction_m - links.minor_m;
    links.net_W = weight_Nm3 * x[Flow] * links.net_head_m;
    links.shaft_W = links.net_W * x[TurbineEfficiency];
    links.drive_W = links.shaft_W;
    if (input.drive_efficiency) // the last input, or the one before the intake's loss
        links.drive_W *= x[x.size() - (input.intake_loss_m ? 2 : 1)];
    links.generator_W = links.drive_W * x[GeneratorEfficiency];
    if (!input.cable)
        return links;
    const Expected<CableLoss> cable =
        cable_from_sent(cable_run(*input.cable, x[CableLength], x[CableResistance]), std::abs(links.generator_W));
    if (!cable)
        return links;
    links.cable_loss_W = cable->loss_W;
    links.cable_drop_V = cable->drop_V;
    links.house_W = links.generator_W - cable->loss_W;
    return links;
}

double ChainModel::loss_m(double flow_m3s) const {
    std::vector<double> x = m_central;
    x[Flow] = flow_m3s;
    const Links links = at(x);
    return links.intake_m + links.friction_m + links.minor_m;
}

} // namespace rillmark
