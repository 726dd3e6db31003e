// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/flow_result.h"
#include "flow/head_readings.h"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace rillmark {

/// One standard size of Parshall flume. Its free flow is Q = C ha^n, with ha the head above the floor of the converging
/// part, two thirds of that wall's length up from the throat.
struct FlumeSize {
    std::string_view id;      // stable key, typed at the desk command: "us-3in", "iso-0.30"
    bool in_feet = false;     // unit of throat, heads and formula: feet and ft3/s, else m and m3/s
    double throat = 0.0;      // W
    double coefficient = 0.0; // C
    double power = 0.0;       // n
    double least_head = 0.0;  // of the rated range
    double greatest_head = 0.0;
    double submergence_limit = 0.0; // hb/ha up to which the flow is free
    bool from_memory = false;       // the formula; heads are from memory for all

    [[nodiscard]] double throat_m() const;
    [[nodiscard]] double least_head_m() const;
    [[nodiscard]] double greatest_head_m() const;
    /// Free flow [m3/s] at a head [m] above zero.
    [[nodiscard]] double free_flow_m3s(double head_m) const;
};

/// All sizes, narrow to wide: US sizes 1 in to 12 ft, then ISO 9826 sizes 0.152 to 2.40 m.
///
/// Sources. US: USBR Water Measurement Manual, 3rd ed., ch. 8 sec. 10; 1 to 8 ft follow Q = 4 W ha^(1.522 W^0.026) and
/// 10 and 12 ft Q = (3.6875 W + 2.5) ha^1.6 (seen); 6 in and 9 in seen; 3 in seen within 0.6 %; 1 and 2 in from memory,
/// unconfirmed. ISO 9826:1992, table 3: 0.152 and 2.40 m seen, the others from memory, unconfirmed. Submergence limits:
/// ASTM D1941 and ISO 9826 as quoted in an encyclopedia (1 to 3 in, 10 ft and more), 1 to 8 ft seen; 6 and 9 in, and
/// the ranges of head, from memory, unconfirmed. A US and an ISO size of nearly one width differ by up to 2 %: they are
/// two flumes.
[[nodiscard]] std::span<const FlumeSize> flume_sizes();

/// The size of that id, or nullptr.
[[nodiscard]] const FlumeSize* find_flume_size(std::string_view id);

struct FlumeOptions {
    HeadGauge gauge;
    std::optional<double> downstream_head_m; // hb, above the same floor: -100 to 100; not given: free flow assumed
    std::optional<double> throat_m;          // as measured; not given: the size's
    double throat_u_m = 0.002;               // standard uncertainty, 0 to 0.1; default: our own choice
};

struct FlumeResult {
    FlowResult flow;
    double head_m = 0.0;
    std::optional<double> submergence; // hb/ha, where hb is known
};

// 3 to 5 % (USBR; from memory, unconfirmed): the larger is taken as k = 2.
inline constexpr double kFlumeCoefficient_u_rel = 0.025;
// Our own choice: the measured throat is off its size so far that another size was built, or it was built badly.
inline constexpr double kFlumeThroatOff = 0.01;
inline constexpr double kFlumeThroatWrong = 0.05;

/// Discharge through a Parshall flume in free flow, from the head at the gauge of the converging part.
///
/// Q = C ha^n of the size, times measured over nominal throat (our own choice; exact only for small differences).
/// Submerged flow is refused, not corrected: no correction whose source was seen is at hand, and free flow would be too
/// much. Uncertainty: propagated to first order from the head reading, the zero, the coefficient and the throat.
/// Accuracy: 5 % (k = 2) for a flume built to size and level; a floor that is not level is for the person to see.
///
/// Warns of a head outside the rated range (`flow.flume_head_low`, `flow.flume_head_high`), a formula from memory
/// (`flow.flume_unconfirmed`), a throat that is off by more than kFlumeThroatOff (`flow.flume_throat_off`). Notes that
/// the downstream head is not known (`flow.flume_downstream_unknown`), and what mean_head says.
/// Refuses: an unknown size (`flow.flume_unknown`), numbers out of their range (`flow.bad_option`), a throat that is
/// off by more than kFlumeThroatWrong (`flow.flume_throat_wrong`), submerged flow (`flow.flume_submerged`), and what
/// mean_head and propagate refuse.
[[nodiscard]] Expected<FlumeResult> parshall_flume(std::string_view size_id, const std::vector<HeadReading>& readings,
                                                   const FlumeOptions& options = {});

} // namespace rillmark
