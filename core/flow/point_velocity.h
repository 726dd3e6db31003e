// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/meter_rating.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace rillmark {

/// One reading of the current meter: a velocity as the meter shows it, or revolutions and seconds.
struct PointReading {
    std::int64_t id = 0;
    double depth_fraction = 0.6; // of the depth, down from the surface: 0 (surface), 0.2, 0.4, 0.6, 0.8 or 1 (bed)
    std::optional<double> velocity_ms;
    std::optional<double> revolutions;
    std::optional<double> time_s; // exposure; needed with revolutions
    bool struck = false;
    std::shared_ptr<const MeterRating> meter; // where another meter than that of the gauging was used
};

/// The readings at one depth, made into one velocity.
struct PointVelocity {
    double depth_fraction = 0.0;
    double weight = 0.0;              // in the mean of the vertical; they sum to 1, or to the share of the surface
    double velocity_ms = 0.0;         // mean of the readings at this depth
    std::optional<double> exposure_s; // sum over the readings; nothing where one of them has none
    std::optional<double> starting_velocity_ms; // set when the rotor stood still in every reading here
    bool individual_rating = false;             // every reading here by a meter that was rated by itself
    std::optional<double> rated_from_ms;        // the range that the meter, or all meters used here, are rated for
    std::optional<double> rated_to_ms;
};

/// Mean velocity in a vertical.
struct VerticalVelocity {
    double velocity_ms = 0.0;
    std::vector<PointVelocity> points; // from the surface down
    bool surface_only = false;         // by the share of the surface velocity: by far the most doubtful rule

    /// v at 0.2 below v at 0.8, or more than twice it, with no reading at 0.6 to help (from memory, unconfirmed).
    [[nodiscard]] bool abnormal_profile() const;
};

// Mean velocity in a vertical as a share of that at the surface: the middle of 0.84 to 0.90, which ISO 748 gives (from
// memory, unconfirmed); a 1/7-power profile has 0.875. Over rough, shallow beds it is less, down to 0.6.
inline constexpr double kSurfaceVelocityShare = 0.87;

// USGS summary (seen): two points need this depth to keep the meter clear of surface and bed.
inline constexpr double kTwoPointsFrom_m = 0.75;

/// Mean velocity in a vertical from the readings at one to six depths:
///   0.6: v0.6 · 0.2 and 0.8: (v0.2 + v0.8)/2 · 0.2, 0.6 and 0.8: (v0.2 + 2 v0.6 + v0.8)/4
///   five: (vs + 3 v0.2 + 3 v0.6 + 2 v0.8 + vb)/10 · six: (vs + 2 v0.2 + 2 v0.4 + 2 v0.6 + 2 v0.8 + vb)/10
///   surface only: surface_share x vs.
///
/// vs is read just below the surface (fraction up to 0.05), vb just above the bed (fraction from 0.95). Several
/// readings at one depth are averaged first. A depth fraction within 0.01 of one that is accepted is taken as that.
/// Source: one and two points: summaries of USGS TWRI 3-A8 and of a US Army Corps text; three, five and six points and
/// the surface: ISO 748 and TWRI 3-A8 from memory, unconfirmed. Accuracy: on a 1/7-power profile 0.3, 0.8 and 0.5 %
/// high by one, two and three points, 0.6 and 0.4 % low by five and six (the bed read at 0.98), all computed.
///
/// @param meter         by which readings without a meter of their own are rated
/// @param surface_share mean velocity over surface velocity, above 0 to 1
///
/// Refuses: other depths (`flow.depth_not_accepted`) or combinations (`flow.points_not_accepted`; both words list those
/// accepted), no reading (`flow.no_velocity`), a reading with neither or both of velocity and revolutions
/// (`flow.reading_incomplete`, `flow.reading_double`), a velocity that is not finite or above 10 m/s either way
/// (`flow.bad_velocity`), a bad share (`flow.bad_option`) and what meter_velocity refuses. Struck readings are not
/// looked at. The caller adds the row (`row`, from 1) to a refusal.
[[nodiscard]] Expected<VerticalVelocity> vertical_velocity(const std::vector<PointReading>& points,
                                                           const MeterRating& meter,
                                                           double surface_share = kSurfaceVelocityShare);

} // namespace rillmark
