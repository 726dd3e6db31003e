// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/energy.h"
#include "power/turbine_tables.h"
#include "power/water_to_wire.h"

#include <optional>
#include <vector>

namespace rillmark {

/// The chain of an alternative as the energy of a year takes it: losses and efficiency at every flow. The turbine's
/// efficiency is that of the chain at the design flow and falls with the flow as the kind's curve does (unconfirmed
/// until the maker's is there; see part_flow.csv); without a kind it is held at all flows. Drive, generator and cable
/// count as at the design flow: a stated simplification, the cable loses less at part load. The relative uncertainties
/// of head and efficiency are those of the chain's budget at the design flow; that of the flow is left at zero, since a
/// year has its own, and so is the flow to leave. Refuses a chain that gives no watts (`power.no_watts`).
[[nodiscard]] Expected<EnergyPlant> chain_plant(const ChainInput& input, const std::optional<TurbineKind>& kind);

/// Design flows to try around one: from a fifth of it to three times, evenly; our choice.
[[nodiscard]] std::vector<double> design_flows_around(double design_flow_m3s);
inline constexpr std::size_t kDesignFlows = 25;

} // namespace rillmark
