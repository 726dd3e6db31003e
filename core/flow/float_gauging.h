// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/flow_result.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace rillmark {

/// One float, timed over the measured length.
struct FloatRun {
    std::int64_t id = 0;
    double time_s = 0.0;                     // 0.05 to 86400
    std::optional<double> length_m;          // where it differs from the common one; 0.1 to 10000
    std::optional<double> distance_across_m; // along the tape of the first section
    bool struck = false;
};

struct SoundedDepth {
    double distance_m = 0.0; // along the tape, -10000 to 10000
    double depth_m = 0.0;    // 0 to 100
};

/// One cross-section of the reach: soundings from bank to bank, or its width and mean depth.
struct FloatSection {
    std::vector<SoundedDepth> soundings; // in any order; the water's edges with depth 0
    std::optional<double> width_m;       // 0.01 to 10000
    std::optional<double> mean_depth_m;  // 0.001 to 100
};

/// What the bed is like, for the coefficient.
enum class FloatBed : std::uint8_t {
    Ordinary,     // the table by depth
    RoughShallow, // cobbles and boulders that reach up into the flow
    SmoothDeep,   // a smooth, deep channel
};
/// Wind along the reach, as the person judges it.
enum class FloatWind : std::uint8_t { None, Light, Strong };
/// The surface of the reach, as the person judges it.
enum class FloatSurface : std::uint8_t { Even, Broken, Turbulent };

struct FloatOptions {
    std::optional<double> length_m; // measured length of the reach, for runs that name none; 0.1 to 10000
    FloatBed bed = FloatBed::Ordinary;
    FloatWind wind = FloatWind::None;
    FloatSurface surface = FloatSurface::Even;
    std::optional<double> coefficient;   // the user's own, 0.1 to 1.2
    std::optional<double> coefficient_u; // its standard uncertainty, 0 to 0.5; none: kFloatCoefficient_u
    double area_u_rel = 0.05;            // standard uncertainty of one section's area, 0 to 0.5 (our own choice)
    double length_u_rel = 0.01;          // of the measured length, 0 to 0.5 (our own choice)
    double reaction_half_width_s = 0.2;  // as for a container, 0 to 10
};

struct FloatResult {
    FlowResult flow;
    double area_m2 = 0.0;             // mean of the sections
    double mean_depth_m = 0.0;        // mean of the sections
    double surface_velocity_ms = 0.0; // mean across the width
    Estimate coefficient;             // mean velocity over surface velocity
};

// Our own choice: the figures that different texts give for one and the same channel differ by some 0.1 either way.
inline constexpr double kFloatCoefficient_u = 0.05;
// From memory, unconfirmed: travel time, and runs across the width.
inline constexpr double kShortestFloatRun_s = 20.0;
inline constexpr int kMinimumFloatRuns = 3;
// Our own choice: scatter of one run where there are too few to tell.
inline constexpr double kAssumedRunScatter_rel = 0.15;
// Our own choice: standard uncertainty that the wind or an uneven surface brings in.
inline constexpr double kLightWind_u_rel = 0.05;
inline constexpr double kStrongWind_u_rel = 0.15;
inline constexpr double kBrokenSurface_u_rel = 0.05;
inline constexpr double kTurbulentSurface_u_rel = 0.15;
// Our own choice: what is warned of.
inline constexpr double kLargeRunScatter_rel = 0.20;
inline constexpr double kLargeSectionDifference_rel = 0.20;

/// The mean velocity as a part of the surface velocity.
///
/// Ordinary bed: 0.64 at 0.25 m depth to 0.79 at 5 m, linear between the lines of the table; 0.79 above. Below 0.25 m
/// the table does not reach: 0.57, the middle of 0.5 to 0.64. Rough and shallow: 0.575, the middle of 0.5 to 0.65.
/// Smooth and deep: 0.85.
/// @param mean_depth_m above 0
/// Source: C. E. Boyd, Measuring water flow (Responsible Seafood Advocate), table 1; linear between its lines is our
/// choice. 0.85: extension texts. 0.5 to 0.65: from memory, unconfirmed.
/// The standard uncertainty is kFloatCoefficient_u.
[[nodiscard]] Estimate float_coefficient(double mean_depth_m, FloatBed bed);

/// Discharge by floats: Q = k A v, with v the mean surface velocity, A the mean area of the sections.
///
/// v: if each run has its distance across and the first section is sounded, each run stands for the strip of that
/// section half-way to its neighbours and counts by the area of the strip; runs at one distance are averaged first.
/// Else it is the plain mean of length/time. Practice differs: the fastest float alone with k = 0.85 is a common error.
/// Area: trapezoids between soundings, or width times mean depth; several sections are averaged.
///
/// Uncertainty (JCGM 100:2008), relative, in quadrature: coefficient; area (the one given over the root of the number
/// of sections, or their scatter if larger); scatter of the runs, s/sqrt(n) enlarged by student_factor, and
/// kAssumedRunScatter_rel/sqrt(n) at least below kMinimumFloatRuns; watch and length, shared by all runs; wind;
/// surface. Accuracy in practice: 10 to 25 % (from memory, unconfirmed).
///
/// Warns: short runs (`flow.float_run_short`), few runs, scatter, sections that differ, depth below the table, wind,
/// surface. Notes: one section only.
/// Refuses: no run (`flow.no_float_runs`), no section (`flow.no_float_section`), a section with soundings and width or
/// with neither (`flow.float_section_unclear`), without area (`flow.float_no_area`), a run without length
/// (`flow.float_no_length`), two soundings at one distance (`flow.same_distance`), and values that are not finite or
/// out of range (`flow.bad_time`, `flow.bad_length`, `flow.bad_distance`, `flow.bad_depth`, `flow.bad_width`,
/// `flow.bad_mean_depth`, `flow.bad_option`). Struck runs are not looked at. Each names the row.
[[nodiscard]] Expected<FloatResult> float_gauging(const std::vector<FloatRun>& runs,
                                                  const std::vector<FloatSection>& sections,
                                                  const FloatOptions& options = {});

} // namespace rillmark
