// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/pressure_profile.h"

namespace rillmark {

/// What the findings are held against beside the profile.
struct PressureLimits {
    double weight_Pa_per_m = 0.0; // rho g
    double full_vacuum_Pa = 0.0;  // air less vapour pressure: water parts at this suction
    double closing_s = 0.0;
};

// Suction from which the flowing water is flagged as deep, m of water. Common practice, no source.
inline constexpr double kDeepSuction_m = 5.0;

/// The findings of a profile: `power.section_over_static`, `power.section_over_class`, `power.class_unknown`,
/// `power.closing_too_fast`, `power.flow_over_capacity`, `power.suction_at_flow`, `power.suction_deep`,
/// `power.water_parts`, `power.above_static_line`, `power.suction_collapse`, `power.surge_suction`,
/// `power.draining_collapse`, `power.vent_at_intake`, `power.air_valve_needed`, `power.drain_needed`,
/// `power.pipe_rises`, `power.pipe_runs_level`, `power.thrust_blocks`, `power.least_cover`, `power.surge_simplified`.
[[nodiscard]] Findings pressure_findings(const PressureProfile& profile, const std::vector<PipeSection>& sections,
                                         const PressureLimits& limits);

} // namespace rillmark
