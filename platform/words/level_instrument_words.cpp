// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kOwn = "our choice, no source";
constexpr const char* kPractice = "common practice, no source";
constexpr const char* kSections =
    "FGCC, Standards and Specifications for Geodetic Control Networks (1984), section 3.5; from memory, unconfirmed";

// Three wires, corrections of the sights, tests of the level, levelling forth and back.
constexpr Word kWords[] = {
    {"levels.field_reading_impossible",
     RILLMARK_TR("The {where}, {reading}, cannot be read on a staff (limit {limit} either way). Read again, or check the "
                 "unit."),
     kPractice},
    {"levels.sight_length_impossible",
     RILLMARK_TR("The {where}, {distance}, must be above zero and at most {limit}. Correct it, or check the unit."), kOwn},
    // Three wires
    {"levels.wires_out_of_order",
     RILLMARK_TR("The middle wire, {middle}, is not between the upper, {upper}, and the lower, {lower}. Read all three "
                 "again."),
     ""},
    {"levels.half_intervals_differ",
     RILLMARK_TR("The half intervals of the wires, {upper_half} and {lower_half}, differ by more than {limit}. One wire is "
                 "misread: read all three again."),
     "J. Mahun, Open Access Surveying Library, Elevations, chapter G.2: 2 to 3 units of the last place"},
    {"levels.stadia_impossible",
     RILLMARK_TR("The {where} cannot be {value}. Take it from the papers of the instrument; most have the factor 100 and the "
                 "constant 0."),
     ""},
    {"levels.wire_upper", RILLMARK_TR("reading of the upper wire"), ""},
    {"levels.wire_middle", RILLMARK_TR("reading of the middle wire"), ""},
    {"levels.wire_lower", RILLMARK_TR("reading of the lower wire"), ""},
    {"levels.stadia_factor", RILLMARK_TR("stadia factor"), ""},
    {"levels.stadia_constant", RILLMARK_TR("stadia constant"), ""},
    {"levels.last_digit", RILLMARK_TR("last digit of the readings"), ""},
    // Collimation, curvature and the lengths of the sights
    {"levels.collimation", RILLMARK_TR("collimation of the level"), ""},
    {"levels.sight_length", RILLMARK_TR("length of the sight"), ""},
    {"levels.earth_radius", RILLMARK_TR("radius of the earth"), ""},
    {"levels.refraction", RILLMARK_TR("coefficient of refraction"), ""},
    {"levels.collimation_impossible",
     RILLMARK_TR("A line of sight {error} off level in {over} is more than any level in use has (limit {limit}). Look for a "
                 "slip in the readings and distances of the test."),
     kOwn},
    {"levels.curvature_impossible",
     RILLMARK_TR("The {where} cannot be {value}. The earth has 6371 km, refraction is 0.14 of curvature and stays within "
                 "-1 to 1."),
     kOwn},
    {"levels.setup_unbalanced",
     RILLMARK_TR("Set-up {setup}, to {where}: the backsight is {backsight} long and the foresight {foresight}, further apart "
                 "than {limit}. Where the ground allows, set up midway; else test the level and enter its collimation."),
     "US Army, surveying course EN0593: 10 m in a set-up"},
    {"levels.setup_unbalanced_corrected",
     RILLMARK_TR("Set-up {setup}, to {where}: the backsight is {backsight} long and the foresight {foresight}, further apart "
                 "than {limit}. The collimation is taken out; its doubt stays. Where the ground allows, set up midway."),
     "US Army, surveying course EN0593: 10 m in a set-up"},
    {"levels.collimation_cost",
     RILLMARK_TR("Backsights less foresights come to {difference} of length in {setups} set-ups. The collimation of the level "
                 "put {cost} ± {plus_minus} into the rise of the line; it is taken out."),
     ""},
    {"levels.sights_not_corrected",
     RILLMARK_TR("{count} readings, the first to {where}, have no distance and stay as read. Enter their distances to correct "
                 "them."),
     ""},
    // The two-peg test
    {"levels.distance_a", RILLMARK_TR("distance to A"), ""},
    {"levels.distance_b", RILLMARK_TR("distance to B"), ""},
    {"levels.reading_a", RILLMARK_TR("reading on A"), ""},
    {"levels.reading_b", RILLMARK_TR("reading on B"), ""},
    {"levels.known_rise", RILLMARK_TR("known rise from A to B"), ""},
    {"levels.peg_limit_impossible",
     RILLMARK_TR("The limit of the test must be above zero, not {limit} in 100 m. Correct it."), ""},
    {"levels.peg_setups_missing",
     RILLMARK_TR("A test needs two set-ups, or one and the known rise between the pegs. Set up midway, then near one peg."),
     ""},
    {"levels.peg_same_geometry",
     RILLMARK_TR("The set-ups are alike: the difference of their distances to both pegs changes by {difference} only (at "
                 "least {limit}), so they cannot tell collimation from height. Set up midway, then near one peg."),
     kOwn},
    {"levels.pegs_swapped",
     RILLMARK_TR("Set-up {setup} contradicts the rest: the line of sight would be {error} off level in {over}, and only "
                 "{error_if_swapped} with its pegs swapped. The higher peg has the smaller reading: see which is which."),
     kOwn},
    {"levels.peg_contradicts_known_rise",
     RILLMARK_TR("The readings contradict the known rise: the line of sight would be {error} off level in {over}, and only "
                 "{error_if_swapped} if B were as much lower as it is said to be higher. The higher peg has the smaller "
                 "reading: see which is which."),
     kOwn},
    {"levels.collimation_beyond_limit",
     RILLMARK_TR("The line of sight is {error} ± {plus_minus} off level in {over}, above the {limit} allowed. Keep the "
                 "sights of a set-up equal, enter the collimation, or have the level adjusted."),
     "3 mm in 100 m: USGS Techniques and Methods 3-A19, Levels at gaging stations (2010), abstract; or your own limit"},
    {"levels.peg_test_weak",
     RILLMARK_TR("This test knows the line of sight to ± {plus_minus} in {over}, less well than the limit of {limit}. Read "
                 "more often, or set the pegs further apart."),
     ""},
    {"levels.peg_setups_disagree",
     RILLMARK_TR("The set-ups of this test contradict each other more than their readings allow ({value} against {limit}, "
                 "chi-square, 95 %). Test again."),
     "table of chi-square"},
    // Reciprocal levelling
    {"levels.staves_swapped",
     RILLMARK_TR("Seen from A, B is {from_a} above A, seen from B {from_b}: an error of {error} (expected up to {limit}) that almost "
                 "vanishes with the staves of one bank swapped. See which reading is on A and which on B."),
     kOwn},
    {"levels.line_error_large",
     RILLMARK_TR("Seen from A, B is {from_a} above A, seen from B {from_b}: the far reading is {error} off, more than the {limit} "
                 "expected. Their mean is free of it only if nothing was moved; read both banks again."),
     kOwn},
    {"levels.refraction_unlikely",
     RILLMARK_TR("Refraction comes out as {value} ± {plus_minus} of curvature, which air does not do (0.14 is usual). Check "
                 "the distance and the collimation."),
     kOwn},
    // Forth and back
    {"levels.runs_do_not_meet",
     RILLMARK_TR("The line runs from {start} to {end} and the way back from {where} to {back_end}. Book the way back from the "
                 "end to the start, or correct the names."),
     ""},
    {"levels.double_run_differs",
     RILLMARK_TR("The line to {where} and the way back differ by {difference}, above the {allowed} allowed. Level it again "
                 "rather than taking the mean."),
     "the rule chosen for the line"},
    {"levels.allowance.section_first_order_1", RILLMARK_TR("Forth and back, first order, class I: 3 mm × √km"), kSections},
    {"levels.allowance.section_first_order_2", RILLMARK_TR("Forth and back, first order, class II: 4 mm × √km"), kSections},
    {"levels.allowance.section_second_order_1", RILLMARK_TR("Forth and back, second order, class I: 6 mm × √km"), kSections},
    {"levels.allowance.section_second_order_2", RILLMARK_TR("Forth and back, second order, class II: 8 mm × √km"), kSections},
    {"levels.allowance.section_third_order", RILLMARK_TR("Forth and back, third order: 12 mm × √km"), kSections},
    // What reduce takes and gives
    {"exchange.wire_missing",
     RILLMARK_TR("One of the two outer wires is missing here. Enter it, or leave both out."), ""},
    {"exchange.answer_unknown", RILLMARK_TR("The parameter {parameter} is yes or no, not \"{cell}\"."), ""},
    {"exchange.levels.upper", RILLMARK_TR("upper wire; the reading is then the middle wire"), ""},
    {"exchange.levels.lower", RILLMARK_TR("lower wire"), ""},
    {"exchange.levels.backsight_upper", RILLMARK_TR("upper wire of the backsight to a change point"), ""},
    {"exchange.levels.backsight_lower", RILLMARK_TR("lower wire of the backsight to a change point"), ""},
    {"exchange.levels.stadia_factor", RILLMARK_TR("distance per wire interval"), ""},
    {"exchange.levels.stadia_constant", RILLMARK_TR("added to the distance from the wires"), ""},
    {"exchange.levels.last_digit", RILLMARK_TR("last digit of the wire readings"), ""},
    {"exchange.levels.collimation", RILLMARK_TR("rise of the line of sight per metre, of the two-peg test"), ""},
    {"exchange.levels.collimation_uncertainty", RILLMARK_TR("standard uncertainty of the collimation"), ""},
    {"exchange.levels.curvature", RILLMARK_TR("yes: take out curvature and refraction"), ""},
    {"exchange.method.two_peg", RILLMARK_TR("Two-peg test: collimation of a level, one set-up a row"), ""},
    {"exchange.two_peg.distance_a", RILLMARK_TR("instrument to peg A"), ""},
    {"exchange.two_peg.reading_a", RILLMARK_TR("staff reading on peg A"), ""},
    {"exchange.two_peg.distance_b", RILLMARK_TR("instrument to peg B"), ""},
    {"exchange.two_peg.reading_b", RILLMARK_TR("staff reading on peg B"), ""},
    {"exchange.two_peg.reading_uncertainty", RILLMARK_TR("standard uncertainty of a reading"), ""},
    {"exchange.two_peg.limit", RILLMARK_TR("collimation allowed, per metre"), ""},
    {"exchange.two_peg.known_rise", RILLMARK_TR("rise from A to B, where it is known"), ""},
    {"exchange.two_peg.known_rise_uncertainty", RILLMARK_TR("its standard uncertainty"), ""},
    {"exchange.method.reciprocal", RILLMARK_TR("Reciprocal levelling across a gully, one crossing a row"), ""},
    {"exchange.reciprocal.crossing", RILLMARK_TR("name of the crossing"), ""},
    {"exchange.reciprocal.a_from_a", RILLMARK_TR("reading on A, the level beside A"), ""},
    {"exchange.reciprocal.b_from_a", RILLMARK_TR("reading on B, the level beside A"), ""},
    {"exchange.reciprocal.a_from_b", RILLMARK_TR("reading on A, the level beside B"), ""},
    {"exchange.reciprocal.b_from_b", RILLMARK_TR("reading on B, the level beside B"), ""},
    {"exchange.reciprocal.distance", RILLMARK_TR("A to B; with it and the collimation refraction follows"), ""},
    {"exchange.reciprocal.near_uncertainty", RILLMARK_TR("standard uncertainty of a reading on the own bank"), ""},
    {"exchange.reciprocal.far_uncertainty", RILLMARK_TR("standard uncertainty of a reading across"), ""},
    {"exchange.reciprocal.refraction_change", RILLMARK_TR("change of refraction between the set-ups, as part of curvature"),
     ""},
    {"exchange.table.right_readings", RILLMARK_TR("Readings of a level line of sight"), ""},
    {"exchange.result.right_reading_a", RILLMARK_TR("on A"), ""},
    {"exchange.result.right_reading_b", RILLMARK_TR("on B"), ""},
    {"exchange.result.collimation", RILLMARK_TR("rise of the line of sight"), ""},
    {"exchange.result.collimation_in_100_m", RILLMARK_TR("rise of the line of sight in 100 m"), ""},
    {"exchange.result.collimation_cost", RILLMARK_TR("collimation taken out of the rise"), ""},
    {"exchange.result.rise_a_to_b", RILLMARK_TR("rise from A to B"), ""},
    {"exchange.result.line_error", RILLMARK_TR("far reading too large by"), ""},
    {"exchange.result.refraction", RILLMARK_TR("refraction as part of curvature"), ""},
};

} // namespace

std::span<const Word> level_instrument_words() {
    return kWords;
}

} // namespace rillmark::words
