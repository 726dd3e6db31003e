// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/water_to_wire.h"

#include "power/chain_input.h"
#include "power/pipe_flow.h"
#include "uncertainty/propagate.h"
#include "water/water.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rillmark {

namespace {

enum Input : std::size_t {
    GrossHead,
    Flow,
    WaterTemperature,
    PipeLength,
    Bore,
    Roughness,
    FrictionFormula,
    MinorK,
    TurbineEfficiency,
    GeneratorEfficiency,
    CableLength,
    CableResistance,
};

constexpr double kNotComputed = std::numeric_limits<double>::quiet_NaN();

/// The links as plain numbers; what lacks an input stays not-a-number and is never asked for.
struct Links {
    double speed_ms = kNotComputed;
    double friction_m = kNotComputed;
    double minor_m = kNotComputed;
    double net_head_m = kNotComputed;
    double gross_W = kNotComputed;
    double net_W = kNotComputed;
    double shaft_W = kNotComputed;
    double generator_W = kNotComputed;
    double cable_loss_W = kNotComputed;
    double cable_drop_V = kNotComputed;
    double house_W = kNotComputed;
};

PipeRun pipe_run(std::span<const double> x) {
    // Clamped, since one uncertainty below a small roughness or coefficient may lie below zero.
    return {x[PipeLength], x[Bore], std::clamp(x[Roughness], 0.0, kRelativeRoughnessMax * x[Bore]),
            std::max(x[MinorK], 0.0)};
}

PipeWater pipe_water(double gravity_ms2, double temperature_C) {
    return {water_kinematic_viscosity_m2s(temperature_C).value_or(kNotComputed), gravity_ms2};
}

CableRun cable_run(const ChainCable& cable, std::span<const double> x) {
    return {.system = cable.system,
            .length_m = x[CableLength],
            .resistance_ohm_per_m = std::max(x[CableResistance], 0.0),
            .reactance_ohm_per_m = cable.reactance_ohm_per_m,
            .voltage_V = cable.voltage_V,
            .voltage_at = CableEnd::Generator,
            .power_factor = cable.power_factor};
}

/// The whole chain for one set of inputs. It is also asked for inputs one uncertainty away, so losses change sign with
/// the flow and watts may come out below zero; whether a link is to be shown is decided from the central values.
Links evaluate(const CheckedChain& chain, std::span<const double> x) {
    Links links;
    const double temperature_C = std::clamp(x[WaterTemperature], kWaterTemperatureMin_C, kWaterTemperatureMax_C);
    const double weight_Nm3 = water_density_kgm3(temperature_C).value_or(kNotComputed) * chain.gravity_ms2;
    links.gross_W = weight_Nm3 * x[Flow] * x[GrossHead];
    if (!chain.input.pipe)
        return links;
    const Expected<PipeLoss> loss =
        pipe_loss(pipe_run(x), pipe_water(chain.gravity_ms2, temperature_C), std::abs(x[Flow]));
    if (!loss)
        return links;
    const double direction = x[Flow] < 0.0 ? -1.0 : 1.0;
    links.speed_ms = direction * loss->speed_ms;
    links.friction_m = direction * x[FrictionFormula] * loss->friction_m;
    links.minor_m = direction * loss->minor_m;
    links.net_head_m = x[GrossHead] - links.friction_m - links.minor_m;
    links.net_W = weight_Nm3 * x[Flow] * links.net_head_m;
    links.shaft_W = links.net_W * x[TurbineEfficiency];
    links.generator_W = links.shaft_W * x[GeneratorEfficiency];
    if (!chain.input.cable)
        return links;
    const Expected<CableLoss> cable = cable_from_sent(cable_run(*chain.input.cable, x), std::abs(links.generator_W));
    if (!cable)
        return links;
    links.cable_loss_W = cable->loss_W;
    links.cable_drop_V = cable->drop_V;
    links.house_W = links.generator_W - cable->loss_W;
    return links;
}

std::vector<ModelInput> model_inputs(const ChainInput& input) {
    const ChainPipe pipe = input.pipe.value_or(ChainPipe{});
    const ChainCable cable = input.cable.value_or(ChainCable{});
    return {{"power.gross_head", {}, input.gross_head_m.value_or(Estimate{})},
            {"power.flow", {}, input.flow_m3s.value_or(Estimate{})},
            {"power.water_temperature", {}, input.water_temperature_C},
            {"power.pipe_length", {}, pipe.route.length_m},
            {"power.bore", {}, pipe.bore_m},
            {"power.roughness", {}, pipe.roughness_m},
            {"power.friction_formula", {}, {1.0, kFrictionFormulaUncertainty}},
            {"power.minor_k", {}, pipe.route.minor_k},
            {"power.turbine_efficiency", {}, input.turbine_efficiency},
            {"power.generator_efficiency", {}, input.generator_efficiency},
            {"power.cable_length", {}, cable.length_m},
            {"power.cable_resistance", {}, cable.resistance_ohm_per_m}};
}

/// Fills one link after the other until one cannot be computed.
class Filler {
public:
    Filler(const CheckedChain& chain, ChainResult& result)
        : m_chain(chain), m_inputs(model_inputs(chain.input)), m_result(result) {
        for (const ModelInput& input : m_inputs)
            m_values.push_back(input.estimate.value);
    }

