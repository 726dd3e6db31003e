// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> levels_words() {
    static constexpr Word table[] = {
        // The book
        {"levels.book_empty",
         RILLMARK_TR("The book has no reading yet. Begin with a backsight to a point of known level."), ""},
        {"levels.start_level_impossible",
         RILLMARK_TR("The level of the first point, {level}, is not between {lowest} and {highest}. Correct it."),
         "our choice, no source"},
        {"levels.reading_impossible",
         RILLMARK_TR("Reading {row}, to {where}: {reading} cannot be a staff reading (limit {limit} either way). Read "
                     "again, or check the unit."),
         "common practice, no source"},
        {"levels.reading_long",
         RILLMARK_TR("Reading {row}, to {where}: {reading} is more than most staves have ({limit}). Check the reading "
                     "and the unit."),
         "common practice, no source"},
        {"levels.distance_impossible",
         RILLMARK_TR(
             "Reading {row}, to {where}: the distance must be above zero, not {distance}. Correct it or leave it "
             "out."),
         ""},
        {"levels.point_unnamed",
         RILLMARK_TR("A reading or height difference has no point. Name the point at each end."), ""},
        {"levels.no_setup",
         RILLMARK_TR(
             "Reading {row}, to {where}, has no backsight before it. After setting up, sight back to a point of "
             "known level first."),
         ""},
        {"levels.setup_not_finished",
         RILLMARK_TR("Reading {row} is a backsight to {where}, but the set-up before it has no foresight. Book the "
                     "foresight first, or strike out the backsight that does not count."),
         ""},
        {"levels.change_point_mismatch",
         RILLMARK_TR(
             "Reading {row} is a backsight to {where}, but the last foresight was to {foresight_point}. Sight back "
             "to the same point, or correct its name."),
         ""},
        {"levels.book_open",
         RILLMARK_TR(
             "The last set-up, up to {where}, has no foresight yet. The levels are right so far; nothing checks "
             "them."),
         ""},
        {"levels.book_not_closed",
         RILLMARK_TR(
             "The book ends at {where} without a foresight. Book a foresight to a point of known level to close "
             "it."),
         ""},
        // A reading against the other evidence
        {"levels.reading_improbable",
         RILLMARK_TR("The reading to {where}, {reading}, is {off_by} off what the other readings expect ({expected} ± "
                     "{plus_minus}). Read the staff again."),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.reading_maybe_metre",
         RILLMARK_TR("The reading to {where}, {reading}, is {off_by} off. Was the metre misread: {suggested}? Read the "
                     "staff again."),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.reading_maybe_foot",
         RILLMARK_TR("The reading to {where}, {reading}, is {off_by} off. Was the foot misread: {suggested}? Read the "
                     "staff again."),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.reading_maybe_tenth",
         RILLMARK_TR("The reading to {where}, {reading}, is {off_by} off. Was the decimetre misread: {suggested}? Read "
                     "the staff again."),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.reading_maybe_inverted",
         RILLMARK_TR("The reading to {where}, {reading}, is {off_by} off. A staff held upside down is booked with a "
                     "minus sign: is it {suggested}?"),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.reading_maybe_swapped",
         RILLMARK_TR(
             "The reading to {where}, {reading}, is {off_by} off. Were two digits swapped: {suggested}? Read the "
             "staff again."),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.reading_maybe_six_nine",
         RILLMARK_TR("The reading to {where}, {reading}, is {off_by} off. Was a 6 read for a 9, or a 9 for a 6: "
                     "{suggested}? Read the staff again."),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.reading_maybe_feet",
         RILLMARK_TR("The reading to {where}, {reading}, is {off_by} off. Were feet typed as metres: {suggested}? Type it "
                     "again with its unit."),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.reading_maybe_exchanged",
         RILLMARK_TR("The reading to {where}, {reading}, is {off_by} off, twice its difference from the backsight. Were "
                     "backsight and foresight exchanged: {suggested} here? Check both readings of the set-up."),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.rise_improbable",
         RILLMARK_TR("The measured rise of {measured} is {off_by} off what the other evidence expects ({expected} ± "
                     "{plus_minus}). Measure it again."),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.rise_maybe_turned",
         RILLMARK_TR("The measured rise of {measured} is {off_by} off; the other evidence expects {expected} ± {plus_minus}. "
                     "With the other sign it fits: were the two points, or up and down, exchanged?"),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        {"levels.rise_maybe_feet",
         RILLMARK_TR("The measured rise of {measured} is {off_by} off; the other evidence expects {expected} ± {plus_minus}. "
                     "Read as feet it fits: was it typed in the wrong unit?"),
         "limit 3.29 standard uncertainties: W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        // Closing
        {"levels.no_length",
         RILLMARK_TR("The length of the line is not known. Enter it or the sight distances, or choose a rule by "
                     "set-ups."),
         ""},
        {"levels.known_level_impossible",
         RILLMARK_TR("The known level of the closing point is not a number. Correct it."), ""},
        {"levels.misclosure_too_large",
         RILLMARK_TR("The line closes on {where} with {misclosure}, above the {allowed} allowed. Look for the slip and "
                     "level again rather than sharing it out."),
         "the rule chosen for the book"},
        // The height network
        {"levels.network_empty", RILLMARK_TR("There is no height difference and no known height yet. Book a reading."),
         ""},
        {"levels.rise_impossible",
         RILLMARK_TR("The height or height difference at {where}, {rise}, is impossible. Correct it or strike it out."),
         "our choice, no source"},
        {"levels.uncertainty_impossible",
         RILLMARK_TR("The standard uncertainty at {where}, {uncertainty}, must be a number above zero. Correct it."),
         ""},
        {"levels.uncertainties_too_far_apart",
         RILLMARK_TR("The uncertainties of the height evidence run from {smallest} at {smallest_at} to {largest} at "
                     "{where}, too far apart to adjust together. Check the units of both."),
         "our choice, no source: a ratio of one million"},
        {"levels.same_point",
         RILLMARK_TR("A height difference leads from {where} to itself. Name the other point, or strike it out."), ""},
        {"levels.known_heights_differ", RILLMARK_TR("{where} has two fixed heights, {first} and {second}. Keep one."),
         ""},
        {"levels.point_unknown",
         RILLMARK_TR("No height evidence names {where}. Measure to it first, or check its name."), ""},
        {"levels.points_not_joined",
         RILLMARK_TR("Nothing measured joins {where} to {other}. Take a reading from one to the other."), ""},
        {"levels.network_unconnected",
         RILLMARK_TR("{where} (group of {count}) is joined to the datum by no reading, so it has no height yet. Take a "
                     "reading from it to a point of known height."),
         ""},
        {"levels.network_unsolvable",
         RILLMARK_TR(
             "The height evidence cannot be adjusted: its uncertainties are too unlike. Check the largest and the "
             "smallest."),
         ""},
        {"levels.network_test_failed",
         RILLMARK_TR(
             "The height evidence contradicts itself more than its uncertainties allow: {value} against {limit} "
             "(chi-square, 95 %), residuals {s0} times as large as expected. The ± of heights is too small "
             "until the slip is found."),
         "Ghilani and Wolf, Adjustment Computations, 4th ed. (2006); table of chi-square"},
        {"levels.observation_outlier",
         RILLMARK_TR(
             "The reading at {where} does not fit the others: off by {residual} after adjustment, {ratio} times "
             "its standard uncertainty (limit {limit}; {count} beyond it). Repeat this one first, or one "
             "measured along with it."),
         "W. Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"},
        // Inputs of a budget
        {"levels.staff_reading", RILLMARK_TR("staff reading"), ""},
        {"levels.known_height", RILLMARK_TR("height known from outside"), ""},
        // Rules of closing
        {"levels.allowance.site_rule", RILLMARK_TR("Site work: 5 mm × √set-ups"),
         "University levelling slides, Levelling (continued), slide 8"},
        {"levels.allowance.streamgage", RILLMARK_TR("Streamgage: 0.003 ft × √set-ups, at most 0.015 ft"),
         "USGS Techniques and Methods 3-A19, Levels at gaging stations (2010), abstract"},
        {"levels.allowance.first_order_1", RILLMARK_TR("First order, class I: 4 mm × √km"),
         "FGCC, Standards and Specifications for Geodetic Control Networks (1984), section 3.5"},
        {"levels.allowance.first_order_2", RILLMARK_TR("First order, class II: 5 mm × √km"),
         "FGCC, Standards and Specifications for Geodetic Control Networks (1984), section 3.5; from memory, "
         "unconfirmed"},
        {"levels.allowance.second_order_1", RILLMARK_TR("Second order, class I: 6 mm × √km"),
         "FGCC, Standards and Specifications for Geodetic Control Networks (1984), section 3.5; from memory, "
         "unconfirmed"},
        {"levels.allowance.second_order_2", RILLMARK_TR("Second order, class II: 8 mm × √km"),
         "FGCC, Standards and Specifications for Geodetic Control Networks (1984), section 3.5; from memory, "
         "unconfirmed"},
        {"levels.allowance.third_order", RILLMARK_TR("Third order: 12 mm × √km"),
         "FGCC, Standards and Specifications for Geodetic Control Networks (1984), section 3.5"},
        {"levels.allowance.first_order_1_feet", RILLMARK_TR("First order, class I: 0.012 ft × √mile"),
         "University construction surveying laboratory, table of accuracy requirements"},
        {"levels.allowance.first_order_2_feet", RILLMARK_TR("First order, class II: 0.017 ft × √mile"),
         "University construction surveying laboratory, table of accuracy requirements"},
        {"levels.allowance.second_order_1_feet", RILLMARK_TR("Second order, class I: 0.025 ft × √mile"),
         "University construction surveying laboratory, table of accuracy requirements"},
        {"levels.allowance.second_order_2_feet", RILLMARK_TR("Second order, class II: 0.033 ft × √mile"),
         "University construction surveying laboratory, table of accuracy requirements"},
        {"levels.allowance.third_order_feet", RILLMARK_TR("Third order: 0.05 ft × √mile"),
         "University construction surveying laboratory, table of accuracy requirements"},
        {"levels.allowance.fourth_order_feet", RILLMARK_TR("Fourth order: 0.1 ft × √mile"),
         "University construction surveying laboratory, table of accuracy requirements"},
        {"levels.allowance.army_class_2", RILLMARK_TR("US Army precise levelling, class II: 8.4 mm × √km"),
         "US Army, surveying course EN0593, page 4-4"},
        {"levels.allowance.building_fine", RILLMARK_TR("German building practice, fine: 10 mm × √km"),
         "German building practice as quoted on a web page"},
        {"levels.allowance.building_plain", RILLMARK_TR("German building practice, plain: 15 mm × √km"),
         "German building practice as quoted on a web page"},
    };
    return table;
}

} // namespace rillmark::words
