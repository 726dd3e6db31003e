// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kCommonPractice = "common practice, no source";

constexpr Word kWords[] = {
    // The inputs of the estimate, as they are named in its budget and as places of a finding.
    {"power.gross_head", RILLMARK_TR("gross head"), ""},
    {"power.flow", RILLMARK_TR("flow"), ""},
    {"power.water_temperature", RILLMARK_TR("water temperature"), ""},
    {"power.latitude", RILLMARK_TR("latitude"), ""},
    {"power.height", RILLMARK_TR("height above the sea"), ""},
    {"power.gravity", RILLMARK_TR("gravity"), ""},
    {"power.viscosity", RILLMARK_TR("viscosity"), ""},
    {"power.reynolds", RILLMARK_TR("Reynolds number"), ""},
    {"power.pipe_length", RILLMARK_TR("length of the pipe"), ""},
    {"power.bore", RILLMARK_TR("bore of the pipe"), ""},
    {"power.roughness", RILLMARK_TR("roughness of the pipe"), ""},
    {"power.friction_formula", RILLMARK_TR("friction formula"), "Oregon smooth-pipe facility, measured friction"},
    {"power.friction_loss", RILLMARK_TR("head lost in the pipe"), ""},
    {"power.hazen_williams_c", RILLMARK_TR("Hazen-Williams coefficient"), ""},
    {"power.minor_k", RILLMARK_TR("bends, valves and entrance"), ""},
    {"power.pressure_rating", RILLMARK_TR("pressure rating of the pipe"), ""},
    {"power.turbine_efficiency", RILLMARK_TR("efficiency of the turbine"), ""},
    {"power.generator_efficiency", RILLMARK_TR("efficiency of generator and drive"), ""},
    {"power.cable_length", RILLMARK_TR("length of the cable"), ""},
    {"power.cable_resistance", RILLMARK_TR("resistance of the cable"), ""},
    {"power.cable_reactance", RILLMARK_TR("reactance of the cable"), ""},
    {"power.cable_power", RILLMARK_TR("power through the cable"), ""},
    {"power.conductor_temperature", RILLMARK_TR("temperature of the conductor"), ""},
    {"power.voltage", RILLMARK_TR("voltage"), ""},
    {"power.power_factor", RILLMARK_TR("power factor"), ""},

    // What is missing.
    {"power.missing_gross_head",
     RILLMARK_TR("No gross head yet. Measure the fall from intake to powerhouse in Levels; the watts wait for it."),
     ""},
    {"power.missing_flow",
     RILLMARK_TR("No flow yet. Make a flow test, or type the flow for the turbine; pipe loss and watts wait for it."),
     ""},
    {"power.missing_pipe",
     RILLMARK_TR("No pipe chosen. Choose one, or look at the table of sizes; net head and watts wait "
                 "for it."),
     ""},
    {"power.missing_cable",
     RILLMARK_TR("No cable chosen. The estimate ends at the generator; choose a cable to see watts at the house."), ""},

    // Inputs that are refused.
    {"power.not_positive", RILLMARK_TR("The {where} must be more than zero; it is {value}. Enter it again."), ""},
    {"power.negative", RILLMARK_TR("The {where} cannot be below zero; it is {value}. Enter it again."), ""},
    {"power.uncertainty_too_large",
     RILLMARK_TR("The {where}, {value}, is known to +/- {uncertainty} only: too little to "
                 "compute with. Measure it better or enter a smaller +/-."),
     ""},
    {"power.efficiency_out_of_range",
     RILLMARK_TR("The {where} is {value}; nothing gives back more than is put in. Enter at most 100 %."), ""},
    {"power.water_temperature_out_of_range",
     RILLMARK_TR(
         "Water of {temperature} is outside {lowest} to {highest}, where its density and viscosity are known here. "
         "Check the temperature."),
     "M. Tanaka et al., Metrologia 38 (2001) 301-309; J. Kestin et al., J. Phys. Chem. Ref. Data 7 (1978) 941"},
    {"power.latitude_out_of_range", RILLMARK_TR("Latitude {latitude} is not on the earth. Enter -90 to 90 degrees."),
     ""},
    {"power.height_out_of_range",
     RILLMARK_TR("A height of {height} above the sea is outside {lowest} to {highest}. Check the height of the site."),
     ""},
    {"power.too_rough_for_formula",
     RILLMARK_TR(
         "The wall is too rough for the friction formula: roughness is {relative_roughness} of the bore, the limit "
         "is {limit}. Check the roughness and the bore, and their units."),
     "L. F. Moody, Friction factors for pipe flow, Trans. ASME 66 (1944) 671"},
    {"power.no_solution",
     RILLMARK_TR("No flow was found that loses that head in this pipe. Check length, bore and head."), ""},
    {"power.power_factor_out_of_range",
     RILLMARK_TR("A power factor of {value} cannot be. Enter more than 0 and at most 1; direct current has 1."), ""},
    {"power.conductor_temperature_out_of_range",
     RILLMARK_TR("A conductor of {temperature} is outside {lowest} to {highest}. Check its temperature."),
     kCommonPractice},
    {"power.cable_cannot_carry",
     RILLMARK_TR(
         "The cable cannot carry {power} at {voltage}: half of it or more would be lost on the way. Choose a larger "
         "conductor or a higher voltage."),
     ""},
    {"power.unknown_pipe", RILLMARK_TR("There is no pipe \"{id}\" in the tables. Choose another, or enter its bore."),
     ""},
    {"power.unknown_conductor",
     RILLMARK_TR("There is no conductor \"{id}\" in the tables. Choose another, or enter its resistance."), ""},
    {"power.unknown_fitting",
     RILLMARK_TR("There is no fitting \"{id}\" in the tables. Choose another, or enter its loss coefficient."), ""},
    {"power.unknown_machine",
     RILLMARK_TR("There is no machine \"{id}\" in the tables. Choose another, or enter its efficiency."), ""},
    {"power.table_missing", RILLMARK_TR("The table {where} is missing from this program. Install it again."), ""},
    {"power.table_column_missing", RILLMARK_TR("The table {where} has no column {column}."), ""},
    {"power.table_bad_cell",
     RILLMARK_TR("Table {where}, line {line}, column {column}: \"{cell}\" is not a number above zero, or "
                 "the line has too few or too many cells."),
     ""},

    // Limits that are passed.
    {"power.laminar_flow",
     RILLMARK_TR("So little flow that it runs laminar in this pipe (Reynolds number {reynolds})."), kCommonPractice},
    {"power.transition_flow",
     RILLMARK_TR(
         "The flow in this pipe is between laminar and turbulent (Reynolds number {reynolds}), where no formula is "
         "reliable. The larger loss is taken."),
     kCommonPractice},
    {"power.pipe_speed_high",
     RILLMARK_TR(
         "The water runs at {speed}, more than {limit}. Surge grows with the speed: choose a larger pipe, or have the "
         "surge computed by an engineer."),
     kCommonPractice},
    {"power.loss_high",
     RILLMARK_TR(
         "The pipe takes {loss}, {share} of the gross head; usual designs lose at most {limit}. Compare the next "
         "larger size."),
     kCommonPractice},
    {"power.beyond_greatest_power",
     RILLMARK_TR(
         "The pipe takes {loss}, more than a third of the gross head. With this pipe, less water gives more power: "
         "the greatest power is at {best_flow}. Choose a larger pipe or a smaller flow."),
     "K. Subramanya, 1000 Solved Problems in Fluid Mechanics, 2005, example 11.28"},
    {"power.no_net_head",
     RILLMARK_TR(
         "This pipe cannot carry {flow}: with the whole fall of {gross_head} used up it carries {capacity}. No power "
         "is left. Choose a larger pipe or a smaller flow; the greatest power of this pipe is at {best_flow}."),
     ""},
    {"power.static_over_rating",
     RILLMARK_TR(
         "Standing water presses with {pressure} at the lower end, more than the pipe's rating of {rating}. Take a "
         "heavier class, at least for the lower part: a burst pipe can kill."),
     "the pipe's own rating, see its table"},
    {"power.little_room_for_surge",
     RILLMARK_TR(
         "Standing water presses with {pressure} at the lower end, {share} of the pipe's rating of {rating}. Above "
         "{limit} little room is left for surge, which is not included here."),
     kCommonPractice},
    {"power.cable_drop_high",
     RILLMARK_TR(
         "The voltage drops by {drop} on the way, {share}; {limit} is usual. On a long line it is a matter of cost: "
         "compare a larger conductor or a higher voltage. A licensed electrician decides on the cable."),
     "NEC (NFPA 70), informational notes on voltage drop: 5 % in all"},
    {"power.water_to_wire_unusual",
     RILLMARK_TR(
         "From the water at the turbine to the wire at the house {overall} is kept; small sets keep {lowest} to "
         "{highest}. Check the efficiencies against the maker's curve."),
     kCommonPractice},
};

} // namespace

std::span<const Word> power_words() {
    return kWords;
}

} // namespace rillmark::words
