// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/cable.h"
#include "power/tables.h"

#include <span>

namespace rillmark {

/// A conductor with what a cable of it loses.
struct SizedConductor {
    Conductor conductor;
    CableLoss loss;
};
/// What a cable of a chosen loss is asked for.
struct CableDemand {
    CableRun cable; // its resistance and reactance are not looked at
    double conductor_temperature_C = 0.0;
    double sent_W = 0.0;       // put in at the generator, > 0
    double largest_loss = 0.0; // of what is put in, above 0 and below 0.5
};

/// The thinnest of the conductors (of one material: the caller's choice) that loses no more than that. For the loss
/// alone: ampacity, protection and the voltage drop that the code allows may ask for a thicker one. Refuses a loss out
/// of its range (`power.loss_out_of_range`), nothing to send, no conductors, or none thick enough
/// (`power.no_conductor_thick_enough`), and what resistance_at_ohm_per_m and cable_from_sent refuse for every
/// conductor.
[[nodiscard]] Expected<SizedConductor> conductor_for_loss(std::span<const Conductor> conductors,
                                                          const CableDemand& demand);

} // namespace rillmark
