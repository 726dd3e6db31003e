// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/meter_rating.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace rillmark {

/// One reading of the current meter: a velocity as the meter shows it, or revolutions and seconds.
struct PointReading {
    std::int64_t id = 0;
    double depth_fraction = 0.6; // of the depth, down from the surface: 0.2, 0.6 or 0.8
    std::optional<double> velocity_ms;
    std::optional<double> revolutions;
    std::optional<double> time_s; // exposure; needed with revolutions
    bool struck = false;
};

/// The readings at one depth, made into one velocity.
struct PointVelocity {
    double depth_fraction = 0.0;
    double weight = 0.0;                        // in the mean of the vertical; they sum to 1
    double velocity_ms = 0.0;                   // mean of the readings at this depth
    std::optional<double> exposure_s;           // sum over the readings; nothing where one of them has none
    std::optional<double> starting_velocity_ms; // set when the rotor stood still in every reading here
};

/// Mean velocity in a vertical.
struct VerticalVelocity {
    double velocity_ms = 0.0;
    std::vector<PointVelocity> points; // from the surface down

    /// v at 0.2 below v at 0.8, or more than twice it, with no reading at 0.6 to help (from memory, unconfirmed).
    [[nodiscard]] bool abnormal_profile() const;
};

/// Mean velocity in a vertical from one, two or three points:
///   0.6: v0.6 · 0.2 and 0.8: (v0.2 + v0.8)/2 · 0.2, 0.6 and 0.8: (v0.2 + 2 v0.6 + v0.8)/4.
///
/// Several readings at one depth are averaged first. A depth fraction within 0.01 of 0.2, 0.6 or 0.8 is taken as that.
/// Source: one and two points: summaries of USGS TWRI 3-A8 and of a US Army Corps text; three points from memory,
/// unconfirmed. Accuracy: on a 1/7-power profile 0.3, 0.8 and 0.5 % high (computed).
///
/// Refuses: other depths (`flow.depth_not_accepted`) or combinations (`flow.points_not_accepted`; both words list those
/// accepted), no reading (`flow.no_velocity`), a reading with neither or both of velocity and revolutions
/// (`flow.reading_incomplete`, `flow.reading_double`), a velocity that is not finite or above 10 m/s either way
/// (`flow.bad_velocity`), and what meter_velocity refuses. Struck readings are not looked at. The caller adds the row
/// (`row`, from 1) to a refusal.
[[nodiscard]] Expected<VerticalVelocity> vertical_velocity(const std::vector<PointReading>& points,
                                                           const MeterRating& meter);

} // namespace rillmark
