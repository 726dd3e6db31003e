// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/chain_input.h"

#include "power/friction.h"
#include "power/input_checks.h"
#include "water/gravity.h"
#include "water/water.h"

#include <cmath>

namespace rillmark {

namespace {

Expected<void> check_uncertainty(const char* where, const Estimate& estimate) {
    if (!std::isfinite(estimate.standard_uncertainty))
        return refusal("uncertainty.not_finite", where);
    if (estimate.standard_uncertainty < 0.0)
        return refusal("uncertainty.negative", where);
    return {};
}

Expected<void> check_not_negative_estimate(const char* where, const Estimate& estimate, Quantity quantity) {
    return first_refusal(check_not_negative(where, estimate.value, quantity), check_uncertainty(where, estimate));
}

/// Above zero by more than its standard uncertainty, since the chain is also computed one uncertainty lower.
Expected<void> check_positive_estimate(const char* where, const Estimate& estimate, Quantity quantity) {
    if (const Expected<void> check =
            first_refusal(check_positive(where, estimate.value, quantity), check_uncertainty(where, estimate));
        !check)
        return check;
    if (estimate.standard_uncertainty >= estimate.value)
        return refusal("power.uncertainty_too_large", where,
                       {{"value", estimate.value, quantity}, {"uncertainty", estimate.expanded(), quantity}});
    return {};
}

Expected<void> check_efficiency(const char* where, const Estimate& estimate) {
    if (const Expected<void> check = check_positive_estimate(where, estimate, Quantity::Ratio); !check)
        return check;
    if (estimate.value > 1.0)
        return refusal("power.efficiency_out_of_range", where, {{"value", estimate.value, Quantity::Ratio}});
    return {};
}

Expected<void> check_pipe(const ChainPipe& pipe) {
    if (const Expected<void> check =
            first_refusal(check_positive_estimate("power.pipe_length", pipe.route.length_m, Quantity::Length),
                          check_positive_estimate("power.bore", pipe.bore_m, Quantity::Bore),
                          check_not_negative_estimate("power.roughness", pipe.roughness_m, Quantity::Bore),
                          check_not_negative_estimate("power.minor_k", pipe.route.minor_k, Quantity::Number),
                          pipe.pressure_rating_Pa
                              ? check_positive("power.pressure_rating", *pipe.pressure_rating_Pa, Quantity::Pressure)
                              : Expected<void>());
        !check)
        return check;
    // Any flow will do: it is the wall that is looked at.
    const Expected<FrictionFactor> wall = darcy_friction(kTurbulentFrom, pipe.roughness_m.value / pipe.bore_m.value);
    return wall ? Expected<void>() : Expected<void>(wall.error());
}

Expected<void> check_chain_cable(const ChainCable& cable) {
    if (const Expected<void> check = first_refusal(
            check_positive_estimate("power.cable_length", cable.length_m, Quantity::Length),
            check_not_negative_estimate("power.cable_resistance", cable.resistance_ohm_per_m, Quantity::Number));
        !check)
        return check;
    const CableRun run{.system = cable.system,
                       .length_m = cable.length_m.value,
                       .resistance_ohm_per_m = cable.resistance_ohm_per_m.value,
                       .reactance_ohm_per_m = cable.reactance_ohm_per_m,
                       .voltage_V = cable.voltage_V,
                       .voltage_at = CableEnd::Generator,
                       .power_factor = cable.power_factor};
    const Expected<CableLoss> idle = cable_from_sent(run, 0.0);
    return idle ? Expected<void>() : Expected<void>(idle.error());
}

/// Empties a link that its check refuses, and says so; or says that it is missing.
template <class Link, class Check>
void sift(std::optional<Link>& link, const Check& check, const char* missing, Findings& findings) {
    if (!link) {
        findings.push_back(warning(missing));
        return;
    }
    if (const Expected<void> checked = check(*link); !checked) {
        findings.push_back(checked.error());
        link.reset();
    }
}

/// The pipe counts as missing when one of its sections is refused: half a pipe has no loss to show.
void sift_pipes(ChainInput& input, Findings& findings) {
    if (input.pipes.empty()) {
        findings.push_back(warning("power.missing_pipe"));
        return;
    }
    if (input.parallel_pipes < 1) {
        findings.push_back(refusal("power.bad_parallel_pipes", "power.parallel_pipes",
                                   {{"count", static_cast<double>(input.parallel_pipes)}}));
        input.pipes.clear();
        return;
    }
    for (const ChainPipe& pipe : input.pipes) {
        const Expected<void> checked = check_pipe(pipe);
        if (checked)
            continue;
        Finding finding = checked.error();
        if (!pipe.label.empty())
            finding.args.push_back({"section", pipe.label});
        findings.push_back(std::move(finding));
        input.pipes.clear();
        return;
    }
}

} // namespace

CheckedChain check_chain(const ChainInput& input) {
    CheckedChain chain{.input = input, .findings = {}};
    sift(
        chain.input.gross_head_m,
        [](const Estimate& e) {
            return first_refusal(check_positive("power.gross_head", e.value, Quantity::Length),
                                 check_uncertainty("power.gross_head", e));
        },
        "power.missing_gross_head", chain.findings);
    sift(
        chain.input.flow_m3s,
        [](const Estimate& e) { return check_not_negative_estimate("power.flow", e, Quantity::Discharge); },
        "power.missing_flow", chain.findings);
    sift_pipes(chain.input, chain.findings);
    if (chain.input.intake_loss_m)
        if (const Expected<void> checked =
                check_not_negative_estimate("power.intake_loss", *chain.input.intake_loss_m, Quantity::Length);
            !checked) {
            chain.findings.push_back(checked.error());
            chain.input.intake_loss_m.reset();
        }
    sift(chain.input.cable, check_chain_cable, "power.missing_cable", chain.findings);

    const Expected<double> gravity = normal_gravity_ms2({input.latitude_deg, input.altitude_m});
    const Expected<double> density = water_density_kgm3(input.water_temperature_C.value);
    const Expected<void> temperature_uncertainty =
        check_uncertainty("power.water_temperature", input.water_temperature_C);
    const Expected<void> turbine = check_efficiency("power.turbine_efficiency", input.turbine_efficiency);
    const Expected<void> generator = check_efficiency("power.generator_efficiency", input.generator_efficiency);
    if (!gravity)
        chain.findings.push_back(gravity.error());
    if (!density)
        chain.findings.push_back(density.error());
    const Expected<void> drive =
        input.drive_efficiency ? check_efficiency("power.drive_efficiency", *input.drive_efficiency) : Expected<void>();
    for (const Expected<void>* check : {&temperature_uncertainty, &turbine, &drive, &generator})
        if (!check->ok())
            chain.findings.push_back(check->error());
    chain.gravity_ms2 = gravity.value_or(0.0);
    chain.water_known = gravity.ok() && density.ok() && temperature_uncertainty.ok();
    chain.machines_known = turbine.ok() && drive.ok() && generator.ok();
    return chain;
}

} // namespace rillmark
