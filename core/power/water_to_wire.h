// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "power/cable.h"
#include "power/tables.h"
#include "uncertainty/estimate.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace rillmark {

// Where nobody knows better. Small sets reach 0.5 to 0.7 from water to wire (common practice, no source).
// Turbine: +/- 0.10 at k = 2; common practice, no source.
inline constexpr Estimate kDefaultTurbineEfficiency{0.70, 0.05};
// Generator and drive below 100 kW: +/- 0.05 at k = 2, from the range 0.80..0.90 (a maker's data sheet, LEXE0167-00).
inline constexpr Estimate kDefaultGeneratorEfficiency{0.85, 0.025};
// A mountain creek, +/- 8 degC at k = 2; common practice, no source. Measure it: it changes the friction, not the
// power.
inline constexpr Estimate kDefaultWaterTemperature_C{10.0, 4.0};

/// How far the pipe goes and what stands in it, whatever its size.
struct PipeRoute {
    Estimate length_m; // true slope length
    Estimate minor_k;  // sum of loss coefficients, see minor_losses.h
};

/// Pipe of one size along its part of the route.
struct ChainPipe {
    PipeRoute route;
    Estimate bore_m;
    Estimate roughness_m;
    std::optional<double> pressure_rating_Pa; // where known, the standing water is held against it
    std::string label;                        // its size: pipes of one label share the errors of bore and roughness
};

struct ChainCable {
    Current system = Current::SinglePhase;
    Estimate length_m;             // one way
    Estimate resistance_ohm_per_m; // one conductor at its working temperature, see resistance_at_ohm_per_m
    double reactance_ohm_per_m = 0.0;
    double voltage_V = 0.0; // held at the generator
    double power_factor = 1.0;
};

/// What the estimate stands on. A link that has not been chosen or measured is left empty.
struct ChainInput {
    std::optional<Estimate> gross_head_m; // intake water level to nozzle or tailwater
    std::optional<Estimate> flow_m3s;     // what goes through the turbine
    Estimate water_temperature_C = kDefaultWaterTemperature_C;
    double latitude_deg = 45.0;
    double altitude_m = 0.0;
    std::optional<Estimate> intake_loss_m; // of rack, screen and the like at that flow; empty: none
    std::vector<ChainPipe> pipes;          // in series from the intake down; empty: not chosen
    int parallel_pipes = 1;                // such strings side by side, each with its share of the flow
    Estimate turbine_efficiency = kDefaultTurbineEfficiency;
    std::optional<Estimate> drive_efficiency;                    // empty: within the generator's
    Estimate generator_efficiency = kDefaultGeneratorEfficiency; // with the drive where that is empty
    std::optional<ChainCable> cable;
};

/// The most that a pipe can bring to the turbine, and what that would cost in water.
struct GreatestPower {
    double flow_m3s = 0.0;
    double loss_m = 0.0;
    double net_W = 0.0;  // water power at the turbine
    double more_W = 0.0; // of which it has that much more than at the flow of the chain
    double more_flow_m3s = 0.0;
};

/// The links from water to wire, as far as they can be known; a missing one is empty.
struct ChainResult {
    std::optional<Estimate> gross_head_m;
    std::optional<Estimate> flow_m3s;
    std::optional<Estimate> pipe_speed_ms; // in the narrowest section
    std::optional<Estimate> intake_loss_m;
    std::optional<Estimate> friction_loss_m;
    std::optional<Estimate> minor_loss_m;
    std::optional<Estimate> net_head_m; // may be zero or less: then there is no power and a finding says so
    std::optional<Estimate> gross_W;    // water power of the gross head
    std::optional<Estimate> net_W;      // water power at the turbine
    std::optional<Estimate> shaft_W;
    std::optional<Estimate> drive_W; // behind the drive, where it is a link of its own
    std::optional<Estimate> generator_W;
    std::optional<Estimate> cable_loss_W;
    std::optional<Estimate> cable_drop_V;
    std::optional<Budgeted> house_W;         // with what made its uncertainty
    std::optional<double> pipe_capacity_m3s; // the flow that would use up the whole gross head
    std::optional<GreatestPower> greatest;
    std::optional<double> static_pressure_Pa; // standing water at the lower end
    Findings findings;                        // refused inputs, missing links, limits passed
};

/// The estimate from water to wire: P = rho g Q (H - losses) x efficiencies - cable loss, every link with its
/// uncertainty.
///
/// Uncertainty is propagated to first order through the whole chain as one model (JCGM 100:2008, 5.1.2), so that the
/// flow counts once, in the water power, in the pipe's loss and in the cable's. Budget inputs: `power.gross_head`,
/// `power.flow`, `power.water_temperature`, `power.pipe_length`, `power.bore`, `power.roughness`,
/// `power.friction_formula`, `power.minor_k`, `power.turbine_efficiency`, `power.drive_efficiency`,
/// `power.generator_efficiency`, `power.intake_loss`, `power.cable_length`, `power.cable_resistance`; bore and
/// roughness once for each label of pipe (the subject), see chain_model.h. It says nothing about the season: one day's
/// flow is one day's flow.
///
/// Never fails: an input out of its range is refused in `findings` and its link counts as missing; a missing link is
/// named there (`power.missing_gross_head`, `_flow`, `_pipe`, `_cable`) and what does not depend on it is still given.
/// Each warning names its limit; see the constants below and platform/words/power_words.cpp for their sources.
[[nodiscard]] ChainResult water_to_wire(const ChainInput& input);

// Limits of the warnings and notes. All: common practice, no source, where nothing else is said.
inline constexpr double kPipeSpeedHigh_ms = 3.0; // surge grows with speed
inline constexpr double kLossHigh = 0.15;        // of the gross head; usual designs lose 5 to 15 %
inline constexpr double kStaticShareHigh =
    0.7;                                       // of the pipe's rating: the rest is for surge, which is not computed yet
inline constexpr double kCableDropHigh = 0.05; // of the voltage; NEC (NFPA 70) informational notes: 5 % in all

inline constexpr double kWaterToWireUsualMin = 0.5; // of the water power at the turbine, for small sets
inline constexpr double kWaterToWireUsualMax = 0.7;

/// One line of the table over pipe sizes.
struct SizeRow {
    PipeSize size;
    ChainResult result;
};

/// The same site with each pipe size in turn along `route`, in the order of `sizes`; `site.pipes` is not looked at.
[[nodiscard]] std::vector<SizeRow> over_pipe_sizes(const ChainInput& site, const PipeRoute& route,
                                                   std::span<const PipeSize> sizes);

/// That size of pipe along a route.
[[nodiscard]] ChainPipe chain_pipe(const PipeSize& size, const PipeRoute& route);

} // namespace rillmark