    [[nodiscard]] Links central() const { return evaluate(m_chain, m_values); }
    [[nodiscard]] std::span<const double> values() const { return m_values; }

    std::optional<Budgeted> budgeted(double Links::*link) {
        const Expected<Budgeted> value =
            propagate(m_inputs, [&](std::span<const double> x) { return evaluate(m_chain, x).*link; });
        // The variance of absurdly large inputs overflows.
        if (value && std::isfinite(value->estimate.standard_uncertainty))
            return *value;
        if (!m_failed)
            m_result.findings.push_back(value ? refusal("uncertainty.not_finite") : value.error());
        m_failed = true;
        return std::nullopt;
    }

    std::optional<Estimate> estimate(double Links::*link) {
        const std::optional<Budgeted> value = budgeted(link);
        return value ? std::optional(value->estimate) : std::nullopt;
    }

private:
    const CheckedChain& m_chain;
    std::vector<ModelInput> m_inputs;
    std::vector<double> m_values;
    ChainResult& m_result;
    bool m_failed = false;
};

void look_at_static_pressure(const CheckedChain& chain, ChainResult& result) {
    const double density_kgm3 = water_density_kgm3(chain.input.water_temperature_C.value).value_or(kNotComputed);
    const double pressure_Pa = density_kgm3 * chain.gravity_ms2 * chain.input.gross_head_m->value;
    result.static_pressure_Pa = pressure_Pa;
    if (!chain.input.pipe || !chain.input.pipe->pressure_rating_Pa)
        return;
    const double rating_Pa = *chain.input.pipe->pressure_rating_Pa;
    const std::vector<Arg> args{{"pressure", pressure_Pa, Quantity::Pressure},
                                {"rating", rating_Pa, Quantity::Pressure},
                                {"share", pressure_Pa / rating_Pa, Quantity::Ratio},
                                {"limit", kStaticShareHigh, Quantity::Ratio}};
    if (pressure_Pa > rating_Pa)
        result.findings.push_back(warning("power.static_over_rating", "power.pressure_rating", args));
    else if (pressure_Pa > kStaticShareHigh * rating_Pa)
        result.findings.push_back(warning("power.little_room_for_surge", "power.pressure_rating", args));
}

void look_at_flow_in_pipe(const CheckedChain& chain, const Links& links, std::span<const double> x,
                          ChainResult& result) {
    if (links.speed_ms > kPipeSpeedHigh_ms)
        result.findings.push_back(
            warning("power.pipe_speed_high", "power.bore",
                    {{"speed", links.speed_ms, Quantity::Velocity}, {"limit", kPipeSpeedHigh_ms, Quantity::Velocity}}));
    const Expected<PipeLoss> loss = pipe_loss(pipe_run(x), pipe_water(chain.gravity_ms2, x[WaterTemperature]), x[Flow]);
    if (!loss)
        return;
    if (loss->factor.regime == Regime::Laminar)
        result.findings.push_back(note("power.laminar_flow", "power.flow", {{"reynolds", loss->reynolds}}));
    if (loss->factor.regime == Regime::Transition)
        result.findings.push_back(warning("power.transition_flow", "power.flow", {{"reynolds", loss->reynolds}}));
}

void look_at_loss(const CheckedChain& chain, const Links& links, std::span<const double> x, ChainResult& result) {
    const double gross_head_m = chain.input.gross_head_m->value;
    const PipeWater water = pipe_water(chain.gravity_ms2, x[WaterTemperature]);
    const Expected<double> capacity = discharge_for_loss_m3s(pipe_run(x), water, gross_head_m);
    if (!capacity) {
        result.findings.push_back(capacity.error());
        return;
    }
    result.pipe_capacity_m3s = *capacity;
    const double loss_m = gross_head_m - links.net_head_m;
    const double share = loss_m / gross_head_m;
    if (share <= kLossHigh)
        return;
    std::vector<Arg> args{{"loss", loss_m, Quantity::Length},     {"gross_head", gross_head_m, Quantity::Length},
                          {"share", share, Quantity::Ratio},      {"limit", kLossHigh, Quantity::Ratio},
                          {"flow", x[Flow], Quantity::Discharge}, {"capacity", *capacity, Quantity::Discharge}};
    const Expected<double> best = greatest_power_discharge_m3s(pipe_run(x), water, gross_head_m);
    if (best)
        args.push_back({"best_flow", *best, Quantity::Discharge});
    const char* code = share >= 1.0                   ? "power.no_net_head"
                       : share > kLossAtGreatestPower ? "power.beyond_greatest_power"
                                                      : "power.loss_high";
    result.findings.push_back(warning(code, "power.flow", args));
}

void look_at_cable(const ChainCable& cable, const Links& links, ChainResult& result) {
    const double share = links.cable_drop_V / cable.voltage_V;
    if (share > kCableDropHigh)
        result.findings.push_back(warning("power.cable_drop_high", "power.cable_length",
                                          {{"drop", links.cable_drop_V, Quantity::Voltage},
                                           {"share", share, Quantity::Ratio},
                                           {"limit", kCableDropHigh, Quantity::Ratio}}));
    const double overall = links.house_W / links.net_W;
    if (links.net_W > 0.0 && (overall < kWaterToWireUsualMin || overall > kWaterToWireUsualMax))
        result.findings.push_back(note("power.water_to_wire_unusual", "power.turbine_efficiency",
                                       {{"overall", overall, Quantity::Ratio},
                                        {"lowest", kWaterToWireUsualMin, Quantity::Ratio},
                                        {"highest", kWaterToWireUsualMax, Quantity::Ratio}}));
}

void fill_power(const CheckedChain& chain, Filler& filler, ChainResult& result) {
    const Links links = filler.central();
    result.net_W = filler.estimate(&Links::net_W);
    if (!chain.machines_known)
        return;
    result.shaft_W = filler.estimate(&Links::shaft_W);
    result.generator_W = filler.estimate(&Links::generator_W);
    if (!chain.input.cable)
        return;
    if (!std::isfinite(links.house_W)) {
        // The cable itself was checked: it is the power that is too much for it.
        const Expected<CableLoss> cable =
            cable_from_sent(cable_run(*chain.input.cable, filler.values()), links.generator_W);
        if (!cable)
            result.findings.push_back(cable.error());
        return;
    }
    result.cable_loss_W = filler.estimate(&Links::cable_loss_W);
    result.cable_drop_V = filler.estimate(&Links::cable_drop_V);
    result.house_W = filler.budgeted(&Links::house_W);
    look_at_cable(*chain.input.cable, links, result);
}

} // namespace

