// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> barometer_words() {
    static constexpr Word table[] = {
        // The air
        {"levels.standard_height_out_of_range",
         RILLMARK_TR(
             "{height} is outside the standard atmosphere as it is used here, {lowest} to {highest}. Correct it."),
         "US Standard Atmosphere 1976: one lapse rate up to 11 km"},
        {"levels.standard_pressure_out_of_range",
         RILLMARK_TR(
             "{pressure} is outside the standard atmosphere as it is used here, {lowest} to {highest}. Check the "
             "reading and its unit."),
         "US Standard Atmosphere 1976: one lapse rate up to 11 km"},
        {"levels.air_impossible",
         RILLMARK_TR("Such air there is not: {where} is out of its range. Check the value and its unit."),
         "our choice, no source"},
        {"levels.air_column_impossible",
         RILLMARK_TR(
             "A column of air needs pressures, a temperature and a gravity above zero, not {value}. Correct it."),
         ""},
        // Readings
        {"levels.barometer_no_readings",
         RILLMARK_TR("No barometer reading yet. Read at the base first, then at the points, then at the base again."),
         ""},
        {"levels.time_impossible", RILLMARK_TR("Row {row}: this is no time. Correct it."), ""},
        {"levels.pressure_impossible",
         RILLMARK_TR(
             "Row {row}: {value} cannot be the air pressure on land ({lowest} to {highest}). Check the unit, and "
             "that the instrument shows the pressure of the place."),
         "from memory, unconfirmed"},
        {"levels.air_temperature_impossible",
         RILLMARK_TR("Row {row}: {value} cannot be the temperature of the air. Check the reading and its unit."),
         "our choice, no source"},
        {"levels.humidity_impossible",
         RILLMARK_TR("Row {row}: the relative humidity lies between 0 and 100 %, not at {value}. Correct it."), ""},
        {"levels.clock_backwards",
         RILLMARK_TR(
             "Row {row} is {step} earlier than row {other}. Put the readings in order of time, or correct the time: "
             "the drift is shared out by it."),
         ""},
        {"levels.clock_midnight",
         RILLMARK_TR(
             "Row {row} is {step} earlier than row {other}: the clock went over midnight. Give the date with the "
             "time, or add 24 hours to what came after midnight."),
         ""},
        {"levels.barometer_base_missing",
         RILLMARK_TR("There is no reading at {point}, the base. Name the point where you began and returned to."), ""},
        {"levels.barometer_no_points",
         RILLMARK_TR("There is no reading that counts away from the base, {point}. Read at the points too."), ""},
        {"levels.barometer_option_impossible",
         RILLMARK_TR("{where}: {value} is not between {lowest} and {highest}. Correct it."), "our choice, no source"},
        // One instrument
        {"levels.barometer_no_return",
         RILLMARK_TR(
             "Row {row}: no reading at the base before or after it ({count} such rows), so the drift of the weather "
             "is in the height: ± {plus_minus} at worst. Return to the base and read there again."),
         "1 hPa per hour is usual before a front: common practice, no source"},
        {"levels.barometer_drift_large",
         RILLMARK_TR(
             "The pressure at the base changed by {drift} in {time}, rows {other} to {row}: more than 1 hPa per hour. "
             "The weather is changing. Repeat on a steadier day, or keep a second barometer at the base."),
         "1 hPa per hour is usual before a front: common practice, no source"},
        {"levels.barometer_loop_long",
         RILLMARK_TR(
             "It was {time} from the base to the base, rows {other} to {row}. Return within {limit}: the drift is "
             "shared out as if it were even."),
         "common practice, no source"},
        {"levels.barometer_no_temperature",
         RILLMARK_TR(
             "Row {row}: no air temperature ({count} such rows). That of the standard atmosphere is taken, which makes "
             "± {plus_minus} at worst. Read a thermometer in the shade, here and at the base."),
         "3.5 % of the height for 10 K: hypsometric equation"},
        {"levels.barometer_rise_unsure",
         RILLMARK_TR(
             "{where}: {rise} above the base is less than its own ± {plus_minus}. A barometer cannot tell whether it "
             "is higher or lower: use a level or a tube of water."),
         ""},
        // Two instruments
        {"levels.barometer_offset_unknown",
         RILLMARK_TR("The two barometers were not compared: they may differ by ± {plus_minus}. Read the carried one at "
                     "{point} too, before you leave and when you are back."),
         "from memory, unconfirmed"},
        {"levels.barometer_offset_large",
         RILLMARK_TR(
             "The two barometers differ by {offset} at the same place, more than {limit}. Does one of them show the "
             "pressure reduced to sea level? Set both to the pressure of the place."),
         "our choice, no source"},
        {"levels.barometers_apart",
         RILLMARK_TR(
             "Between the first and the last comparison the two barometers came apart by {change}, more than their "
             "noise explains ({limit}). Let both take the temperature of the air, and repeat."),
         ""},
        {"levels.barometers_nothing_common",
         RILLMARK_TR("The two barometers have no time in common. Read both at the same place at the same time."), ""},
        {"levels.base_log_gap",
         RILLMARK_TR(
             "Row {row} falls into a gap of the base's log ({count} such rows, gap up to {gap}). The pressure is "
             "carried across it in a straight line. Set the logger to a shorter interval."),
         "limit 30 minutes: our choice, no source"},
        {"levels.base_log_short",
         RILLMARK_TR(
             "Row {row} lies outside the time of the base's log ({count} such rows, up to {gap}). The nearest reading "
             "is used. Let the base log run from before the first reading to after the last."),
         "limit 10 minutes: our choice, no source"},
        {"levels.reading_beyond_base_log",
         RILLMARK_TR(
             "Row {row} lies {gap} or less, but more than {limit}, outside the time of the base's log: it is left out "
             "({count} such rows). Check that both clocks show the same time."),
         "limit 10 minutes: our choice, no source"},
        // What makes the uncertainty
        {"levels.barometer_base_reading", RILLMARK_TR("Reading of the barometer at the base"), ""},
        {"levels.barometer_drift", RILLMARK_TR("Change of the weather between visits to the base"), ""},
        {"levels.barometer_offset", RILLMARK_TR("Difference of the two barometers"), ""},
        {"levels.air_temperature", RILLMARK_TR("Temperature and moisture of the air"), ""},
        {"levels.gravity", RILLMARK_TR("Gravity of the place"), ""},
        // The geoid and receivers
        {"levels.geoid_grid_damaged", RILLMARK_TR("The grid of the geoid is damaged. Install the program again."), ""},
        {"levels.receiver_no_height",
         RILLMARK_TR("{where}: the receiver gave no height (a 2D fix). Wait for more satellites and stay again."), ""},
        {"levels.receiver_uncertainty_impossible",
         RILLMARK_TR("{where}: {value} cannot be the uncertainty of a height. It must be above zero."), ""},
        {"levels.receiver_no_heights",
         RILLMARK_TR("No height to use in {count} stays of receivers. Stay at a point with a measured 3D fix."), ""},
        {"levels.receiver_heights_converted",
         RILLMARK_TR(
             "{count} heights above the sea were brought to the ellipsoid by the receiver's own geoid, and from there "
             "to the geoid EGM96."),
         ""},
        {"levels.receiver_heights_by_model",
         RILLMARK_TR(
             "{count} heights above the sea came without the receiver's geoid separation: ± {plus_minus} against "
             "those of other receivers. Use one receiver at both ends, or one that gives the separation."),
         "EGM96 against the separations of twenty receiver logs (computed)"},
        {"levels.receiver_heights_disagree",
         RILLMARK_TR(
             "{where}: the ellipsoidal height and the height above the sea with its separation differ by {off_by}. "
             "The ellipsoidal one is used. Check what the receiver sends."),
         "limit 0.15 m: our choice, no source"},
        {"levels.receiver_geoid", RILLMARK_TR("Geoid of the receiver"), ""},
        {"levels.geoid", RILLMARK_TR("Geoid EGM96"), ""},
        // The file of barometer readings
        {"exchange.method.barometer", RILLMARK_TR("Barometer with returns to a base: heights above it"), ""},
        {"exchange.method.barometer_base", RILLMARK_TR("Barometer carried and barometer at the base: heights above it"),
         ""},
        {"exchange.barometer.point", RILLMARK_TR("name of the point, the base again at each return"), ""},
        {"exchange.barometer.point_of_rover", RILLMARK_TR("name of the point; may be empty for the base"), ""},
        {"exchange.barometer.role", RILLMARK_TR("base or rover: which barometer"), ""},
        {"exchange.barometer.time",
         RILLMARK_TR("seconds, or hh:mm:ss, or yyyy-mm-dd hh:mm:ss; give the date over midnight"), ""},
        {"exchange.barometer.pressure", RILLMARK_TR("of the place, not reduced to sea level"), ""},
        {"exchange.barometer.temperature", RILLMARK_TR("of the air in the shade"), ""},
        {"exchange.barometer.humidity", RILLMARK_TR("relative humidity of the air, 60 ± 46 % where empty"), ""},
        {"exchange.barometer.base", RILLMARK_TR("name of the base, that of the first row where empty"), ""},
        {"exchange.barometer.noise", RILLMARK_TR("standard uncertainty of one reading"), ""},
        {"exchange.barometer.resolution", RILLMARK_TR("last digit of the barometer"), ""},
        {"exchange.barometer.temperature_uncertainty",
         RILLMARK_TR("standard uncertainty of the mean temperature of the air"), ""},
        {"exchange.barometer.latitude", RILLMARK_TR("for gravity, any where empty"), ""},
        {"exchange.table.rises", RILLMARK_TR("Heights above the base"), ""},
        {"exchange.result.rise_above_base", RILLMARK_TR("height above the base"), ""},
        {"exchange.result.drift", RILLMARK_TR("change at the base"), ""},
        {"exchange.result.offset", RILLMARK_TR("carried barometer minus base"), ""},
        {"exchange.time_unreadable",
         RILLMARK_TR("{cell} is no time. Write seconds, hh:mm, hh:mm:ss or yyyy-mm-dd hh:mm:ss."), ""},
        {"exchange.role_unknown", RILLMARK_TR("{cell} is no role. Write one of: {accepted}."), ""},
    };
    return table;
}

} // namespace rillmark::words
