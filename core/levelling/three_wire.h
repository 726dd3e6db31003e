// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

namespace rillmark {

/// The three wires read on one staff. Through a telescope that turns the image over, and on a staff that hangs upside
/// down, the upper wire has the smallest reading: either order is taken.
struct WireReadings {
    double upper_m = 0.0;
    double middle_m = 0.0;
    double lower_m = 0.0;
    double last_digit_m = 0.001; // weight of the last digit as typed: 0.001 for metres, that of 0.01 ft for feet
};

/// Distance = factor x wire interval + constant, both engraved on the instrument or in its papers.
struct Stadia {
    double factor = 100.0;   // > 0
    double constant_m = 0.0; // zero in instruments that focus inside, 0.3 m or so in old ones
};

struct ThreeWire {
    double mean_m = 0.0; // of the three: the reading to book
    double distance_m = 0.0;
    double upper_half_m = 0.0; // upper to middle, >= 0
    double lower_half_m = 0.0; // middle to lower, >= 0
    bool reversed = false;     // the upper wire had the smallest reading
    Findings findings;
};

/// The half intervals of a good reading differ by no more units of the last digit than this.
/// J. Mahun, Open Access Surveying Library, Elevations, chapter G.2, gives 2 to 3; taken: 2.
inline constexpr double kHalfIntervalUnits = 2.0;

/// Mean, distance and half intervals of a three-wire reading. Exact to rounding.
/// Source: J. Mahun, Open Access Surveying Library, Elevations, chapters G.2 and G.3.
/// Warns of half intervals further apart than kHalfIntervalUnits (`levels.half_intervals_differ`): one wire is misread.
/// Refuses a reading that is not finite or beyond 10 m (`levels.field_reading_impossible`), a middle wire that is not
/// between the others and three equal wires (`levels.wires_out_of_order`), and a factor or a last digit that is not
/// above zero or a constant that is not finite or negative (`levels.stadia_impossible`). `where` of a reading is
/// levels.wire_upper, levels.wire_middle or levels.wire_lower.
[[nodiscard]] Expected<ThreeWire> three_wire(const WireReadings& wires, const Stadia& stadia = {});

} // namespace rillmark
