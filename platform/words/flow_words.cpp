// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> flow_words() {
    static constexpr const char* kPractice = "common practice, no source";
    static constexpr const char* kOwn = "our own choice";
    static constexpr const char* kUsgs = "USGS summaries of TWRI 3-A8";
    static constexpr const char* kHydrometrie =
        "ISO 748:2007 as printed in G. Morgenschweis, Hydrometrie (Springer), sec. 4.5";
    static constexpr Word table[] = {
        // Methods
        {"flow.method_container", RILLMARK_TR("Container and stopwatch"), ""},
        {"flow.method_velocity_area", RILLMARK_TR("Current meter (velocity-area)"), ""},

        // Lines of the budget
        {"flow.container_volume", RILLMARK_TR("Volume of the container"), ""},
        {"flow.fill_scatter", RILLMARK_TR("Scatter of the fills"), ""},
        {"flow.reaction_time", RILLMARK_TR("Starting and stopping the watch"), ""},
        {"flow.systematic", RILLMARK_TR("Instruments as a whole"), ""},
        {"flow.verticals", RILLMARK_TR("Number of verticals"), ""},
        {"flow.width", RILLMARK_TR("Widths"), ""},
        {"flow.depth", RILLMARK_TR("Depths"), ""},
        {"flow.points", RILLMARK_TR("Number of points in a vertical"), ""},
        {"flow.meter_rating", RILLMARK_TR("Rating of the meter"), ""},
        {"flow.exposure", RILLMARK_TR("Time of exposure"), ""},
        {"flow.still_rotor", RILLMARK_TR("Water slower than the rotor starts"), ""},
        {"flow.wall_velocity", RILLMARK_TR("Velocity taken at a wall"), ""},
        {"flow.test", RILLMARK_TR("Flow test"), ""},

        // Container
        {"flow.no_fills", RILLMARK_TR("No fill has been timed yet. Time at least three."), ""},
        {"flow.bad_volume",
         RILLMARK_TR("Row {row}: a container cannot hold {value}. Enter a volume from 1 mL to 100 m³."), ""},
        {"flow.fill_too_short",
         RILLMARK_TR("Row {row}: the fill took {time}, less than 3 s. Use a larger container or part of the flow."),
         "Connected Water (Australian Government), volumetric measurement of stream flow"},
        {"flow.fill_short",
         RILLMARK_TR("Row {row}: the fill took {time}. From 10 s on the watch matters little; use a larger container "
                     "if you have one."),
         "from memory, unconfirmed"},
        {"flow.few_fills",
         RILLMARK_TR("Fills timed: {count} of at least {needed}. Their scatter is not known yet, and {scatter} or "
                     "more is taken. Time more."),
         "Connected Water (Australian Government); Colorado DRMS file 717889 p. 37"},
        {"flow.fills_scatter",
         RILLMARK_TR(
             "The fills scatter by {scatter}; row {row} is farthest off. Make sure that all the water is caught, "
             "and repeat it."),
         kPractice},

        // Meter and points
        {"flow.bad_rating",
         RILLMARK_TR("The meter's rating does not hold together (at {where}). Compare it with the certificate: "
                     "limits rise from 0, a is above 0, the least velocity is below the greatest."),
         ""},
        {"flow.rating_ranges_part",
         RILLMARK_TR(
             "At {limit} revolutions a second the meter's two ranges give {below} and {above}. They should meet: "
             "compare each coefficient with the certificate."),
         kOwn},
        {"flow.no_rating",
         RILLMARK_TR("Row {row}: revolutions need the rating of the meter. Enter it, or enter the velocity."), ""},
        {"flow.bad_revolutions", RILLMARK_TR("Row {row}: {value} cannot be a count of revolutions."), ""},
        {"flow.bad_time",
         RILLMARK_TR("Row {row}: {value} cannot be the time. Enter the seconds, from 0.05 s to one day."), ""},
        {"flow.bad_velocity",
         RILLMARK_TR("Row {row}: {value} is no velocity of a stream; up to 10 m/s is taken. Look at the number and "
                     "its "
                     "unit, and that revolutions are not entered as revolutions a second."),
         kOwn},
        {"flow.reading_double", RILLMARK_TR("Row {row} has a velocity and revolutions. Keep the one that was read."),
         ""},
        {"flow.reading_incomplete",
         RILLMARK_TR("Row {row} is not complete. Enter the velocity, or revolutions and seconds."), ""},
        {"flow.depth_not_accepted",
         RILLMARK_TR(
             "Row {row}: no rule for a point at {fraction} of the depth. Accepted, down from the surface: 0 (surface), "
             "0.2, 0.4, 0.6, 0.8 and 1 (bed)."),
         kUsgs},
        {"flow.points_not_accepted",
         RILLMARK_TR(
             "Row {row}: these points make no mean. Accepted, as parts of the depth from the surface down: 0.6; "
             "0.2 and 0.8; 0.2, 0.6 and 0.8; surface, 0.2, 0.6, 0.8 and bed; the same with 0.4; the surface alone."),
         "USGS summaries of TWRI 3-A8; more than two points and the surface from memory, unconfirmed"},
        {"flow.vertical_without_velocity",
         RILLMARK_TR("Row {row} at {distance} has depth but no velocity. Read one, or mark it as a bank."), ""},
        {"flow.no_velocity", RILLMARK_TR("No velocity has been read yet. Read at least one, where there is depth."),
         ""},

        // Section
        {"flow.no_width", RILLMARK_TR("The section needs at least two verticals at different distances."), ""},
        {"flow.too_many_rows", RILLMARK_TR("More than {limit} rows are not one section."), ""},
        {"flow.same_distance",
         RILLMARK_TR("Rows {other} and {row} are both at {distance}. Correct one distance, or strike one out."), ""},
        {"flow.bad_distance", RILLMARK_TR("Row {row}: {value} cannot be a distance along the tape."), ""},
        {"flow.bad_depth", RILLMARK_TR("Row {row}: {value} cannot be the depth. Enter 0, or 1 mm to 100 m."), ""},
        {"flow.bad_angle",
         RILLMARK_TR(
             "Row {row}: the angle of flow is {value}. It is measured from straight across the section and stays "
             "below 90 degrees."),
         ""},
        {"flow.bad_option", RILLMARK_TR("The setting {where} cannot be {value}."), ""},
        {"flow.bank_inside",
         RILLMARK_TR(
             "Row {row} at {distance} is marked as a bank but lies between other verticals. Correct its distance "
             "or the mark; the two sides of an island or of ice are two banks beside each other."),
         ""},
        {"flow.edge_with_depth",
         RILLMARK_TR("Row {row}: a sloping bank has no depth, but {value} is entered. Mark it as a vertical bank."),
         ""},
        {"flow.wall_without_depth",
         RILLMARK_TR("Row {row}: a vertical bank needs the depth at its foot. Enter it, or mark a sloping bank."), ""},
        {"flow.velocity_without_depth",
         RILLMARK_TR("Row {row} at {distance} has a velocity but no depth. Enter the depth."), ""},
        {"flow.runs_backwards",
         RILLMARK_TR("The flow adds up to {discharge}, against the stream. Look at the signs of the velocities."), ""},
        {"flow.bank_missing",
         RILLMARK_TR(
             "No bank is given beyond row {row} at {distance}; water there is not counted. Add the water's edge."),
         ""},
        {"flow.wall_velocity_taken",
         RILLMARK_TR("At the wall in row {row}, {velocity} is taken as a share of the next vertical."),
         "from memory, unconfirmed: USGS Water-Supply Paper 2175 for smooth walls"},
        {"flow.panel_large",
         RILLMARK_TR("Panels with more than {limit} of the flow: {count}, the largest at {distance} ({value}). "
                     "More verticals there make it surer."),
         kUsgs},
        {"flow.panel_very_large",
         RILLMARK_TR("Panels with more than {limit} of the flow: {count}, the largest at {distance} ({value}). Add "
                     "verticals beside it."),
         "from memory, unconfirmed"},
        {"flow.few_verticals",
         RILLMARK_TR("Verticals with a velocity: {count}. For a width of {width} at least {needed} are asked for."),
         "ISO 748, from memory, unconfirmed"},
        {"flow.profile_abnormal",
         RILLMARK_TR(
             "Row {row} at {distance}: {upper} above and {lower} below is no normal profile. Read 0.6 of the depth "
             "as well."),
         "from memory, unconfirmed"},
        {"flow.one_point_in_deep_water",
         RILLMARK_TR("Verticals deeper than {limit} with one point only: {count}, the deepest at {distance} "
                     "({value}). Read 0.2 and 0.8 of the depth there."),
         kUsgs},
        {"flow.two_points_in_shallow_water",
         RILLMARK_TR("Verticals shallower than {limit} with more than one point: {count}, the shallowest at "
                     "{distance} ({value}). There 0.6 of the depth alone keeps the meter clear of surface and bed."),
         kUsgs},
        {"flow.angle_applied",
         RILLMARK_TR("Verticals whose velocity is reduced by the cosine of its angle: {count}, most at {distance} "
                     "({value})."),
         ""},
        {"flow.backward_velocity",
         RILLMARK_TR("Verticals where the water runs backwards: {count}, most at {distance} ({value}). A section "
                     "without eddies is better."),
         kPractice},
        {"flow.rotor_stood_still",
         RILLMARK_TR("Points where the rotor stood still: {count}. 0 is taken there, and the water may move at up "
                     "to {value}."),
         ""},
        {"flow.below_rated_velocity",
         RILLMARK_TR("Points slower than the meter's least rated velocity of {limit}: {count}, the slowest at "
                     "{distance} ({value})."),
         "certificate of the meter"},
        {"flow.above_rated_velocity",
         RILLMARK_TR("Points faster than the meter's greatest rated velocity of {limit}: {count}, the fastest at "
                     "{distance} ({value})."),
         "certificate of the meter"},
        {"flow.exposure_too_short",
         RILLMARK_TR("Points read for less than {limit}: {count}, the shortest at {distance} ({value}). Read "
                     "longer."),
         kHydrometrie},
        {"flow.exposure_short",
         RILLMARK_TR("Points read for less than {limit}: {count}, the shortest at {distance} ({value})."), kPractice},
        {"flow.exposure_unknown",
         RILLMARK_TR("Points without a time of exposure: {count}. {limit} is taken for their uncertainty."), kOwn},
        {"flow.velocity_jumps",
         RILLMARK_TR("Neighbours that differ by more than {limit} in velocity: {count}, most at {distance} "
                     "({value}). Add verticals between, or find a more even section."),
         "USBR Water Measurement Manual, ch. 10, sec. 15"},
        {"flow.wading_near_limit",
         RILLMARK_TR(
             "Danger in wading: at {distance} the water is {depth} deep and runs at {velocity} (depth times velocity "
             "{value} m2/s, alert at {limit}). Wear a flotation device, do not go alone, leave when the water "
             "rises."),
         "from memory, unconfirmed; flotation device: USGS Water Resources Division memorandum 99.32"},
        {"flow.wading_beyond_limit",
         RILLMARK_TR(
             "Do not wade here: at {distance} the water is {depth} deep and runs at {velocity} (depth times velocity "
             "{value} m2/s, outer limit {limit}). Measure from the bank or a bridge in a flotation device, or by another method."),
         "rule of ten (10 ft2/s), secondary page; flotation device: USGS Water Resources Division memorandum 99.32"},
        {"flow.sections_differ",
         RILLMARK_TR("Mid-section gives {mid}, mean-section {mean}: more than {limit} apart. Verticals are too few "
                     "or "
                     "badly spaced."),
         kHydrometrie},

        // The flow to use
        {"flow.no_tests", RILLMARK_TR("There is no flow test to rest on yet."), ""},
        {"flow.bad_discharge", RILLMARK_TR("The test {where} gives {value}, which is no flow. Look at its readings."),
         ""},
        {"flow.bad_date", RILLMARK_TR("The test {where} has no valid day ({date}). Enter year, month and day."), ""},
        {"flow.chosen_test_missing",
         RILLMARK_TR("The test chosen for the flow is not there or is set aside. Choose another."), ""},
        {"flow.tests_disagree",
         RILLMARK_TR("The tests of {date} differ by more than their uncertainty explains; it is enlarged {factor} "
                     "times. Look for the mistake in one of them."),
         "chi-square at 95 %; R. T. Birge, Phys. Rev. 40 (1932) 207"},
        {"flow.visits_differ",
         RILLMARK_TR("The visits found different flows: the stream changes, and a mean is not what it will carry "
                     "in low water."),
         "chi-square at 95 %; R. T. Birge, Phys. Rev. 40 (1932) 207"},
        {"flow.rests_on_one_test",
         RILLMARK_TR("The flow rests on one test, of {date}. Repeat it, and come again in low water."), kPractice},
        {"flow.rests_on_one_visit", RILLMARK_TR("The flow rests on one visit, of {date}. Come again in low water."),
         kPractice},
        {"flow.lower_visit_exists",
         RILLMARK_TR("On {date} the stream carried {lowest}, less than the {used} used here."), kPractice},
    };
    return table;
}

} // namespace rillmark::words
