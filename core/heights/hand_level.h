// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "heights/measured_rise.h"

#include <optional>
#include <string>

namespace rillmark {

// From memory, unconfirmed: 3 to 5 cm with a plain hand level at 15 to 30 m.
inline constexpr double kHandLevelPointing_m = 0.03;

/// A line stepped by eye height. The observer always stands at the lower end of a sight, looks level at the slope
/// above, walks to the spot that was sighted, and sights again: each whole sight is one eye height.
struct HandLevelLine {
    int sights = 0;        // whole ones, 0 to 10 000
    Estimate eye_height_m; // eye above the ground under the feet, 0.3 to 2.5
    double part_m = 0.0;   // rise that is left after the whole sights, measured by itself, 0 to 10
    /// In the place of part_m: a staff on the upper end, read level from the last stand; 0 to 10 m. It leaves
    /// eye height - reading, negative where the end lies lower than the stand.
    std::optional<double> last_staff_reading_m;
    double pointing_m = kHandLevelPointing_m; // standard uncertainty of one sight, 0.0001 to 1
    bool downwards = false;                   // the line leads down, from upper to lower end: the rise is negative
    std::string run; // lines that share one eye height have the same; part of the key of the shared effect
};

/// Rise by stepping with a hand level: sights x eye height + part (or + eye height - last staff reading), with a minus
/// sign where the line leads down.
///
/// Random: the pointing of every sight, the last one of a part or staff reading included, x sqrt(sights). Shared, key
/// "eye-height:" + run: the eye height, which grows with the number of sights and not with its root.
/// Source: the sum is arithmetic; the method is common practice, no source. Accuracy: 1 to 2 % of the rise (from
/// memory, unconfirmed). Notes `levels.eye_height_governs` when the eye height is the larger part of the uncertainty;
/// warns `levels.part_above_eye_height` of a part in which another whole sight would fit. Refuses: inputs outside the
/// ranges above (`levels.input_out_of_range`), no sight at all (`levels.nothing_measured`), a part and a last staff
/// reading together (`levels.part_given_twice`).
[[nodiscard]] Expected<MeasuredRise> hand_level(const HandLevelLine& line);

} // namespace rillmark
