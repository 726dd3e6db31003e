// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "power/pipe_grade.h"
#include "power/pipe_strength.h"
#include "power/surge.h"

#include <optional>
#include <vector>

namespace rillmark {

// A first look along a penstock. What it says of bursting, collapse and thrust is for a talk with the pipe's maker and
// a licensed engineer, who decide, and for the local code; it is no design.

/// Pipe of one size and class, from a chainage to where the next section begins.
struct PipeSection {
    double from_m = 0.0;
    double bore_m = 0.0;      // > 0
    double wall_m = 0.0;      // > 0
    double roughness_m = 0.0; // >= 0, at most 0.05 of the bore
    PipeMaterial material;
    std::optional<double> rating_Pa; // > 0, at the temperature of its table; empty: not known

    [[nodiscard]] double outside_m() const { return bore_m + 2.0 * wall_m; }
};

/// Entrance with a square edge, as in assets/tables/fittings.csv.
inline constexpr double kSquareEntranceK = 0.5;

struct PressureInput {
    std::vector<PipePoint> points;        // from the intake down to the valve or nozzle, see check_points
    std::vector<PipeSection> sections;    // the first from the first point or above it, then downwards
    double intake_level_m = 0.0;          // water level, in the datum of the points
    Estimate flow_m3s;                    // design flow, >= 0; its uncertainty enters the surge
    double closing_s = 0.0;               // even closing of the valve, >= 0; 0: a sudden stop
    double entrance_k = kSquareEntranceK; // >= 0
    PipeAnchoring anchoring = PipeAnchoring::ExpansionJoints;
    double water_temperature_C = 10.0; // 0..40
    double wall_temperature_C = 20.0;  // of the hottest wall, see temperature_factor
    double latitude_deg = 45.0;
    double altitude_m = 0.0;               // of the intake above the sea: for gravity and the pressure of the air
    std::optional<double> soil_bearing_Pa; // > 0, for the areas of thrust blocks
};

/// All pressures over that of the air outside, in Pa.
struct PressurePoint {
    PipePoint point;
    std::size_t section = 0;        // that begins or runs here; the last point has that of the pipe above it
    double static_Pa = 0.0;         // standing water
    double hydraulic_grade_m = 0.0; // level to which water would rise in a gauge tube at design flow
    double flowing_Pa = 0.0;        // at design flow
    double surge_Pa = 0.0;          // of closing, with its +/- (k = 2)
    double highest_Pa = 0.0;        // standing water and surge
    double lowest_Pa = 0.0;         // standing water less surge, not below the vapour pressure
    double draining_Pa = 0.0;       // intake shut while the pipe runs empty below, without air let in; 0 or less
};

struct SectionPressure {
    double from_m = 0.0;
    double to_m = 0.0;
    double speed_ms = 0.0;
    double wave_speed_ms = 0.0;
    double highest_Pa = 0.0;
    std::optional<double> holds_Pa;      // rating at the wall temperature
    std::optional<double> passed_from_m; // chainage from which it does not hold: there the heavier class must begin
    double short_vacuum_Pa = 0.0;        // suction it stands for a short time, with the material's factor
    double lasting_vacuum_Pa = 0.0;      // and for long
};

struct PipeBend {
    std::size_t point = 0; // of PressureProfile::points
    double angle_rad = 0.0;
    double thrust_N = 0.0;               // by the highest pressure there
    std::optional<double> block_area_m2; // where the soil's bearing pressure is given
};

struct PressureProfile {
    std::vector<PressurePoint> points; // those given and the starts of sections
    std::vector<SectionPressure> sections;
    PipeGrade grade; // by the points of this profile
    std::vector<PipeBend> bends;
    double end_thrust_N = 0.0; // on the shut valve
    Budgeted surge_Pa;         // at the valve
    double sudden_stop_Pa = 0.0;
    double reflection_s = 0.0; // there and back; a faster closing is a sudden stop
    // Shortest closing with which every class holds; 0: a sudden stop; empty: no class known or standing water is too
    // much
    std::optional<double> closing_needed_s;
    Findings findings;
};

/// Pressures along a penstock.
///
/// Static: rho g times the depth below the intake level. At flow: less friction (pipe_loss), the entrance loss and the
/// local velocity head; losses of fittings and of changes of bore are left out. Surge: at the valve the lesser of the
/// greatest rho a V of any section (the first reflections between sections stay below it) and Michaud's 2 rho sum(L V)
/// / T; up the pipe that of the water above the point, min(rho a V, 2 rho sum(L V above) / T): for one section a
/// straight line from the valve to the intake where T >= 2L/a, else full over L - a T / 2 and straight above. A stated
/// simplification: friction, the valve's own characteristic, later reflections, air and parted water are left out; a
/// transient analysis is an engineer's work. The same is taken downwards, which covers a valve that opens and the
/// return of the wave. Sources: see surge.h, pipe_strength.h, pipe_laying.h. Draining: water hanging below a shut
/// intake, -rho g times the height above the lower end, down to vapour pressure.
///
/// Budget inputs of the surge: `power.flow`, `power.bulk_modulus`, `power.modulus` (subject: the material).
/// Refuses what check_points, temperature_factor, pipe_loss and the properties of water and place refuse; no section
/// (`power.no_section`), sections out of order or off the pipe (`power.section_misplaced`, argument `section` from 1),
/// an intake level below the pipe's entrance (`power.intake_below_pipe`) and a lower end that is not below it
/// (`power.outlet_not_below_intake`). Findings: see pressure_findings.h.
[[nodiscard]] Expected<PressureProfile> pressure_profile(const PressureInput& input);

/// Chainage down to which a pipe that holds `holds_Pa` (> 0) would do, by the highest pressures of a profile: where it
/// ends and a heavier one must begin; empty where it holds to the end. The other wall's own wave speed is not taken
/// into account.
[[nodiscard]] std::optional<double> class_ends_at_m(const PressureProfile& profile, double holds_Pa);

} // namespace rillmark
