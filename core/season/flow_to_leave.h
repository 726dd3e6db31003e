// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "season/daily_flow.h"

#include <array>
#include <cstdint>
#include <optional>

namespace rillmark {

/// What a permit may ask to be left in the stream below the intake.
enum class LeaveRule : std::uint8_t { Fixed, ShareOfFlow, ShareOfQ95, Monthly };

struct FlowToLeave {
    LeaveRule rule = LeaveRule::Fixed;
    double fixed_m3s = 0.0;               // Fixed: 0 to 1e5
    double share = 0.0;                   // of the flow, 0 to 1, or of Q95, 0 to 10
    std::array<double, 12> monthly_m3s{}; // Monthly: January first, 0 to 1e5
};

/// The flow on one day.
struct DayFlow {
    double flow_m3s = 0.0;         // 0 to 1e5
    unsigned month = 1;            // 1 to 12, for the monthly table
    std::optional<double> q95_m3s; // for a share of Q95
};

struct DividedFlow {
    double left_m3s = 0.0;   // stays in the stream: all of it on a day with less than the rule asks for
    double usable_m3s = 0.0; // may be taken
};

/// Divides the flow of a day between the stream and the plant. Which rule holds is for the permit to say: none is
/// proposed here. Refuses numbers out of their range (`flow.bad_option`) and a share of a Q95 that is not known
/// (`flow.q95_unknown`).
[[nodiscard]] Expected<DividedFlow> divide_flow(const FlowToLeave& leave, const DayFlow& day);

/// The usable flow of every day of a record; missing days stay missing. Refuses what divide_flow refuses.
[[nodiscard]] Expected<DailyFlow> usable_flow(const FlowToLeave& leave, const DailyFlow& series,
                                              std::optional<double> q95_m3s = {});

} // namespace rillmark
