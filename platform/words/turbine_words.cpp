// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kCommonPractice = "common practice, no source";

constexpr Word kWords[] = {
    // Inputs, as places of a finding
    {"power.net_head", RILLMARK_TR("net head"), ""},
    {"power.design_flow", RILLMARK_TR("design flow"), ""},
    {"power.smallest_flow", RILLMARK_TR("smallest flow of the turbine"), ""},
    {"power.efficiency", RILLMARK_TR("efficiency"), ""},
    {"power.other_efficiency", RILLMARK_TR("efficiency behind the turbine"), ""},
    {"power.density", RILLMARK_TR("density of the water"), ""},
    {"power.shaft_power", RILLMARK_TR("power at the shaft"), ""},
    {"power.turbine_speed", RILLMARK_TR("speed of the turbine"), ""},
    {"power.specific_speed", RILLMARK_TR("specific speed"), ""},
    {"power.frequency", RILLMARK_TR("frequency of the generator"), ""},
    {"power.jets", RILLMARK_TR("jets"), ""},
    {"power.jet_coefficient", RILLMARK_TR("coefficient of the jet"), ""},
    {"power.bucket_ratio", RILLMARK_TR("ratio of bucket speed to jet speed"), ""},
    {"power.runner_speed_ratio", RILLMARK_TR("speed ratio of the runner"), ""},
    {"power.runner_flow_ratio", RILLMARK_TR("flow ratio of the runner"), ""},
    {"power.hub_ratio", RILLMARK_TR("ratio of hub to runner"), ""},
    {"power.air_pressure", RILLMARK_TR("air pressure"), ""},
    {"power.vapour_pressure", RILLMARK_TR("vapour pressure"), ""},
    {"power.sigma", RILLMARK_TR("cavitation number"), ""},
    {"power.pump_efficiency", RILLMARK_TR("efficiency of the pump"), ""},
    {"power.crest_width", RILLMARK_TR("width of the crest"), ""},
    {"power.crest_breadth", RILLMARK_TR("breadth of the crest along the flow"), ""},
    {"power.crest_height", RILLMARK_TR("height of the crest above the bed"), ""},
    {"power.crest_coefficient", RILLMARK_TR("coefficient of the crest"), ""},
    {"power.overflow", RILLMARK_TR("flow over the crest"), ""},
    {"power.overflow_head", RILLMARK_TR("head over the crest"), ""},
    {"power.wall_top", RILLMARK_TR("top of the wall"), ""},
    {"power.rack_area", RILLMARK_TR("area of the rack"), ""},
    {"power.rack_bar", RILLMARK_TR("thickness of the bars"), ""},
    {"power.rack_gap", RILLMARK_TR("gap between the bars"), ""},
    {"power.rack_slope", RILLMARK_TR("slope of the rack"), ""},
    {"power.rack_shape", RILLMARK_TR("shape of the bars"), ""},
    {"power.screen_capacity", RILLMARK_TR("maker's capacity of the screen"), ""},
    {"power.pipe_speed", RILLMARK_TR("speed in the pipe"), ""},
    {"power.grain", RILLMARK_TR("grain size"), ""},
    {"power.grain_density", RILLMARK_TR("density of the grain"), ""},
    {"power.settling", RILLMARK_TR("settling velocity"), ""},
    {"power.basin_width", RILLMARK_TR("width of the settling basin"), ""},
    {"power.exceedance", RILLMARK_TR("part of the time"), ""},
    {"power.flow_uncertainty", RILLMARK_TR("uncertainty of the flow"), ""},
    {"power.head_uncertainty", RILLMARK_TR("uncertainty of the head"), ""},
    {"power.efficiency_uncertainty", RILLMARK_TR("uncertainty of the efficiency"), ""},
    {"power.energy_price", RILLMARK_TR("price of the energy"), ""},
    {"power.years", RILLMARK_TR("years that the energy counts"), ""},
    {"power.interest", RILLMARK_TR("interest"), ""},
    {"power.pipe_price", RILLMARK_TR("price of the pipe"), ""},
    {"power.trench_price", RILLMARK_TR("price of the trench"), ""},
    {"power.time", RILLMARK_TR("time that a flow runs"), ""},
    {"power.manning_n", RILLMARK_TR("Manning's n"), ""},
    // Intake
    {"power.bad_contractions",
     RILLMARK_TR("The crest can be narrowed on 0, 1 or 2 sides, and some of it must stay open at this head. "
                 "Check its width and the head."),
     ""},
    {"power.crest_out_of_range",
     RILLMARK_TR("The head is {ratio} of the breadth of the crest; the broad-crest formula holds from {least} to "
                 "{most}. Count on 15 % less or more flow."),
     kCommonPractice},
    {"power.crest_acts_sharp",
     RILLMARK_TR("The head is {ratio} times the breadth of the crest; above {limit} the water springs clear of "
                 "it. Enter it as a sharp crest."),
     "US EPA, Storm Water Management Model Reference Manual, vol. II, table 6-3"},
    {"power.rehbock_out_of_range",
     RILLMARK_TR("The head is {ratio} times the height of the crest; the coefficient holds to {limit}. The flow "
                 "is a guess: raise the crest or measure it."),
     "our own choice"},
    {"power.overflow_too_large",
     RILLMARK_TR("This crest cannot pass {flow}; at most {most} at any head looked at. Widen it, or check the "
                 "flow."),
     ""},
    {"power.wall_contradiction",
     RILLMARK_TR("The {where} cannot be so: the top lies above the crest, and the flood is not less than the "
                 "design overflow. Enter it again."),
     ""},
    {"power.flood_overtops",
     RILLMARK_TR("The flood goes {over} over the top of the wall. Widen or lower the crest, or raise the wall; a "
                 "civil engineer decides."),
     ""},
    {"power.freeboard_small",
     RILLMARK_TR("Only {freeboard} is left above the flood; small walls usually keep {limit}. Raise the wall or "
                 "widen the crest."),
     kCommonPractice},
    {"power.rack_approach_fast",
     RILLMARK_TR("The water comes to the rack at {speed}; above {limit} it cannot be raked by hand. Make the "
                 "rack larger; for fish the local rule may ask for much less."),
     kCommonPractice},
    {"power.slope_out_of_range",
     RILLMARK_TR("The {where} is {slope}; it lies between level and upright. Enter it again."),
     ""},
    {"power.grain_too_large",
     RILLMARK_TR("A grain of {grain} is gravel; the formula is used up to {limit}. Enter the grain that is to "
                 "settle."),
     "our own choice"},
    // Turbine
    {"power.ratio_above_one", RILLMARK_TR("The {where} cannot be more than one; it is {value}. Enter it again."), ""},
    {"power.bad_jets", RILLMARK_TR("A wheel has 1 to {most} jets. Enter their number again."), kCommonPractice},
    {"power.bad_poles", RILLMARK_TR("A generator has an even number of poles, 2 or more. Enter it again."), ""},
    {"power.wheel_small_for_jet",
     RILLMARK_TR("The wheel is only {ratio} times the jet; below {limit} its buckets crowd. Use more jets or a "
                 "slower speed."),
     kCommonPractice},
    {"power.water_boils", RILLMARK_TR("The water would boil at this pressure. Check altitude and temperature."), ""},
    {"power.unknown_turbine", RILLMARK_TR("There is no turbine named {id} in the tables. Choose one of the list."), ""},
    {"power.part_flow_unconfirmed",
     RILLMARK_TR("Efficiency at part flow, smallest flows and some ranges of the turbines are from memory and "
                 "unconfirmed. Ask the maker for the curve before you decide."),
     kCommonPractice},
    // Energy
    {"power.no_flows", RILLMARK_TR("There are no flows to work from. Enter at least one."), ""},
    {"power.plant_incomplete", RILLMARK_TR("The plant has no net head or no efficiency. Enter both."), ""},
    {"power.bad_month", RILLMARK_TR("There is no month {month}. Use 1 to 12."), ""},
    {"power.month_missing",
     RILLMARK_TR("No day of month {month} is in the record, so it says nothing about a whole year. Add it, or "
                 "use a flow-duration curve."),
     ""},
    {"power.month_thin",
     RILLMARK_TR("Month {month} has only {days} days in the record; below {limit} it says little. Add days if "
                 "you have them."),
     "our own choice"},
    {"power.record_short",
     RILLMARK_TR("The record has {years} full years. With fewer than {limit} another year can bring much more or "
                 "less than this."),
     "our own choice"},
    {"power.months_without_power",
     RILLMARK_TR("In {months} months of the year no day of the record gives power. Plan another source for them, "
                 "or a smaller design flow."),
     ""},
    {"power.no_rated_power",
     RILLMARK_TR("With this plant there is no power at the design flow: the losses use up the head, or the "
                 "efficiency is zero. Check net head, loss and efficiency."),
     ""},
    {"power.economic_at_an_end",
     RILLMARK_TR("{where} is the smallest or the widest size with a price: one beyond it may be cheaper still. Price it "
                 "too."),
     ""},
    {"power.economic_all_year",
     RILLMARK_TR("The season is not known, so the energy lost is counted as if the design flow ran all year. That makes a "
                 "wide pipe look better than it is."),
     ""},
    {"power.leave_by_month",
     RILLMARK_TR("The flow to leave is a table of months, and a duration curve does not say in which month a flow comes. "
                 "Give daily flows, or another rule."),
     ""},
    {"power.bad_duration_curve",
     RILLMARK_TR("A duration curve has two points or more, the part of the time rising and the flow never "
                 "rising. Put the points in order."),
     ""},
    {"power.bad_design_flows",
     RILLMARK_TR("The curve takes three design flows or more, each larger than the one before. Put them in "
                 "order."),
     ""},
    // Economic diameter
    {"power.no_sizes", RILLMARK_TR("There are no pipe sizes to compare. Enter at least one with its price."), ""},
    {"power.no_size_carries", RILLMARK_TR("Every size loses the whole head at the largest flow. Add wider sizes."), ""},
    {"power.more_than_a_year", RILLMARK_TR("The times of the flows come to more than a year. Check them."), ""},
    // Tables from files
    {"exchange.parameter_missing", RILLMARK_TR("The parameter {parameter} is needed. Give it beside the file."), ""},
    {"exchange.date_unreadable", RILLMARK_TR("\"{cell}\" is no day. Write it as 2026-03-01."), ""},
    {"exchange.date_twice", RILLMARK_TR("The day {cell} stands on line {first_line} already. Keep one of them."), ""},
    {"exchange.method.turbine", RILLMARK_TR("Turbines: the kinds that suit a net head and flow"), ""},
    {"exchange.turbine.case", RILLMARK_TR("name of the case"), ""},
    {"exchange.turbine.net_head", RILLMARK_TR("at the turbine, at the design flow"), ""},
    {"exchange.turbine.flow", RILLMARK_TR("design flow"), ""},
    {"exchange.turbine.frequency", RILLMARK_TR("of the generator, hertz"), ""},
    {"exchange.turbine.altitude", RILLMARK_TR("above the sea, for the setting"), ""},
    {"exchange.turbine.latitude", RILLMARK_TR("for gravity"), ""},
    {"exchange.turbine.water_temperature", RILLMARK_TR("of the water, for the setting"), ""},
    {"exchange.method.energy", RILLMARK_TR("Energy of a year from daily flows"), ""},
    {"exchange.energy.date", RILLMARK_TR("day, as 2026-03-01"), ""},
    {"exchange.energy.flow", RILLMARK_TR("mean flow of the stream on that day"), ""},
    {"exchange.energy.design_flow", RILLMARK_TR("most that the turbine takes"), ""},
    {"exchange.energy.net_head", RILLMARK_TR("at the turbine, at the design flow"), ""},
    {"exchange.energy.loss", RILLMARK_TR("head lost at the design flow; goes with the square of the flow"), ""},
    {"exchange.energy.flow_to_leave", RILLMARK_TR("stays in the stream, by the permit"), ""},
    {"exchange.energy.turbine", RILLMARK_TR("kind of turbine for the efficiency at part flow, none where empty"), ""},
    {"exchange.energy.efficiency", RILLMARK_TR("of all behind the turbine; of the whole plant without a turbine"), ""},
    {"exchange.energy.latitude", RILLMARK_TR("for gravity"), ""},
    {"exchange.energy.water_temperature", RILLMARK_TR("of the water"), ""},
    {"exchange.energy.uncertainty", RILLMARK_TR("relative standard uncertainty shared by all days"), ""},
    {"exchange.table.turbines", RILLMARK_TR("Turbines"), ""},
    {"exchange.table.energy_months", RILLMARK_TR("Energy by month"), ""},
    {"exchange.table.design_curve", RILLMARK_TR("Energy by design flow"), ""},
    {"exchange.result.case", RILLMARK_TR("case"), ""},
    {"exchange.result.turbine", RILLMARK_TR("turbine"), ""},
    {"exchange.result.fit", RILLMARK_TR("suits"), ""},
    {"exchange.result.shaft_power", RILLMARK_TR("power at the shaft"), ""},
    {"exchange.result.turbine_rpm", RILLMARK_TR("speed, rpm"), ""},
    {"exchange.result.jets", RILLMARK_TR("jets"), ""},
    {"exchange.result.ns_kw_m", RILLMARK_TR("specific speed (rpm, kW, m)"), ""},
    {"exchange.result.wheel", RILLMARK_TR("pitch circle of the wheel"), ""},
    {"exchange.result.jet", RILLMARK_TR("jet"), ""},
    {"exchange.result.runaway_rpm", RILLMARK_TR("runaway speed, rpm"), ""},
    {"exchange.result.setting", RILLMARK_TR("greatest height above tailwater"), ""},
    {"exchange.result.month", RILLMARK_TR("month"), ""},
    {"exchange.result.days", RILLMARK_TR("days in the record"), ""},
    {"exchange.result.energy", RILLMARK_TR("energy of a mean year"), ""},
    {"exchange.result.running", RILLMARK_TR("part of the time with power"), ""},
    {"exchange.result.design_flow", RILLMARK_TR("design flow"), ""},
    {"exchange.result.rated_power", RILLMARK_TR("power at the design flow"), ""},
    {"exchange.result.capacity_factor", RILLMARK_TR("capacity factor"), ""},
    {"exchange.result.months_without_power", RILLMARK_TR("months without power"), ""},
    {"exchange.result.year_spread", RILLMARK_TR("standard deviation from year to year"), ""},
    {"exchange.result.knee_flow", RILLMARK_TR("design flow at the knee of the curve"), ""},
};

} // namespace

std::span<const Word> turbine_words() {
    return kWords;
}

} // namespace rillmark::words
