// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "uncertainty/estimate.h"

#include <span>
#include <string_view>

namespace rillmark {

// What a pipe wall holds, from inside and from outside. The maker's own figures come first; a pressure pipe is chosen
// with its maker and by the local code.

/// What a pipe is made of.
struct PipeMaterial {
    std::string_view id;       // as in PipeSize::material: "pvc", "pe100", "steel", "ductile-iron", "grp"
    Estimate modulus_Pa;       // short-term, for surge and for a short vacuum
    double lasting_modulus_Pa; // for a vacuum that lasts
    double poisson;
    double collapse_factor; // safety factor held against collapse
    std::string_view source;
    std::string_view provenance; // "seen", "computed" or "memory"
};

[[nodiscard]] std::span<const PipeMaterial> pipe_materials();
/// Refuses an unknown one with `power.unknown_material` (argument `id`).
[[nodiscard]] Expected<PipeMaterial> pipe_material(std::string_view id);

/// Refuses a Poisson ratio outside 0..0.5 with `power.poisson_out_of_range`.
[[nodiscard]] Expected<void> check_poisson(double poisson);

/// Hydrostatic design stress of PVC 12454 at 73 degF, 2000 psi (ASTM D2241).
[[nodiscard]] double pvc_design_stress_Pa();
// PE100: minimum required strength 10 MPa at 20 degC and 50 years, design coefficient 1.25 (ISO 4427-1).
inline constexpr double kPe100DesignStress_Pa = 10e6 / 1.25;

/// Pressure rating of a plastic pipe, 2 S / (SDR - 1), Pa, at the temperature of the design stress S (> 0); SDR is the
/// outside diameter over the smallest wall (> 2, else `power.dimension_ratio_too_small`). Source: ISO 4427 and ASTM
/// D2241. Standards round it to preferred numbers: SDR 32.5 is sold as 125 psi, PE100 SDR 26 as PN 6. It has no
/// allowance for surge; AWWA C900 classes from before 2007 had one.
[[nodiscard]] Expected<double> rating_Pa(double design_stress_Pa, double sdr);

/// The part of the rating that is left at a wall temperature (degC). PVC: 1 to 73 degF, 0.22 at 140 degF, the smaller
/// of two makers' tables (GF Harvel; Fabco), straight between their points. PE100: 1 to 20 degC, 0.87 at 30, 0.74 at 40
/// (ISO 4427-1, Annex A, from memory, unconfirmed). Practice differs: a maker to AS/NZS 4130 keeps 0.94 and 0.84; the
/// stricter is taken. Other materials: 1 (common practice, no source). Sun on a bare pipe heats the wall above the
/// water. Refuses temperatures below 0 degC and above 140 degF (PVC), 40 degC (PE100) or 60 degC (others):
/// `power.wall_temperature_out_of_range`.
[[nodiscard]] Expected<double> temperature_factor(const PipeMaterial& material, double wall_temperature_C);

/// A round pipe that the pressure outside may press flat.
struct CollapsePipe {
    double outside_m = 0.0; // > 0
    double wall_m = 0.0;    // > 0, less than half the outside
    double modulus_Pa = 0.0;
    double poisson = 0.0; // 0..0.5
};

/// The pressure difference, outside over inside, at which a pipe collapses, 2 E / ((1 - v^2)(DR - 1)^3), Pa, with no
/// help from soil and no safety factor. DR - 1 is the mean diameter over the wall. Source: buckling column of a PVC
/// maker's dimensional data, which it reproduces to 1 psi. An oval pipe holds less.
[[nodiscard]] Expected<double> collapse_Pa(const CollapsePipe& pipe);

} // namespace rillmark