ChainResult water_to_wire(const ChainInput& input) {
    const CheckedChain chain = check_chain(input);
    ChainResult result;
    result.findings = chain.findings;
    result.gross_head_m = chain.input.gross_head_m;
    result.flow_m3s = chain.input.flow_m3s;
    if (!chain.water_known)
        return result;

    Filler filler(chain, result);
    const Links links = filler.central();
    if (result.gross_head_m)
        look_at_static_pressure(chain, result);
    if (!result.flow_m3s)
        return result;
    if (result.gross_head_m)
        result.gross_W = filler.estimate(&Links::gross_W);
    if (!chain.input.pipe)
        return result;
    result.pipe_speed_ms = filler.estimate(&Links::speed_ms);
    result.friction_loss_m = filler.estimate(&Links::friction_m);
    result.minor_loss_m = filler.estimate(&Links::minor_m);
    look_at_flow_in_pipe(chain, links, filler.values(), result);
    if (!result.gross_head_m)
        return result;
    result.net_head_m = filler.estimate(&Links::net_head_m);
    if (!result.net_head_m)
        return result;
    look_at_loss(chain, links, filler.values(), result);
    if (links.net_head_m > 0.0)
        fill_power(chain, filler, result);
    return result;
}

ChainPipe chain_pipe(const PipeSize& size, const PipeRoute& route) {
    return {route, size.bore(), size.roughness(), size.pressure_rating_Pa};
}

std::vector<SizeRow> over_pipe_sizes(const ChainInput& site, const PipeRoute& route, std::span<const PipeSize> sizes) {
    std::vector<SizeRow> rows;
    rows.reserve(sizes.size());
    ChainInput with_size = site;
    for (const PipeSize& size : sizes) {
        with_size.pipe = chain_pipe(size, route);
        rows.push_back({size, water_to_wire(with_size)});
    }
    return rows;
}

} // namespace rillmark
