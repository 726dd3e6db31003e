// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kCommonPractice = "common practice, no source";
constexpr const char* kOwn = "our choice, no source";
constexpr const char* kTurbineTable = "assets/tables/turbines.csv, with its sources; unconfirmed until the maker's";

constexpr Word kWords[] = {
    {"power.drive_efficiency", RILLMARK_TR("efficiency of the drive"), ""},
    {"power.intake_loss", RILLMARK_TR("head lost at the intake"), ""},
    {"power.parallel_pipes", RILLMARK_TR("number of pipes side by side"), ""},
    {"power.bad_parallel_pipes",
     RILLMARK_TR("There cannot be {count} pipes side by side. Enter one or more; the pipe waits for it."), ""},
    {"power.no_watts",
     RILLMARK_TR("The chain gives no watts yet, so there is nothing to draw or to add up. See which link is missing."), ""},

    {"power.link_unknown", RILLMARK_TR("This link cannot be computed yet. See which link before it is missing."), ""},

    // Size of a cable, age of a pipe
    {"power.cable_loss", RILLMARK_TR("loss of the cable"), ""},
    {"power.loss_out_of_range",
     RILLMARK_TR("The {where} is {value} of what is put in; from {limit} on more put in brings less out. Choose a "
                 "smaller one: 3 to 5 % is usual."),
     "common practice, no source"},
    {"power.no_conductor_thick_enough",
     RILLMARK_TR("No conductor of the table loses {loss} or less over {length} at {voltage}. Allow more, raise the "
                 "voltage, or lay two side by side with an electrician's advice."),
     ""},
    {"power.cable_loss_only",
     RILLMARK_TR("Loss and voltage drop only. Ampacity, protection, earthing and burial are for the local code and a "
                 "licensed electrician, and may ask for a thicker conductor."),
     ""},
    {"power.age_out_of_range", RILLMARK_TR("The age of a pipe is 0 to {limit} years; {years} were given."), ""},
    {"exchange.penstock.material", RILLMARK_TR("pvc, pe100, steel, ductile-iron or grp"), ""},
    {"exchange.penstock.years", RILLMARK_TR("age of the pipe, for its roughness"), ""},
    {"exchange.result.hazen_williams_loss", RILLMARK_TR("friction loss of the new pipe by Hazen and Williams"), ""},
    {"exchange.method.cable", RILLMARK_TR("Cable: loss, drop, and the conductor for a chosen loss"), ""},
    {"exchange.cable.power", RILLMARK_TR("put in at the generator"), ""},
    {"exchange.cable.length", RILLMARK_TR("one way"), ""},
    {"exchange.cable.voltage", RILLMARK_TR("at the generator; of three phases from line to line"), ""},
    {"exchange.cable.system", RILLMARK_TR("dc, single-phase or three-phase; single-phase where empty"), ""},
    {"exchange.cable.power_factor", RILLMARK_TR("lagging, 1 where empty"), ""},
    {"exchange.cable.conductor", RILLMARK_TR("key of the conductor table; empty: found by the loss"), ""},
    {"exchange.cable.material", RILLMARK_TR("copper or aluminium; copper where empty"), ""},
    {"exchange.cable.sizes", RILLMARK_TR("iec (square millimetres) or nec (AWG); iec where empty"), ""},
    {"exchange.no_such_conductors",
     RILLMARK_TR("There are no conductors of {material} in the sizes {sizes}. Enter copper or aluminium, and iec or nec."), ""},
    {"exchange.cable.largest_loss", RILLMARK_TR("part of what is put in that may be lost"), ""},
    {"exchange.cable.temperature", RILLMARK_TR("of the conductor, 40 °C where empty"), ""},
    {"exchange.conductor_or_loss",
     RILLMARK_TR("Neither a conductor nor a largest loss is given. Give one of them."), ""},
    {"exchange.current_unknown",
     RILLMARK_TR("\"{text}\" is no kind of current. Write dc, single-phase or three-phase."), ""},
    {"exchange.table.cables", RILLMARK_TR("Cables"), ""},
    {"exchange.result.conductor", RILLMARK_TR("conductor"), ""},
    {"exchange.result.current", RILLMARK_TR("current in a line"), ""},
    {"exchange.result.drop", RILLMARK_TR("voltage drop"), ""},
    {"exchange.result.cable_loss", RILLMARK_TR("loss in the cable"), ""},
    {"exchange.result.cable_loss_share", RILLMARK_TR("part lost"), ""},
    {"exchange.result.delivered", RILLMARK_TR("arrives at the house"), ""},

    // What to do next: the input whose better knowledge would narrow the watts most.
    {"power.do_next_gross_head",
     RILLMARK_TR("Level the fall again: the gross head makes {share} of the variance of the watts. Its +/- halved would "
                 "bring theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_flow",
     RILLMARK_TR("Repeat the flow test, by another method if you can: the flow makes {share} of the variance of the watts. "
                 "Its +/- halved would bring theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_water_temperature",
     RILLMARK_TR("Measure the water's temperature: it makes {share} of the variance of the watts. Its +/- halved would bring "
                 "theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_pipe_length",
     RILLMARK_TR("Chain the route of the pipe: its length makes {share} of the variance of the watts. Its +/- halved would "
                 "bring theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_bore",
     RILLMARK_TR("Ask the maker for the bore of {where}, or measure it: it makes {share} of the variance of the watts. Its "
                 "+/- halved would bring theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_roughness",
     RILLMARK_TR("Ask the maker for the roughness of {where} with its joints: it makes {share} of the variance of the watts. "
                 "Its +/- halved would bring theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_minor_k",
     RILLMARK_TR("List the bends, valves and the entrance one by one: they make {share} of the variance of the watts. Their "
                 "+/- halved would bring it from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_intake_loss",
     RILLMARK_TR("Settle the rack and how often it is raked: its loss makes {share} of the variance of the watts. Its +/- "
                 "halved would bring theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_turbine_efficiency",
     RILLMARK_TR("Ask the maker for the turbine's curve at this head and flow: its efficiency makes {share} of the variance "
                 "of the watts. Its +/- halved would bring theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_drive_efficiency",
     RILLMARK_TR("Choose the drive and ask its maker: its efficiency makes {share} of the variance of the watts. Its +/- "
                 "halved would bring theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_generator_efficiency",
     RILLMARK_TR("Ask for the generator's data sheet: its efficiency makes {share} of the variance of the watts. Its +/- "
                 "halved would bring theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_cable_length",
     RILLMARK_TR("Chain the route of the cable: its length makes {share} of the variance of the watts. Its +/- halved would "
                 "bring theirs from {now} to {halved}; known exactly, to {known}."),
     ""},
    {"power.do_next_cable_resistance",
     RILLMARK_TR("Ask for the cable's resistance: it makes {share} of the variance of the watts. Its +/- halved would bring "
                 "theirs from {now} to {halved}; known exactly, to {known}."),
     ""},

    // The pipe as it was put together.
    {"site.section_no_length",
     RILLMARK_TR("Nothing of the route is left for the pipe section \"{section}\": the others take {sections} of {route}. "
                 "Enter its length, or shorten another."),
     ""},
    {"site.sections_off_route",
     RILLMARK_TR("The pipe sections are {sections} long together, the route {route}. Check the lengths, or leave one "
                 "empty to take what is left."),
     kOwn},
    {"site.section_incomplete",
     RILLMARK_TR("The pipe section \"{section}\" lacks its size. Choose a pipe from the table, or enter bore, wall, roughness "
                 "and material."),
     ""},
    {"site.no_pipe_profile",
     RILLMARK_TR("The heights along the pipe are not known yet. Level at least the two ends of its line; high and low spots "
                 "need every station."),
     ""},

    // The intake.
    {"site.flow_more_than_creek",
     RILLMARK_TR("The flow through the turbine, {flow}, is more than the creek had, {creek}. Choose a smaller design flow, or "
                 "say so to the owner: it will not run full at that season."),
     ""},
    {"site.no_freeboard_known",
     RILLMARK_TR("The water level at the flood is not known: enter the flood (or measure it by its marks) and the top of the "
                 "abutments above the crest. The design flood is a hydrologist's number."),
     ""},
    {"site.mouth_too_shallow",
     RILLMARK_TR("The pipe's mouth has {depth} of water above it; against vortices that draw air it wants {needed}. Set it "
                 "deeper, or widen the mouth."),
     "largest of three rules, J. L. Gordon and J. Knauss from memory, ANSI/HI 9.8 at second hand"},

    // The turbine.
    {"site.turbine_head_outside",
     RILLMARK_TR("{where}: the net head of {head} lies outside the usual {lowest} to {highest}. Look at the kinds that fit."),
     kTurbineTable},
    {"site.turbine_no_direct_speed",
     RILLMARK_TR("{where}: no speed of a generator without gear suits it here; it would need a belt or a gear."),
     kTurbineTable},
    {"site.turbine_speed_outside",
     RILLMARK_TR("{where}: the specific speed {ns} (rpm, kW, m) lies outside {lowest} to {highest}. Change speed or jets."),
     kTurbineTable},
    {"site.turbine_set_too_high",
     RILLMARK_TR("{where}: the runner stands {setting} above the tailwater; more than {limit} and it cavitates. Set it lower; "
                 "makers keep 0.5 to 1 m in hand."),
     "D. Thoma; sigma by Handbook of Turbomachinery, 2nd ed., table 4"},
    {"site.turbine_stands_below",
     RILLMARK_TR("{where}: below {flow} through it the turbine stands."), kTurbineTable},
    {"site.head_ends_at_axis",
     RILLMARK_TR("{where} works down to the tailwater through its draft tube, but the head of this alternative ends at the "
                 "turbine axis. Choose the tailwater as its lower end."),
     kCommonPractice},
    {"site.head_ends_at_tailwater",
     RILLMARK_TR("{where} works down to its axis only, but the head of this alternative ends at the tailwater. Choose the "
                 "turbine axis as its lower end."),
     kCommonPractice},
};

} // namespace

std::span<const Word> plant_words() {
    return kWords;
}

} // namespace rillmark::words
