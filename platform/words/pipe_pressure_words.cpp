// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kCommonPractice = "common practice, no source";
constexpr const char* kMichaud = "K. Subramanya, 1000 Solved Problems in Fluid Mechanics, 2005, examples 14.14 to 14.20";
constexpr const char* kCollapse = "2E/((1-v2)(DR-1)3), the buckling column of a PVC maker's dimensional data; safety "
                                  "factor 4 for metal (an air-valve maker's notes), 2 for plastic (common practice)";

constexpr Word kWords[] = {
    // Inputs, as places of a finding and in a budget.
    {"power.pipe_wall", RILLMARK_TR("thickness of the pipe's wall"), ""},
    {"power.outside", RILLMARK_TR("outside diameter of the pipe"), ""},
    {"power.modulus", RILLMARK_TR("modulus of the wall"), ""},
    {"power.poisson", RILLMARK_TR("Poisson ratio of the wall"), ""},
    {"power.anchoring_factor", RILLMARK_TR("anchoring factor"), ""},
    {"power.water_density", RILLMARK_TR("density of the water"), ""},
    {"power.bulk_modulus", RILLMARK_TR("bulk modulus of the water"), ""},
    {"power.wave_speed", RILLMARK_TR("speed of the pressure wave"), ""},
    {"power.speed_change", RILLMARK_TR("change of speed"), ""},
    {"power.closing_time", RILLMARK_TR("closing time"), ""},
    {"power.surge", RILLMARK_TR("surge"), ""},
    {"power.surge_limit", RILLMARK_TR("surge that is allowed"), ""},
    {"power.design_stress", RILLMARK_TR("design stress of the wall"), ""},
    {"power.dimension_ratio", RILLMARK_TR("outside diameter over wall"), ""},
    {"power.wall_temperature", RILLMARK_TR("temperature of the wall"), ""},
    {"power.pipe_material", RILLMARK_TR("material of the pipe"), ""},
    {"power.pressure", RILLMARK_TR("pressure"), ""},
    {"power.thrust", RILLMARK_TR("thrust"), ""},
    {"power.bend_angle", RILLMARK_TR("angle of the bend"), ""},
    {"power.soil_bearing", RILLMARK_TR("pressure that the soil bears"), ""},
    {"power.pipe_slope", RILLMARK_TR("slope of the pipe"), ""},
    {"power.chainage", RILLMARK_TR("chainage along the pipe"), ""},
    {"power.pipe_level", RILLMARK_TR("elevation of the pipe"), ""},
    {"power.intake_level", RILLMARK_TR("water level at the intake"), ""},

    // What is refused.
    {"power.poisson_out_of_range",
     RILLMARK_TR("A Poisson ratio of {value} cannot be. Enter 0 to {highest}; steel has 0.30, PVC 0.38."), ""},
    {"power.dimension_ratio_too_small",
     RILLMARK_TR("Outside diameter over wall is {value}; at {limit} the pipe has no bore. Check both, and their units."),
     ""},
    {"power.unknown_material",
     RILLMARK_TR("There is no pipe material \"{id}\". Take pvc, pe100, steel, ductile-iron or grp."), ""},
    {"power.wall_temperature_out_of_range",
     RILLMARK_TR("A wall of {material} at {temperature} is outside {lowest} to {highest}, for which its strength is "
                 "known here. Shade or bury the pipe, or ask its maker."),
     "GF Harvel, Temperature Derating; Fabco, Temperature Rating; ISO 4427-1, Annex A (from memory)"},
    {"power.bend_out_of_range", RILLMARK_TR("A bend of {angle} cannot be. Enter 0 to {highest}."), ""},
    {"power.pipe_slope_out_of_range", RILLMARK_TR("A pipe cannot fall by {value} of its own length. Check the slope."), ""},
    {"power.too_few_points", RILLMARK_TR("The line of the pipe has {count} points. Give two or more."), ""},
    {"power.chainage_not_growing",
     RILLMARK_TR("Row {row}: chainage {chainage} is not beyond the one before. List the points from the intake down, "
                 "each once."),
     ""},
    {"power.rise_longer_than_pipe",
     RILLMARK_TR("Row {row}: the levels differ by {rise} over {length} of pipe. Chainage is counted along the slope; "
                 "check both."),
     ""},
    {"power.no_section", RILLMARK_TR("No pipe is given. Enter its bore, wall and material."), ""},
    {"power.section_misplaced",
     RILLMARK_TR("A section of pipe begins at {chainage}, off the line or not below the one before. Correct where it "
                 "begins."),
     ""},
    {"power.intake_below_pipe",
     RILLMARK_TR("The water at the intake ({intake}) is lower than the mouth of the pipe ({level}). Both must be in one "
                 "datum; check them."),
     ""},
    {"power.outlet_not_below_intake",
     RILLMARK_TR("The lower end of the pipe ({level}) is not below the water at the intake ({intake}). Check the levels "
                 "and the order of the points."),
     ""},

    // Classes and closing.
    {"power.section_over_static",
     RILLMARK_TR("Section {section}: standing water alone presses with {pressure}, and this class holds {holds}. From "
                 "chainage {chainage} down take a heavier class: a burst pipe can kill. The pipe's maker and the local "
                 "code decide."),
     "the pipe's rating at the wall temperature"},
    {"power.section_over_class",
     RILLMARK_TR("Section {section}: standing water and surge reach {pressure}, and this class holds {holds}. From "
                 "chainage {chainage} down take a heavier class, or close more slowly. Have it checked by a licensed "
                 "engineer."),
     "the pipe's rating at the wall temperature"},
    {"power.class_unknown",
     RILLMARK_TR("Part of the pipe has no pressure rating here, so it was not held against the pressures. Enter the "
                 "rating printed on the pipe."),
     ""},
    {"power.closing_too_fast",
     RILLMARK_TR("Closing in {closing} is too fast for these classes; {needed} or more keeps within them if the flow "
                 "falls evenly. Most valves stop the flow in the last part of their turn: allow much more, and never use "
                 "a quarter-turn valve."),
     kMichaud},
    {"power.surge_simplified",
     RILLMARK_TR("The surge of {surge} is a first estimate: even closing, no friction, simple waves, one intake and one "
                 "valve. Governors, check valves and several pipes need a transient analysis by an engineer."),
     kMichaud},

    // Suction.
    {"power.flow_over_capacity",
     RILLMARK_TR("The pipe cannot carry this flow: the pressure line ends {missing} below the pipe's end. Take a larger "
                 "pipe or less flow."),
     ""},
    {"power.above_static_line",
     RILLMARK_TR("At chainage {chainage} the pipe lies {above} above the water at the intake. It would have to siphon and "
                 "will collect air. Lower it or move the intake."),
     ""},
    {"power.suction_at_flow",
     RILLMARK_TR("At design flow the pressure at chainage {chainage} is {suction} below the air outside. Air comes out "
                 "and leaks suck in. Lower the pipe there, or take a larger bore above it."),
     ""},
    {"power.suction_deep",
     RILLMARK_TR("At design flow the suction at chainage {chainage} is {suction}, more than {limit} of water. Change the "
                 "line or the bore: do not build it so."),
     kCommonPractice},
    {"power.water_parts",
     RILLMARK_TR("At chainage {chainage} the design flow would need a suction of {suction}; at {full_vacuum} water boils "
                 "and the column parts. This flow cannot pass here. Change the line or the bore."),
     "US Standard Atmosphere 1976 less the vapour pressure of the water"},
    {"power.suction_collapse",
     RILLMARK_TR("Section {section}: suction of {suction} at design flow (chainage {chainage}) can flatten this pipe in "
                 "time; it stands {stands}. Change the line, or take a stiffer pipe; ask its maker."),
     kCollapse},
    {"power.surge_suction",
     RILLMARK_TR("The back swing of the surge can fall to {suction} below the air outside, worst at chainage {chainage}. "
                 "Close more slowly; ask an engineer about air valves there."),
     kMichaud},
    {"power.draining_collapse",
     RILLMARK_TR("Section {section}: if the intake is shut or blocked while the pipe runs empty, suction reaches "
                 "{suction} (chainage {chainage}) and can flatten it; it stands {stands}. Fit an air vent that cannot "
                 "be shut, or take a stiffer pipe."),
     kCollapse},
    {"power.vent_at_intake",
     RILLMARK_TR("Put an open vent or air valve right behind the intake gate: a draining pipe draws in about {air} of "
                 "air. The maker of the valve sizes it."),
     "an air-valve maker's application notes (the form of AWWA M51), C = 110"},

    // Grade and laying.
    {"power.air_valve_needed",
     RILLMARK_TR("High spot at chainage {chainage} (level {level}): air collects and chokes the flow. Lower the pipe, or "
                 "fit an air valve here."),
     kCommonPractice},
    {"power.drain_needed",
     RILLMARK_TR("Low spot at chainage {chainage} (level {level}): silt collects and water stays in frost. Raise the "
                 "pipe, or fit a drain here."),
     kCommonPractice},
    {"power.pipe_rises",
     RILLMARK_TR("From chainage {from} to {to} the pipe rises by {rise}. It should fall all the way; change its line."),
     kCommonPractice},
    {"power.pipe_runs_level",
     RILLMARK_TR("From chainage {from} to {to} the pipe runs level. Give it a fall, so that air and silt move on."),
     kCommonPractice},
    {"power.thrust_blocks",
     RILLMARK_TR("{count} bends push outwards and need thrust blocks; the strongest, at chainage {chainage}, with "
                 "{thrust} N; the shut valve pushes with {end_thrust} N. Steep pipe pulls downhill as well. An engineer "
                 "sizes blocks and anchors for the soil."),
     "AWWA M23, PVC Pipe - Design and Installation, chapter 4; bends of 5 degrees and more: common practice"},
    {"power.least_cover",
     RILLMARK_TR("Bury the pipe at least {cover} deep and below the frost, on fine bedding; the local code decides."),
     "USDA NRCS practice standard 430, from memory, unconfirmed"},

    // The table at the desk.
    {"exchange.method.pipe_pressure", RILLMARK_TR("Pipe: pressures, surge, classes, air valves and thrust"), ""},
    {"exchange.pipe_pressure.chainage", RILLMARK_TR("along the slope, from the intake down"), ""},
    {"exchange.pipe_pressure.elevation", RILLMARK_TR("of the pipe's axis"), ""},
    {"exchange.pipe_pressure.bend", RILLMARK_TR("change of direction here, seen from above"), ""},
    {"exchange.pipe_pressure.pipe", RILLMARK_TR("size from the table of pipes; holds from here down"), ""},
    {"exchange.pipe_pressure.bore", RILLMARK_TR("inside diameter from here down"), ""},
    {"exchange.pipe_pressure.wall", RILLMARK_TR("thickness of the wall from here down"), ""},
    {"exchange.pipe_pressure.roughness", RILLMARK_TR("roughness of the wall from here down"), ""},
    {"exchange.pipe_pressure.material", RILLMARK_TR("pvc, pe100, steel, ductile-iron or grp"), ""},
    {"exchange.pipe_pressure.rating", RILLMARK_TR("pressure rating from here down, as printed on the pipe"), ""},
    {"exchange.pipe_pressure.intake_level", RILLMARK_TR("water level at the intake, in the datum of the elevations"), ""},
    {"exchange.pipe_pressure.flow", RILLMARK_TR("design flow"), ""},
    {"exchange.pipe_pressure.u_flow", RILLMARK_TR("standard uncertainty of the flow"), ""},
    {"exchange.pipe_pressure.closing_time", RILLMARK_TR("even closing of the valve; 0 is a sudden stop"), ""},
    {"exchange.pipe_pressure.anchoring", RILLMARK_TR("how the pipe is held: joints, one-end or throughout"), ""},
    {"exchange.pipe_pressure.entrance_k", RILLMARK_TR("loss coefficient of the entrance"), ""},
    {"exchange.pipe_pressure.water_temperature", RILLMARK_TR("of the water"), ""},
    {"exchange.pipe_pressure.wall_temperature", RILLMARK_TR("of the hottest wall, in the sun"), ""},
    {"exchange.pipe_pressure.latitude", RILLMARK_TR("for gravity"), ""},
    {"exchange.pipe_pressure.altitude", RILLMARK_TR("of the intake above the sea, for gravity and the air"), ""},
    {"exchange.pipe_pressure.soil_bearing", RILLMARK_TR("pressure that the soil bears, for the area of blocks"), ""},
    {"exchange.pipe_incomplete",
     RILLMARK_TR("The first row must give the pipe: a size in \"pipe\", or bore, wall, roughness and material. Fill in "
                 "{column}."),
     ""},
    {"exchange.anchoring_unknown", RILLMARK_TR("\"{cell}\" is no anchoring. Take joints, one-end or throughout."), ""},
    {"exchange.table.pipe_points", RILLMARK_TR("Points along the pipe"), ""},
    {"exchange.table.pipe_sections", RILLMARK_TR("Sections of pipe"), ""},
    {"exchange.table.pipe_bends", RILLMARK_TR("Bends that need a block"), ""},
    {"exchange.result.chainage", RILLMARK_TR("chainage"), ""},
    {"exchange.result.pipe_elevation", RILLMARK_TR("elevation of the pipe"), ""},
    {"exchange.result.hydraulic_grade", RILLMARK_TR("pressure line at design flow"), ""},
    {"exchange.result.static_pressure", RILLMARK_TR("standing water"), ""},
    {"exchange.result.flowing_pressure", RILLMARK_TR("at design flow"), ""},
    {"exchange.result.highest_pressure", RILLMARK_TR("highest, with surge"), ""},
    {"exchange.result.lowest_pressure", RILLMARK_TR("lowest, with surge"), ""},
    {"exchange.result.draining_pressure", RILLMARK_TR("draining, intake shut"), ""},
    {"exchange.result.from_chainage", RILLMARK_TR("from chainage"), ""},
    {"exchange.result.to_chainage", RILLMARK_TR("to chainage"), ""},
    {"exchange.result.wave_speed", RILLMARK_TR("speed of the pressure wave"), ""},
    {"exchange.result.class_holds", RILLMARK_TR("class holds, at the wall temperature"), ""},
    {"exchange.result.heavier_from", RILLMARK_TR("heavier class from"), ""},
    {"exchange.result.short_vacuum", RILLMARK_TR("suction it stands for a short time"), ""},
    {"exchange.result.bend", RILLMARK_TR("bend, slope included"), ""},
    {"exchange.result.thrust_newton", RILLMARK_TR("thrust in newtons"), ""},
    {"exchange.result.block_area", RILLMARK_TR("area of the block against the soil"), ""},
    {"exchange.result.surge", RILLMARK_TR("surge at the valve"), ""},
    {"exchange.result.sudden_stop", RILLMARK_TR("surge of a sudden stop"), ""},
    {"exchange.result.reflection_time", RILLMARK_TR("wave to the intake and back"), ""},
    {"exchange.result.closing_needed", RILLMARK_TR("shortest closing that all classes hold"), ""},
    {"exchange.result.valve_pressure", RILLMARK_TR("highest pressure at the valve"), ""},
    {"exchange.result.end_thrust_newton", RILLMARK_TR("thrust on the shut valve in newtons"), ""},
};

} // namespace

std::span<const Word> pipe_pressure_words() {
    return kWords;
}

} // namespace rillmark::words
