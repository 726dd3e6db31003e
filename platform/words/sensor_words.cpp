// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> sensor_words() {
    static constexpr Word table[] = {
        // The device
        {"levels.no_tilt_sensor",
         RILLMARK_TR("This device cannot feel its tilt. Read a clinometer and type the angle."), ""},
        {"levels.no_pressure_sensor", RILLMARK_TR("This device has no barometer. Read one and type the pressure."), ""},
        {"levels.sensor_failed",
         RILLMARK_TR("The sensor stopped (its error number is {error}). Where the system keeps it from apps, allow it "
                     "for this one in the settings and try again; or type the reading."),
         ""},
        // A held sight
        {"levels.tilt_too_few",
         RILLMARK_TR("Only {count} readings of the tilt, at least {least} are needed. Hold the sight longer."),
         "common practice, no source"},
        {"levels.tilt_bad_reading", RILLMARK_TR("The tilt sensor gave a reading that is none. Hold the sight again."),
         ""},
        {"levels.tilt_not_gravity",
         RILLMARK_TR("The device felt {felt} m/s² where gravity is {gravity} m/s². Stand still and hold it again; if "
                     "it stays so, its sensor is not to be trusted."),
         "limit 0.5 m/s²: common practice, no source"},
        {"levels.tilt_moving",
         RILLMARK_TR("The device was moving ({motion} m/s², at most {limit} m/s²). Lean it on something and hold the "
                     "sight again."),
         "common practice, no source"},
        {"levels.tilt_unsteady",
         RILLMARK_TR("The sight swayed by {scatter}, at most {limit} will do. Lean the device on something and hold "
                     "the sight again."),
         "common practice, no source"},
        {"levels.tilt_short_hold",
         RILLMARK_TR("The hand swayed slowly in this sight, so its ± is itself uncertain. Hold the sight longer."),
         "limit of ten independent readings: common practice, no source"},
        // The index
        {"levels.tilt_bad_angle",
         RILLMARK_TR("An elevation must lie between straight down and straight up, and its ± must not be negative. "
                     "Take both positions again."),
         ""},
        {"levels.tilt_index_large",
         RILLMARK_TR("The index would be {index}, more than {limit}. Was the device turned end for end on the same "
                     "spot, and does it lie flat? Take both positions again."),
         "common practice, no source"},
        {"levels.tilt_surface_steep",
         RILLMARK_TR("The surface slopes by {slope}, more than {limit}. Use one that is more nearly level."),
         "common practice, no source"},
        // The barometer
        {"levels.pressure_too_few", RILLMARK_TR("The barometer gave no reading. Wait a little longer at the point."),
         ""},
        {"levels.pressure_out_of_range",
         RILLMARK_TR("A pressure of {pressure} is not between {lowest} and {highest}. Check the unit, or measure "
                     "again."),
         "range of common sensors: from memory, unconfirmed"},
        {"levels.pressure_bad_reading",
         RILLMARK_TR("The barometer gave a time or temperature that is none. Measure again."), ""},
        {"levels.pressure_bad_noise",
         RILLMARK_TR("The noise of the barometer, {noise}, must be above zero and at most {limit}. Correct it."),
         "our choice, no source"},
        {"levels.pressure_unsteady",
         RILLMARK_TR("The pressure scattered by {scatter}, more than {limit}. Keep the device at one height and out of "
                     "the wind, and measure again."),
         "common practice, no source"},
        {"levels.pressure_short", RILLMARK_TR("The pressure was averaged over {time}; {advised} even out gusts."),
         "common practice, no source"},
    };
    return table;
}

} // namespace rillmark::words
