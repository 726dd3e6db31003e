// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/cable_size.h"

#include "power/input_checks.h"

#include <optional>

namespace rillmark {

namespace {

constexpr double kLossMax = 0.5; // beyond it more put in brings less out

Expected<CableLoss> loss_of(const Conductor& conductor, const CableDemand& demand) {
    const Expected<double> resistance = resistance_at_ohm_per_m(conductor, demand.conductor_temperature_C);
    if (!resistance)
        return resistance.error();
    CableRun cable = demand.cable;
    cable.resistance_ohm_per_m = *resistance;
    cable.reactance_ohm_per_m = conductor.reactance_ohm_per_m.value_or(0.0);
    return cable_from_sent(cable, demand.sent_W);
}

} // namespace

Expected<SizedConductor> conductor_for_loss(std::span<const Conductor> conductors, const CableDemand& demand) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.cable_loss", demand.largest_loss, Quantity::Ratio),
                          check_positive("power.cable_power", demand.sent_W, Quantity::Power));
        !check)
        return check.error();
    if (demand.largest_loss >= kLossMax)
        return refusal("power.loss_out_of_range", "power.cable_loss",
                       {{"value", demand.largest_loss, Quantity::Ratio}, {"limit", kLossMax, Quantity::Ratio}});
    std::optional<SizedConductor> thinnest;
    for (const Conductor& conductor : conductors) {
        const Expected<CableLoss> loss = loss_of(conductor, demand);
        if (!loss && loss.error().code != "power.cable_cannot_carry")
            return loss.error();
        if (loss && loss->loss_W <= demand.largest_loss * demand.sent_W &&
            (!thinnest || conductor.area_m2 < thinnest->conductor.area_m2))
            thinnest = SizedConductor{conductor, *loss};
    }
    if (!thinnest)
        return refusal("power.no_conductor_thick_enough", {},
                       {{"loss", demand.largest_loss, Quantity::Ratio},
                        {"length", demand.cable.length_m, Quantity::Length},
                        {"voltage", demand.cable.voltage_V, Quantity::Voltage}});
    return *thinnest;
}

} // namespace rillmark
