// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "uncertainty/estimate.h"

#include <cstdint>

namespace rillmark {

// Bulk modulus of water near 10 to 20 degC. Textbooks print 2.0 to 2.22 GPa (K. Subramanya, 1000 Solved Problems in
// Fluid Mechanics, 2005, examples 14.11 to 14.20); 2.2 is taken, with all of that spread as +/- at k = 2. Air in the
// water lowers it much, and the surge with it.
inline constexpr Estimate kWaterBulkModulus_Pa{2.2e9, 0.1e9};

/// How the pipe is held along its axis.
enum class PipeAnchoring : std::uint8_t {
    ExpansionJoints, // free to move: rubber-ring joints
    OneEnd,          // held at the intake only
    Throughout,      // held along its whole length
};

/// Factor c1 of the wave speed: 1 with joints, 1 - v/2 held at one end, 1 - v^2 held throughout, v the Poisson ratio of
/// the wall (0..0.5, else `power.poisson_out_of_range`). Source: COMSOL, Pipe Flow Module User's Guide 6.4, water
/// hammer. A smaller factor gives a larger surge, by less than 15 %.
[[nodiscard]] Expected<double> anchoring_factor(PipeAnchoring anchoring, double poisson);

/// The elastic wall of a full pipe.
struct ElasticPipe {
    double bore_m = 0.0;           // inside diameter, > 0
    double wall_m = 0.0;           // > 0
    double modulus_Pa = 0.0;       // of the wall, > 0; the short-term one for plastics
    double anchoring_factor = 1.0; // > 0, see above
};

/// The water in it.
struct ElasticWater {
    double density_kgm3 = 0.0;                           // > 0
    double bulk_modulus_Pa = kWaterBulkModulus_Pa.value; // > 0
};

/// Speed of a pressure wave in water alone, sqrt(K/rho), m/s: that of a pipe that does not give.
[[nodiscard]] Expected<double> sound_speed_ms(const ElasticWater& water);

/// Speed of a pressure wave, m/s: sqrt(K/rho) / sqrt(1 + c1 K D / (E t)). Source: K. Subramanya, 2005, examples 14.14
/// to 14.18. Thin walls: D is the bore here. Practice differs: US notes take 4660 ft/s and D/t = DR - 2 (AWWA M23, from
/// memory) or 4720 ft/s and the full ratio (USDA NRCS, Engineering Technical Note 16, 2009); they differ by 1 to 4 %.
/// Accuracy: that of the modulus, see pipe_materials. Refuses what is not above zero (`power.not_positive`) or finite.
[[nodiscard]] Expected<double> wave_speed_ms(const ElasticPipe& pipe, const ElasticWater& water);

/// A pipe of one size through which a wave runs.
struct SurgePipe {
    double length_m = 0.0;      // > 0
    double wave_speed_ms = 0.0; // > 0
    double density_kgm3 = 0.0;  // > 0
};

/// Time for the wave to the intake and back, 2L/a, s: a stop within it is a sudden stop.
[[nodiscard]] Expected<double> reflection_time_s(const SurgePipe& pipe);

/// Rise of pressure of a sudden stop, rho a dV, Pa (Joukowsky). Source: K. Subramanya, 2005, example 14.14; R. L.
/// Daugherty, J. B. Franzini, Fluid Mechanics, 8th ed., 1985, example 13.4. `speed_change_ms` >= 0. Nothing is taken
/// off for friction.
[[nodiscard]] Expected<double> sudden_stop_Pa(const SurgePipe& pipe, double speed_change_ms);

/// Rise of pressure at a valve that closes in `closing_s` (>= 0), Pa: that of the sudden stop, but not more than 2 rho
/// L dV / T (Michaud; K. Subramanya, 2005, example 14.18: the two meet at T = 2L/a). It holds for a flow that falls
/// evenly with time. Most valves stop the flow in the last part of their stroke: then T is the time of that part, and
/// the time of the whole stroke gives too low a surge.
[[nodiscard]] Expected<double> closing_Pa(const SurgePipe& pipe, double speed_change_ms, double closing_s);

/// The part of the pipe, from the valve up, that feels the whole of a sudden stop: L - a T / 2, m, not below 0.
/// Source: K. Subramanya, 2005, example 14.20.
[[nodiscard]] Expected<double> full_surge_length_m(const SurgePipe& pipe, double closing_s);

/// Shortest even closing that keeps the rise at or below `limit_Pa` (> 0), s; 0 where even a sudden stop does. The
/// inverse of closing_Pa, with its limits.
[[nodiscard]] Expected<double> closing_time_for_limit_s(const SurgePipe& pipe, double speed_change_ms, double limit_Pa);

/// What is known of a surge, with its uncertainties.
struct SurgeEstimate {
    Estimate length_m;
    Estimate bore_m;
    Estimate wall_m;
    Estimate modulus_Pa;
    Estimate speed_change_ms;
    Estimate closing_s;
    Estimate bulk_modulus_Pa = kWaterBulkModulus_Pa;
    double anchoring_factor = 1.0;
    double density_kgm3 = 0.0; // taken as exact
};

/// closing_Pa with its uncertainty, first order (see propagate). Budget inputs: `power.pipe_length`, `power.bore`,
/// `power.pipe_wall`, `power.modulus`, `power.speed_change`, `power.closing_time`, `power.bulk_modulus`. Near the bend
/// at T = 2L/a first order is rough. Refuses as closing_Pa and propagate do.
[[nodiscard]] Expected<Budgeted> closing_estimate_Pa(const SurgeEstimate& surge);

} // namespace rillmark
