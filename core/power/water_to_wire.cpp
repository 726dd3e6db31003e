// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/water_to_wire.h"

#include "power/chain_model.h"
#include "power/pipe_flow.h"
#include "uncertainty/propagate.h"
#include "water/water.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

/// Fills one link after the other until one cannot be computed.
class Filler {
public:
    Filler(const ChainModel& model, ChainResult& result) : m_model(model), m_result(result) {}

    std::optional<Budgeted> budgeted(double Links::*link) {
        const Expected<Budgeted> value =
            propagate(m_model.inputs(), [&](std::span<const double> x) { return m_model.at(x).*link; });
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
    const ChainModel& m_model;
    ChainResult& m_result;
    bool m_failed = false;
};

/// Standing water at the lower end, against the class of the pipe there; where a lighter class above it must end, see
/// pressure_profile.
void look_at_static_pressure(const CheckedChain& chain, ChainResult& result) {
    const Expected<double> density_kgm3 = water_density_kgm3(chain.input.water_temperature_C.value);
    if (!density_kgm3)
        return;
    const double pressure_Pa = *density_kgm3 * chain.gravity_ms2 * chain.input.gross_head_m->value;
    result.static_pressure_Pa = pressure_Pa;
    if (chain.input.pipes.empty() || !chain.input.pipes.back().pressure_rating_Pa)
        return;
    const double rating_Pa = *chain.input.pipes.back().pressure_rating_Pa;
    const std::vector<Arg> args{{"pressure", pressure_Pa, Quantity::Pressure},
                                {"rating", rating_Pa, Quantity::Pressure},
                                {"share", pressure_Pa / rating_Pa, Quantity::Ratio},
                                {"limit", kStaticShareHigh, Quantity::Ratio}};
    if (pressure_Pa > rating_Pa)
        result.findings.push_back(warning("power.static_over_rating", "power.pressure_rating", args));
    else if (pressure_Pa > kStaticShareHigh * rating_Pa)
        result.findings.push_back(warning("power.little_room_for_surge", "power.pressure_rating", args));
}

void look_at_flow_in_pipe(const CheckedChain& chain, const ChainModel& model, const Links& links, ChainResult& result) {
    if (links.speed_ms > kPipeSpeedHigh_ms)
        result.findings.push_back(
            warning("power.pipe_speed_high", "power.bore",
                    {{"speed", links.speed_ms, Quantity::Velocity}, {"limit", kPipeSpeedHigh_ms, Quantity::Velocity}}));
    const PipeWater water = model.water(chain.input.water_temperature_C.value);
    const double each_m3s = chain.input.flow_m3s->value / chain.input.parallel_pipes;
    bool laminar = false;
    bool transition = false;
    for (const PipeRun& run : model.sections(model.central())) {
        const Expected<PipeLoss> loss = pipe_loss(run, water, each_m3s);
        if (!loss)
            return;
        if (loss->factor.regime == Regime::Laminar && !laminar)
            result.findings.push_back(note("power.laminar_flow", "power.flow", {{"reynolds", loss->reynolds}}));
        if (loss->factor.regime == Regime::Transition && !transition)
            result.findings.push_back(warning("power.transition_flow", "power.flow", {{"reynolds", loss->reynolds}}));
        laminar = laminar || loss->factor.regime == Regime::Laminar;
        transition = transition || loss->factor.regime == Regime::Transition;
    }
}

/// What the pipe could bring at most, against the chain's own flow.
std::optional<GreatestPower> greatest_power(const ChainModel& model, const Links& links, double flow_m3s,
                                            double gross_head_m, double best_m3s) {
    if (flow_m3s <= 0.0)
        return {};
    const double weight_Nm3 = links.gross_W / (flow_m3s * gross_head_m);
    const double loss_m = model.loss_m(best_m3s);
    const double net_W = weight_Nm3 * best_m3s * (gross_head_m - loss_m);
    if (!std::isfinite(net_W))
        return {};
    return GreatestPower{best_m3s, loss_m, net_W, net_W - links.net_W, best_m3s - flow_m3s};
}

void look_at_loss(const CheckedChain& chain, const ChainModel& model, const Links& links, ChainResult& result) {
    const double gross_head_m = chain.input.gross_head_m->value;
    const double flow_m3s = chain.input.flow_m3s->value;
    const PipeWater water = model.water(chain.input.water_temperature_C.value);
    const std::vector<PipeRun> series = model.sections(model.central());
    const Expected<double> each = discharge_for_loss_m3s(series, water, gross_head_m);
    if (!each) {
        result.findings.push_back(each.error());
        return;
    }
    result.pipe_capacity_m3s = chain.input.parallel_pipes * *each;
    const Expected<double> best = greatest_power_discharge_m3s(series, water, gross_head_m);
    if (best)
        result.greatest = greatest_power(model, links, flow_m3s, gross_head_m, chain.input.parallel_pipes * *best);
    const double loss_m = gross_head_m - links.net_head_m;
    const double share = loss_m / gross_head_m;
    if (share <= kLossHigh)
        return;
    std::vector<Arg> args{
        {"loss", loss_m, Quantity::Length},      {"gross_head", gross_head_m, Quantity::Length},
        {"share", share, Quantity::Ratio},       {"limit", kLossHigh, Quantity::Ratio},
        {"flow", flow_m3s, Quantity::Discharge}, {"capacity", *result.pipe_capacity_m3s, Quantity::Discharge}};
    if (best)
        args.push_back({"best_flow", chain.input.parallel_pipes * *best, Quantity::Discharge});
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

void fill_power(const CheckedChain& chain, const Links& links, Filler& filler, ChainResult& result) {
    result.net_W = filler.estimate(&Links::net_W);
    if (!chain.machines_known)
        return;
    result.shaft_W = filler.estimate(&Links::shaft_W);
    if (chain.input.drive_efficiency)
        result.drive_W = filler.estimate(&Links::drive_W);
    result.generator_W = filler.estimate(&Links::generator_W);
    if (!chain.input.cable)
        return;
    if (!std::isfinite(links.house_W)) {
        // The cable itself was checked: it is the power that is too much for it.
        result.findings.push_back(refusal("power.cable_cannot_carry", "power.cable_power",
                                          {{"power", links.generator_W, Quantity::Power},
                                           {"voltage", chain.input.cable->voltage_V, Quantity::Voltage}}));
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

    const ChainModel model(chain);
    Filler filler(model, result);
    if (result.gross_head_m)
        look_at_static_pressure(chain, result);
    if (!result.flow_m3s)
        return result;
    const Links links = model.at(model.central());
    if (result.gross_head_m)
        result.gross_W = filler.estimate(&Links::gross_W);
    if (chain.input.pipes.empty())
        return result;
    result.pipe_speed_ms = filler.estimate(&Links::speed_ms);
    result.friction_loss_m = filler.estimate(&Links::friction_m);
    result.minor_loss_m = filler.estimate(&Links::minor_m);
    if (chain.input.intake_loss_m)
        result.intake_loss_m = filler.estimate(&Links::intake_m);
    look_at_flow_in_pipe(chain, model, links, result);
    if (!result.gross_head_m)
        return result;
    result.net_head_m = filler.estimate(&Links::net_head_m);
    if (!result.net_head_m)
        return result;
    look_at_loss(chain, model, links, result);
    if (links.net_head_m > 0.0)
        fill_power(chain, links, filler, result);
    return result;
}

ChainPipe chain_pipe(const PipeSize& size, const PipeRoute& route) {
    return {route, size.bore(), size.roughness(), size.pressure_rating_Pa, size.label};
}

std::vector<SizeRow> over_pipe_sizes(const ChainInput& site, const PipeRoute& route, std::span<const PipeSize> sizes) {
    std::vector<SizeRow> rows;
    rows.reserve(sizes.size());
    ChainInput with_size = site;
    for (const PipeSize& size : sizes) {
        with_size.pipes = {chain_pipe(size, route)};
        rows.push_back({size, water_to_wire(with_size)});
    }
    return rows;
}

} // namespace rillmark
