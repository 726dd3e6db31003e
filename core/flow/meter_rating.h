// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "finding.h"

#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// One straight piece of a meter's rating: v = a N + b, with N in revolutions per second.
struct RatingRange {
    double above_rev_per_s = 0.0; // holds for N above this, up to the next range's limit; 0 for the first
    double a_m = 0.0;             // > 0: metres per revolution
    double b_ms = 0.0;            // m/s
    friend bool operator==(const RatingRange&, const RatingRange&) = default;
};

/// A current meter as its certificate describes it.
struct MeterRating {
    std::string name;
    std::vector<RatingRange> ranges;       // by rising limit; empty for a meter that shows the velocity itself
    std::optional<double> min_velocity_ms; // rated range, where the certificate gives it
    std::optional<double> max_velocity_ms;
    bool individual = false; // rated by itself; false: a rating of its type (group rating), the more doubtful one

    [[nodiscard]] bool shows_velocity() const { return ranges.empty(); }
    friend bool operator==(const MeterRating&, const MeterRating&) = default;
};

/// A velocity by the rating.
struct MeterVelocity {
    double velocity_ms = 0.0;
    /// Set when the rotor stood still: the water moves at less than this, and no more is known.
    std::optional<double> starting_velocity_ms;
};

/// Looks over a rating before it is used.
///
/// Warns (`flow.rating_ranges_part`) where two ranges give velocities more than 2 % apart at their joint: the sign of a
/// miscopied coefficient. The 2 % is our own choice.
/// Refuses (`flow.bad_rating`): ranges out of order, a first limit that is not 0, a not positive or above 10 m,
/// b beyond +/- 1 m/s, rated limits that are negative or in the wrong order, anything not finite.
[[nodiscard]] Expected<Findings> check_rating(const MeterRating& rating);

/// Velocity for a count of revolutions over a time.
///
/// At a joint the lower range holds. No revolution at all means "below the starting speed": the velocity is 0 (never b)
/// and starting_velocity_ms says what it stays below: the rated minimum, or else b of the first range (0 where b < 0).
/// A negative result of the line is cut at 0.
/// @param revolutions 0 to 1e6; part revolutions are allowed
/// @param time_s      0.05 to 86400; with 0 revolutions 0 is allowed too
/// Source of the form: rating of a propeller or cup meter, ISO 2537 (from memory, unconfirmed); checked on a
/// certificate. Refuses: a meter without ranges (`flow.no_rating`), a count or time out of range
/// (`flow.bad_revolutions`, `flow.bad_time`). The rating is expected to have passed check_rating.
[[nodiscard]] Expected<MeterVelocity> meter_velocity(const MeterRating& rating, double revolutions, double time_s);

} // namespace rillmark
