// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

namespace rillmark {

/// The quantities of the trade. Inside the program each is an SI double (unit in the comment); units.h lists the
/// units in which each may be typed and the one in which each is shown per unit system.
enum class Quantity : std::uint8_t {
    Number,       // no unit
    Ratio,        // 1, shown as per cent
    Length,       // m: heights, distances, staff readings (ft)
    Bore,         // m: pipe bore, wall, roughness (mm; in)
    Area,         // m2
    Volume,       // m3 (L; US gal)
    Velocity,     // m/s
    Discharge,    // m3/s (L/s below 1 m3/s; cfs, gpm)
    Time,         // s
    Pressure,     // Pa (kPa, bar; psi)
    Power,        // W (W, kW)
    Energy,       // J (kWh)
    Slope,        // 1 (per cent)
    Angle,        // rad (degrees)
    Mass,         // kg (kg, g; lb, oz)
    Temperature,  // K difference and degrees Celsius absolute are both held in degC (degC; degF)
    Conductivity, // S/m (uS/cm)
    Voltage,      // V
    Current,      // A
    Resistance,   // ohm
    Density,      // kg/m3
    Coordinate,   // degrees of latitude or longitude
};

} // namespace rillmark
