// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> gauging_words() {
    static constexpr const char* kBudget = "the budget of ISO 748:2007, computed again with that changed";
    static constexpr Word table[] = {
        // Lines of the budget by interpolated variance
        {"flow.depth_scatter", RILLMARK_TR("Depths that their neighbours do not foretell"), ""},
        {"flow.velocity_scatter", RILLMARK_TR("Velocities that their neighbours do not foretell"), ""},

        // Weighed fills
        {"flow.bad_weight",
         RILLMARK_TR(
             "Full {full} and empty {empty} are no weights of one container. Full is more than empty; look at the "
             "numbers and their units."),
         ""},

        // Section
        {"flow.part_of_one",
         RILLMARK_TR(
             "Row {row} at {distance} begins a part of the section that has no other vertical yet. Read on, or take "
             "its mark as a bank away."),
         ""},
        {"flow.part_without_velocity",
         RILLMARK_TR("No velocity has been read in the part of the section that begins in row {row} at {distance}."),
         ""},
        {"flow.island",
         RILLMARK_TR("From {from} to {to} nothing is taken to flow: an island or ice between two banks."), ""},
        {"flow.depth_jumps",
         RILLMARK_TR(
             "Depths far from the line between their neighbours: {count}, most at {distance}, where {value} of the "
             "area hangs on one depth (limit {limit}). Look for a slip, or sound beside it."),
         "USBR Water Measurement Manual, ch. 10, sec. 15, for the area by the line of the bed; how it is judged is our "
         "own choice"},
        {"flow.surface_only",
         RILLMARK_TR(
             "Verticals read at the surface only: {count}. Their mean is taken as a share of it, the most doubtful "
             "rule (15 %): read 0.6 of the depth where the meter reaches it."),
         "ISO 748:2007 as printed in G. Morgenschweis, Hydrometrie (Springer), Tab. 4.11; the share from memory, "
         "unconfirmed"},

        // What would make it surer
        {"flow.improve_verticals",
         RILLMARK_TR("Twice the verticals, {count}: ±{now} of the flow would become ±{then}."), kBudget},
        {"flow.improve_exposure",
         RILLMARK_TR("Twice the time at every point, {time} or more: ±{now} of the flow would become ±{then}."),
         kBudget},
        {"flow.improve_points",
         RILLMARK_TR(
             "Two points, at 0.2 and 0.8, in the verticals deeper than {limit} ({count}): ±{now} of the flow would "
             "become ±{then}."),
         kBudget},
        {"flow.improve_surface",
         RILLMARK_TR(
             "A point at 0.6 of the depth where only the surface was read ({count} verticals): ±{now} of the flow "
             "would become ±{then}."),
         kBudget},
        {"flow.improve_depths", RILLMARK_TR("Every depth sounded twice: ±{now} of the flow would become ±{then}."),
         kBudget},
        {"flow.improve_rating", RILLMARK_TR("A rating of this very meter: ±{now} of the flow would become ±{then}."),
         kBudget},

        // reduce
        {"exchange.container.full", RILLMARK_TR("weight of the container with the water, in place of a volume"), ""},
        {"exchange.container.empty", RILLMARK_TR("weight of the empty container"), ""},
        {"exchange.container.temperature", RILLMARK_TR("of the water weighed, 10 °C where empty"), ""},
        {"exchange.volume_twice", RILLMARK_TR("A volume and a weight stand here. Keep the one that was measured."), ""},
        {"site.meter_range_in_part",
         RILLMARK_TR("Range {range} of the rating is there in part: a and b belong together, and from the second range on its limit too."),
         ""},
        {"exchange.velocity_area.meter",
         RILLMARK_TR("name of the meter, where there are several: the rating of each in the columns of its first row, by the names of "
                     "the parameters"),
         ""},
        {"exchange.meter_differs",
         RILLMARK_TR("Two ratings are given for the meter \"{meter}\". Give it in the first of its rows alone, or give the other meter "
                     "a name of its own."),
         ""},
        {"exchange.velocity_area.rating_limit2", RILLMARK_TR("revolutions per second above which the third range holds"), ""},
        {"exchange.velocity_area.rating_a3", RILLMARK_TR("a of the third range"), ""},
        {"exchange.velocity_area.rating_b3", RILLMARK_TR("b of the third range"), ""},
        {"exchange.velocity_area.rated_from", RILLMARK_TR("least velocity that the meter is rated for"), ""},
        {"exchange.velocity_area.rated_to", RILLMARK_TR("greatest velocity that the meter is rated for"), ""},
        {"exchange.velocity_area.own_rating", RILLMARK_TR("yes where this very meter was rated, not its type"), ""},
        {"exchange.velocity_area.surface_share", RILLMARK_TR("mean velocity over that at the surface"),
         "from memory, unconfirmed: ISO 748, 0.84 to 0.90"},
        {"exchange.velocity_area.wall_share", RILLMARK_TR("velocity at a wall over that of its neighbour"),
         "from memory, unconfirmed: USGS Water-Supply Paper 2175"},
        {"exchange.velocity_area.depth_uncertainty", RILLMARK_TR("standard uncertainty of one depth"), ""},
        {"exchange.result.discharge_by_interpolation", RILLMARK_TR("the same, its ± by interpolated variance"), ""},
    };
    return table;
}

} // namespace rillmark::words
