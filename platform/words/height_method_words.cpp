// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> height_method_words() {
    static constexpr Word table[] = {
        {"levels.method_water_tube", RILLMARK_TR("Water tube"), ""},
        {"levels.method_water_tube.advice",
         RILLMARK_TR("Hold both ends of the tube upright beside a staff, wait until the water stands still, and read the "
                     "water above each point. No bubbles, no kink, both legs equally warm; stop the ends while walking."),
         ""},
        {"levels.method_water_tube.caution", RILLMARK_TR("Look where you step, not at the tube: stop, then read."), ""},
        {"levels.method_hose_gauge", RILLMARK_TR("Hose and pressure gauge"), ""},
        {"levels.method_hose_gauge.advice",
         RILLMARK_TR("Fill the hose from above until it runs without air, close the lower end at the gauge, leave the upper "
                     "end open in the water, tap the gauge and read. Read the gauge without pressure first, at the upper "
                     "point. A long way is done in stretches: from the upper to the lower end of each."),
         ""},
        {"levels.method_hose_gauge.caution",
         RILLMARK_TR("A full hose is under pressure: open it slowly, and keep your face away from its end and the gauge."), ""},
        {"levels.method_hand_level", RILLMARK_TR("Hand level by eye height"), ""},
        {"levels.method_hand_level.advice",
         RILLMARK_TR("Stand at the lower point, sight level to the slope above, walk to the spot that was hit and stand there; "
                     "count the sights. Measure your eye height in the boots you walk in: an error in it counts with every "
                     "sight. The part beyond the whole eye heights is typed apart."),
         ""},
        {"levels.method_hand_level.caution", RILLMARK_TR("Steep ground: find your footing before you look through the level."), ""},
        {"levels.method_clinometer", RILLMARK_TR("Clinometer and distance"), ""},
        {"levels.method_clinometer.advice",
         RILLMARK_TR("Sight to a mark at the height of your eye and measure the distance, along the slope or level. Sight back "
                     "from the other end as well: the mean takes out the error of the instrument. An "
                     "instrument that shows per cent has its own field: 45 degrees are 100 %."),
         ""},
        {"levels.method_clinometer.caution", RILLMARK_TR("Steep ground: stand firmly before you sight, and rope up where a fall would be serious."), ""},
        {"levels.method_zenith", RILLMARK_TR("Zenith angle and distance"), ""},
        {"levels.method_zenith.advice",
         RILLMARK_TR("Set up over the first point, measure the height of the instrument and of the target, read the zenith angle "
                     "and the distance along the slope. Read both ways on long sights."),
         ""},
        {"levels.method_zenith.caution", RILLMARK_TR("Never sight at or near the sun."), ""},
        {"levels.method_barometer", RILLMARK_TR("Barometer, back to the base"), ""},
        {"levels.method_barometer.advice",
         RILLMARK_TR("Read at the base, at each point, and at the base again within the hour: what the base has changed is shared "
                     "out by time. Out of the wind, instrument in the shade, air temperature beside each reading."),
         ""},
        {"levels.method_barometer.caution", RILLMARK_TR("A fast falling pressure announces weather: leave the creek in time."), ""},
        {"levels.method_base_and_rover", RILLMARK_TR("Two barometers, base and rover"), ""},
        {"levels.method_base_and_rover.advice",
         RILLMARK_TR("Leave one instrument at the base and let it log; read both side by side at the base first and last. The rover "
                     "is read at each point while the base logs."),
         ""},
        {"levels.method_base_and_rover.caution", RILLMARK_TR("A fast falling pressure announces weather: leave the creek in time."), ""},
        {"levels.method_reciprocal", RILLMARK_TR("Reciprocal levelling over a gully"), ""},
        {"levels.method_reciprocal.advice",
         RILLMARK_TR("Set up close to the first point, read the staff on both points; cross over, set up close to the second, read "
                     "both again, soon after. The mean is free of the line of sight and of the air between."),
         ""},
        {"levels.method_reciprocal.caution", RILLMARK_TR("Go round or rope up: a gully is where surveyors fall."), ""},
        {"levels.method_known_height", RILLMARK_TR("Known height, bench mark"), ""},
        {"levels.method_known_height.advice",
         RILLMARK_TR("A height from a list of bench marks with its ±. Name the datum in the remark: heights of two datums are never mixed."),
         ""},
        {"levels.method_tape", RILLMARK_TR("Taped or laser distance"), ""},
        {"levels.method_tape.advice",
         RILLMARK_TR("Along the slope or level, leg by leg. It gives no height, but the length of the line."), ""},
        {"levels.method_tape.caution", RILLMARK_TR("Do not look into the laser, and do not walk backwards with the tape."), ""},
        {"levels.method_two_peg", RILLMARK_TR("Two-peg test of the level"), ""},
        {"levels.method_two_peg.advice",
         RILLMARK_TR("Two pegs some 40 to 60 m apart. First set up midway and read both: their difference is true whatever the "
                     "instrument. Then set up near one peg, or beyond it in line, and read both again, with the distances."),
         ""},
        {"levels.wires_missing", RILLMARK_TR("Read all three wires: upper, middle and lower."), ""},
        {"levels.method_unknown",
         RILLMARK_TR("{where} was measured in a way that this version does not know ({method}). It is left out; use a newer version."), ""},
        {"levels.distance_missing", RILLMARK_TR("{where}: no distance. Give the one along the slope, or the level one."), ""},
        {"levels.angle_missing", RILLMARK_TR("{where}: no angle. Type it in degrees, or as a slope in per cent."), ""},
        {"levels.other_bank_missing", RILLMARK_TR("One bank only. Cross over and read both staffs from the other one."), ""},
        {"levels.peg_test_holds_for",
         RILLMARK_TR("Tested on {date}. The test holds for {days} days, and not beyond a hard knock or a long ride."),
         "common practice, no source"},
        {"levels.receiver_datum", RILLMARK_TR("datum of the receiver against the bench mark"), ""},
        {"levels.level_book", RILLMARK_TR("Level book"), ""},
        {"levels.receiver_height", RILLMARK_TR("Height from a receiver"), ""},
    };
    return table;
}

} // namespace rillmark::words
