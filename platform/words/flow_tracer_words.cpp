// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kPractice = "common practice, no source";
constexpr const char* kOwn = "our own choice";
constexpr const char* kMemory = "from memory, unconfirmed";
constexpr const char* kEth = "ETH Zurich VAW, glacier field course, field rules";
constexpr const char* kRichardson = "Richardson, Sentlinger, Moore & Zimmermann 2017, Confluence 1(2)";

constexpr Word kWords[] = {
    // Methods
    {"flow.method_float", RILLMARK_TR("Floats"), ""},
    {"flow.method_salt_slug", RILLMARK_TR("Salt slug"), ""},
    {"flow.method_constant_rate", RILLMARK_TR("Constant-rate injection of salt or dye"), ""},

    // Lines of the budget
    {"flow.float_coefficient", RILLMARK_TR("Coefficient from surface to mean velocity"), ""},
    {"flow.float_area", RILLMARK_TR("Area of the sections"), ""},
    {"flow.float_scatter", RILLMARK_TR("Scatter of the runs"), ""},
    {"flow.float_length", RILLMARK_TR("Measured length"), ""},
    {"flow.float_wind_doubt", RILLMARK_TR("Wind"), ""},
    {"flow.float_surface_doubt", RILLMARK_TR("Uneven surface"), ""},
    {"flow.calibration_line", RILLMARK_TR("Line of the calibration"), ""},
    {"flow.calibration_sample", RILLMARK_TR("Volume of the calibration sample"), ""},
    {"flow.calibration_solution", RILLMARK_TR("Strength of the calibration solution"), ""},
    {"flow.calibration_additions", RILLMARK_TR("Volumes added in the calibration"), ""},
    {"flow.salt_mass", RILLMARK_TR("Salt thrown in"), ""},
    {"flow.salt_factor", RILLMARK_TR("Calibration factor"), ""},
    {"flow.salt_mixing", RILLMARK_TR("Incomplete mixing"), ""},
    {"flow.trace_noise", RILLMARK_TR("Noise of the readings"), ""},
    {"flow.trace_background", RILLMARK_TR("Level of the background"), ""},
    {"flow.trace_drift", RILLMARK_TR("Drift of the background"), ""},
    {"flow.injection_rate", RILLMARK_TR("Rate of injection"), ""},
    {"flow.tracer_solution", RILLMARK_TR("Tracer in the solution"), ""},
    {"flow.tracer_background", RILLMARK_TR("Readings of the background"), ""},
    {"flow.tracer_plateau", RILLMARK_TR("Readings of the plateau"), ""},

    // Floats
    {"flow.no_float_runs", RILLMARK_TR("No float has been timed yet. Time at least three across the width."), ""},
    {"flow.no_float_section",
     RILLMARK_TR("The floats need the area of the water. Sound a section, or enter its width and mean depth."), ""},
    {"flow.float_section_unclear",
     RILLMARK_TR("Section {section} needs either soundings, or a width and a mean depth: one of the two."), ""},
    {"flow.float_no_area",
     RILLMARK_TR("Section {section} has no area. Enter at least two distances, and depths between the banks."), ""},
    {"flow.float_no_length",
     RILLMARK_TR("Row {row}: over which length was this float timed? Enter the length of the reach."), ""},
    {"flow.bad_length", RILLMARK_TR("Row {row}: {value} cannot be the measured length. Enter 0.1 m to 10 km."), ""},
    {"flow.bad_width", RILLMARK_TR("{value} cannot be the width of the water. Enter 1 cm to 10 km."), ""},
    {"flow.bad_mean_depth", RILLMARK_TR("{value} cannot be the mean depth. Enter 1 mm to 100 m."), ""},
    {"flow.float_run_short",
     RILLMARK_TR("Row {row}: the float took {time}, less than {limit}. Measure over a longer reach."), kMemory},
    {"flow.few_float_runs",
     RILLMARK_TR("Floats timed: {count} of at least {needed}. Their scatter is not known yet, and {scatter} or more is "
                 "taken. Time more, across the width."),
     kMemory},
    {"flow.float_runs_scatter",
     RILLMARK_TR("The floats scatter by {scatter}. Time more of them, spread over the width, or find a straighter "
                 "reach."),
     kOwn},
    {"flow.one_float_section", RILLMARK_TR("The area rests on one section. Sound another at the far end of the reach."),
     kPractice},
    {"flow.float_sections_differ",
     RILLMARK_TR("The sections hold {least} and {most}. Floats want an even reach: find one, or sound more sections."),
     kOwn},
    {"flow.float_depth_below_table",
     RILLMARK_TR("The water is {depth} deep on average, and the table of coefficients begins at {limit}: {coefficient} "
                 "is taken. Use a coefficient of your own, or another method."),
     "C. E. Boyd, Measuring water flow, table 1; below it from memory, unconfirmed"},
    {"flow.float_wind",
     RILLMARK_TR("Wind moves the floats: {added} is added to the uncertainty. Use floats that lie deep in the water, "
                 "or wait for calm."),
     kOwn},
    {"flow.float_surface",
     RILLMARK_TR("On an uneven surface the floats do not follow the water: {added} is added to the uncertainty."),
     kOwn},

    // Conductivity and calibration
    {"flow.bad_water_temperature",
     RILLMARK_TR("A temperature of the water from 0 to 35 °C is needed to bring the conductivity to 25 °C. Enter it, "
                 "or use readings that the meter has corrected."),
     "ISO 7888:1985 / EN 27888"},
    {"flow.bad_conductivity",
     RILLMARK_TR("{value} cannot be the conductivity of a stream. Look at the unit: µS/cm, mS/cm or S/m."), kOwn},
    {"flow.bad_sample_volume",
     RILLMARK_TR("{value} cannot be the sample. Enter the stream water in the vessel before the first addition, 10 mL "
                 "to 1000 L."),
     ""},
    {"flow.bad_solution",
     RILLMARK_TR("{value} cannot be the strength of the solution. Salt dissolves up to 360 g in a litre; look at g/L "
                 "and mg/L."),
     ""},
    {"flow.bad_addition",
     RILLMARK_TR("Row {row}: {value} cannot be the volume added. Enter what was added so far in all, up to 10 L."), ""},
    {"flow.additions_fall",
     RILLMARK_TR("Row {row}: {value} is less than was added before. Enter what was added so far in all."), ""},
    {"flow.few_calibration_points",
     RILLMARK_TR("The calibration has {count} readings; a line needs at least {needed}. Add solution and read again."),
     ""},
    {"flow.few_additions", RILLMARK_TR("The calibration has {count} readings. From {needed} on its line is surer."),
     kOwn},
    {"flow.calibration_does_not_rise",
     RILLMARK_TR("The conductivity does not rise with the salt. Look for volumes and readings that are swapped."), ""},
    {"flow.calibration_scatters",
     RILLMARK_TR("The readings of the calibration scatter by {scatter} of its range. Stir, wait for the reading to "
                 "stand, and repeat."),
     kOwn},
    {"flow.calibration_factor_unusual",
     RILLMARK_TR("The calibration factor is {factor} times that of salt at 25 °C. Look at the volumes, the strength of "
                 "the solution and the unit of the readings."),
     kRichardson},

    // Trace
    {"flow.trace_too_short",
     RILLMARK_TR("Only {count} readings can be used; at least {needed} are needed. Look at what is left out."), kOwn},
    {"flow.trace_too_long", RILLMARK_TR("More than {limit} readings are not one trace. Divide the file."), kOwn},
    {"flow.bad_trace_time", RILLMARK_TR("Row {row}: {value} cannot be a time."), ""},
    {"flow.trace_time_backwards",
     RILLMARK_TR("Row {row}: the time runs backwards, to {value}. Put the readings in order, or correct it."), ""},
    {"flow.trace_midnight", RILLMARK_TR("The clock passes midnight at row {row}. A day is added from there on."), ""},
    {"flow.readings_left_out",
     RILLMARK_TR("Readings left out: {count} (missing {missing}, zero or below {zero}, over the range {over_range}, "
                 "spikes {spike}, of the same time {repeated}). The line between their neighbours bridges them."),
     kOwn},
    {"flow.trace_clipped",
     RILLMARK_TR("From row {row} on, {count} readings at the top of the peak are over the range of the probe. The peak "
                 "is cut off and the flow comes out too high: use less salt or a wider range."),
     ""},
    {"flow.trace_gap", RILLMARK_TR("There is a gap of {gap} while the salt goes by; a straight line bridges it."),
     kOwn},
    {"flow.bad_window",
     RILLMARK_TR("{where} at {value} does not fit the trace. Start comes before end, the background before comes "
                 "first, and all lie within the trace."),
     ""},
    {"flow.no_background",
     RILLMARK_TR("There is no background before or after the salt. Begin to log earlier, or move start or end."), ""},
    {"flow.background_one_side",
     RILLMARK_TR("The background is read on one side of the salt only; its drift is not known."), kPractice},
    {"flow.no_peak",
     RILLMARK_TR("No peak: the conductivity rises by {rise}, and noise and steps of the display alone make {limit}. "
                 "Look at the salt, the place and the times."),
     kOwn},
    {"flow.peak_not_passed", RILLMARK_TR("The trace ends on the peak. Log until the background is back."), ""},
    {"flow.tail_running",
     RILLMARK_TR("The conductivity still falls at the end: salt is still going by, and the flow comes out too high. "
                 "Log longer."),
     kPractice},
    {"flow.start_on_salt",
     RILLMARK_TR("At the start the salt already stands at {share} of the peak. Move the start earlier."), kOwn},
    {"flow.end_on_salt", RILLMARK_TR("At the end the salt still stands at {share} of the peak. Move the end later."),
     kOwn},
    {"flow.rise_small", RILLMARK_TR("The peak rises by {rise}; at least {limit} is asked for. Use more salt."), kEth},
    {"flow.rise_large", RILLMARK_TR("The peak rises by {rise}; less than {limit} is enough. Use less salt."), kEth},
    {"flow.peak_brief",
     RILLMARK_TR("The rise is above {rise} for {time} only; {limit} or more is asked for. Go further downstream."),
     kEth},
    {"flow.logging_slow", RILLMARK_TR("A reading every {interval}; every {limit} is better."), kEth},

    // Salt slug
    {"flow.dose_unclear", RILLMARK_TR("Enter either the mass of dry salt, or the volume of solution and its strength."),
     ""},
    {"flow.bad_mass", RILLMARK_TR("{value} cannot be the salt. Enter 0.1 g to 10 t; look at g and kg."), ""},
    {"flow.bad_dose_volume", RILLMARK_TR("{value} cannot be the volume of solution. Enter 10 mL to 100 m³."), ""},
    {"flow.no_probe", RILLMARK_TR("There is no trace of a probe yet."), ""},
    {"flow.bad_factor",
     RILLMARK_TR("A calibration factor of {factor} times that of salt at 25 °C cannot be, or its uncertainty cannot."),
     ""},
    {"flow.bad_area", RILLMARK_TR("The trace has no area above its background."), ""},
    {"flow.one_probe",
     RILLMARK_TR("One probe cannot tell whether the salt was mixed; {mixing} is taken for it. Read a second one at the "
                 "other bank."),
     kOwn},
    {"flow.probes_disagree",
     RILLMARK_TR("The probes differ by {apart}, more than {limit}: the salt was not mixed. Go further downstream."),
     kMemory},
    {"flow.reach_short", RILLMARK_TR("The salt had {reach} to mix; at least {needed}, 20 widths, are asked for."),
     kEth},
    {"flow.above_calibration",
     RILLMARK_TR("The peak of {peak} is above the highest reading of the calibration, {limit}. Calibrate further up."),
     kPractice},
    {"flow.generic_factor_doubtful",
     RILLMARK_TR("The background is {background}. The generic factor holds below {limit}: calibrate in this water."),
     kRichardson},
    {"flow.chloride_above_limit",
     RILLMARK_TR("The peak at the probe holds {chloride} of chloride, above {limit} ({where}). Use less salt, pour "
                 "more slowly, and ask whether leave is needed."),
     ""},

    {"flow.chloride_above_long_limit",
     RILLMARK_TR("The plateau holds {chloride} of chloride, above {limit} ({where}), a limit for water that stays so "
                 "for days. Keep "
                 "the injection short, or use less salt."),
     ""},
    {"flow.dose_far_from_rule",
     RILLMARK_TR("The rule of thumb says {least} to {most} for this flow; the wanted rise asks for {mass}. Look at the "
                 "guesses of "
                 "flow, width and speed."),
     kMemory},

    // Limits of chloride
    {"flow.chloride_usa_acute", RILLMARK_TR("USA, mean of one hour"),
     "US EPA 440/5-88-001 (1988), in WAC 173-201A-240"},
    {"flow.chloride_usa_chronic", RILLMARK_TR("USA, mean of four days"),
     "US EPA 440/5-88-001 (1988), in WAC 173-201A-240"},
    {"flow.chloride_canada_short", RILLMARK_TR("Canada, short term (unconfirmed)"),
     "CCME 2011, from memory, unconfirmed"},
    {"flow.chloride_canada_long", RILLMARK_TR("Canada, long term"), "CCME 2011"},
    {"flow.chloride_bc_maximum", RILLMARK_TR("British Columbia, maximum"),
     "Government of British Columbia, guideline limits"},
    {"flow.chloride_bc_mean", RILLMARK_TR("British Columbia, mean of 30 days"),
     "Government of British Columbia, guideline limits"},

    // Constant rate
    {"flow.bad_injection",
     RILLMARK_TR("{value} cannot be the rate of injection, or its uncertainty is more than half of it."), ""},
    {"flow.bad_tracer_reading", RILLMARK_TR("Row {row}: {value} cannot be a reading. It is 0 or more."), ""},
    {"flow.no_plateau", RILLMARK_TR("Readings of the {where} are missing. Both background and plateau are needed."),
     ""},
    {"flow.plateau_not_above",
     RILLMARK_TR("The plateau does not stand clear of the background. Inject more, or read more often."), kOwn},
    {"flow.plateau_above_solution",
     RILLMARK_TR("The plateau of {plateau} is not below the solution of {solution}. Look at the units."), ""},
    {"flow.few_plateau_readings",
     RILLMARK_TR("The plateau has {count} readings of at least {needed}; its scatter is hardly known."), kOwn},
    {"flow.plateau_not_steady",
     RILLMARK_TR("The plateau changes by {change} of its rise from its first to its second half. Wait until it is "
                 "steady."),
     kOwn},
};

} // namespace

std::span<const Word> flow_tracer_words() {
    return kWords;
}

} // namespace rillmark::words
