// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/turbine.h"
#include "power/water_to_wire.h"
#include "site/survey.h"

#include <optional>
#include <vector>

namespace rillmark {

/// The turbine of an alternative at its net head and flow.
struct MachineLink {
    std::vector<TurbineOption>
        options; // every kind, in the order of the table; empty while net head or flow is missing
    std::optional<TurbineOption> chosen;   // the kind of the record
    std::optional<ImpulseWheel> wheel;     // of a Pelton, with the jets and speed entered, else as proposed
    std::optional<SpecificSpeed> specific; // likewise, per jet
    std::optional<double> speed_rpm;
    std::optional<double> runaway_rpm; // the largest to expect
    std::optional<PumpChoice> pump;    // of a pump as turbine
    Findings findings; // `site.turbine_head_outside`, `site.turbine_no_direct_speed`, `site.turbine_speed_outside`,
                       // `site.turbine_set_too_high`, `site.turbine_stands_below`, `site.head_ends_at_axis`,
                       // `site.head_ends_at_tailwater`
};

/// Holds what was chosen against what the kind can do: range of heads, specific speed, height above tailwater, least
/// flow; and whether the head ends where the kind needs it (axis of an impulse wheel, tailwater of a reaction turbine).
/// Accuracy and sources: see turbine.h. The maker's data decide.
[[nodiscard]] MachineLink machine_link(const ChainInput& chain, const ChainResult& result, const TurbineTables& tables,
                                       const AlternativeRow& alternative);
inline constexpr double kUsualFrequency_Hz = 50.0; // where nothing is entered

} // namespace rillmark
