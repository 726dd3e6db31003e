// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "power/tables.h"

#include <cstdint>

namespace rillmark {

// What is never computed here: ampacity, protection, earthing, burial, connection. The local code and a licensed
// electrician decide on those.

// Working temperature of the conductor where none is entered: a buried or shaded cable; common practice, no source.
inline constexpr double kConductorTemperature_C = 40.0;

enum class Current : std::uint8_t { Direct, SinglePhase, ThreePhase };
enum class CableEnd : std::uint8_t { Generator, House };

/// A cable between generator and house.
struct CableRun {
    Current system = Current::SinglePhase;
    double length_m = 0.0;                     // one way, > 0
    double resistance_ohm_per_m = 0.0;         // one conductor at its working temperature, >= 0
    double reactance_ohm_per_m = 0.0;          // one conductor, >= 0; not used for direct current
    double voltage_V = 0.0;                    // between the two wires, or from line to line of three phases; > 0
    CableEnd voltage_at = CableEnd::Generator; // the end at which that voltage is held
    double power_factor = 1.0;                 // lagging, above 0 to 1; 1 for direct current
};

struct CableLoss {
    double current_A = 0.0;   // in each line conductor
    double drop_V = 0.0;      // between the ends, as voltage_V is counted
    double drop_ratio = 0.0;  // drop divided by the given voltage
    double loss_W = 0.0;      // heat in the conductors
    double sent_W = 0.0;      // put in at the generator
    double delivered_W = 0.0; // arriving at the house
    double house_voltage_V = 0.0;
};

/// Resistance of a conductor per metre at a working temperature (-50..150 degC; else
/// `power.conductor_temperature_out_of_range`).
/// Practice differs: alpha of copper 0.00393 and aluminium 0.00403 at 20 degC, or the one factor (230 + t)/250 of IEC
/// 60228 for both. The latter is taken; it is at most 0.4 % higher for copper at 75 degC.
[[nodiscard]] Expected<double> resistance_at_ohm_per_m(const Conductor& conductor, double temperature_C);

/// Drop and loss when `sent_W` (>= 0) go in at the generator. Drop: I (R cos + X sin), with twice the length for two
/// wires and the square root of three for three phases; loss: 2 I^2 R or 3 I^2 R. The across part of the drop, below 1
/// % of the voltage while the drop is below 10 %, and charging current are left out. Source: V. K. Mehta, R. Mehta,
/// Principles of Power System, 4th ed., 2005, chapters 10 and 13. Refuses lengths or voltages not above zero
/// (`power.not_positive`), negative values (`power.negative`), a power factor outside 0..1
/// (`power.power_factor_out_of_range`), what is not finite, and a line that cannot carry the power, that is half of it
/// or more would be lost (`power.cable_cannot_carry`).
[[nodiscard]] Expected<CableLoss> cable_from_sent(const CableRun& cable, double sent_W);

/// The same for `delivered_W` (>= 0) taken at the house. With the voltage held at the generator the current is solved
/// for (a quadratic, the smaller root); refuses `power.cable_cannot_carry` when there is none.
[[nodiscard]] Expected<CableLoss> cable_from_delivered(const CableRun& cable, double delivered_W);

} // namespace rillmark
