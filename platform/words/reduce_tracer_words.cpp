// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

// The place in the file (file, line, column) is said in front of these sentences.
constexpr Word kWords[] = {
    // What a method asks
    {"exchange.word_unknown", RILLMARK_TR("\"{cell}\" is not known for {parameter}. Use one of: {accepted}."), ""},
    {"exchange.parameter_missing", RILLMARK_TR("The parameter {parameter} is needed. Give it beside the file."), ""},
    {"exchange.float_row_unclear",
     RILLMARK_TR("A row is either a float with its time, or a sounding with distance and depth. Fill in one of the "
                 "two."),
     ""},
    {"exchange.readings_mixed",
     RILLMARK_TR("Concentrations and conductivities are not taken in one file. Keep one kind."), ""},

    // Floats
    {"exchange.method.float", RILLMARK_TR("Floats: discharge"), ""},
    {"exchange.float.time", RILLMARK_TR("time of a run; empty in a row of soundings"), ""},
    {"exchange.float.length", RILLMARK_TR("length of this run, where it is not that of the reach"), ""},
    {"exchange.float.across", RILLMARK_TR("place of the run along the tape of the first section"), ""},
    {"exchange.float.section", RILLMARK_TR("name of the section that was sounded"), ""},
    {"exchange.float.distance", RILLMARK_TR("place of the sounding along the tape"), ""},
    {"exchange.float.depth", RILLMARK_TR("depth there, 0 at the edges"), ""},
    {"exchange.float.reach", RILLMARK_TR("measured length of the reach"), ""},
    {"exchange.float.width", RILLMARK_TR("width of the water, without soundings"), ""},
    {"exchange.float.mean_depth", RILLMARK_TR("mean depth, without soundings"), ""},
    {"exchange.float.bed", RILLMARK_TR("ordinary, rough-shallow or smooth-deep"), ""},
    {"exchange.float.wind", RILLMARK_TR("none, light or strong"), ""},
    {"exchange.float.surface", RILLMARK_TR("even, broken or turbulent"), ""},
    {"exchange.float.coefficient", RILLMARK_TR("mean over surface velocity, by depth and bed where empty"), ""},
    {"exchange.float.coefficient_uncertainty", RILLMARK_TR("its standard uncertainty"), ""},
    {"exchange.float.area_uncertainty", RILLMARK_TR("standard uncertainty of the area of one section"), ""},

    // Salt slug
    {"exchange.method.salt_slug", RILLMARK_TR("Salt slug: discharge from a trace of conductivity"), ""},
    {"exchange.salt_slug.time", RILLMARK_TR("time of the reading"), ""},
    {"exchange.salt_slug.ec", RILLMARK_TR("conductivity, empty where a reading is missing"), ""},
    {"exchange.salt_slug.ec2", RILLMARK_TR("conductivity of a second probe"), ""},
    {"exchange.salt_slug.temperature", RILLMARK_TR("of the water, for a correction"), ""},
    {"exchange.salt_slug.mass", RILLMARK_TR("dry salt thrown in"), ""},
    {"exchange.salt_slug.solution_volume", RILLMARK_TR("or: solution poured in"), ""},
    {"exchange.salt_slug.solution", RILLMARK_TR("salt in that solution"), ""},
    {"exchange.salt_slug.mass_uncertainty", RILLMARK_TR("standard uncertainty of the salt"), ""},
    {"exchange.salt_slug.factor",
     RILLMARK_TR("calibration factor in mg/L per µS/cm, the generic one (0.486) where empty"), ""},
    {"exchange.salt_slug.factor_uncertainty",
     RILLMARK_TR("its standard uncertainty, relative; that of the generic one where empty"), ""},
    {"exchange.salt_slug.calibrated_to", RILLMARK_TR("highest reading of the calibration"), ""},
    {"exchange.salt_slug.mixing_uncertainty", RILLMARK_TR("standard uncertainty for incomplete mixing"), ""},
    {"exchange.salt_slug.correction", RILLMARK_TR("as-read, linear or non-linear, to 25 °C"), ""},
    {"exchange.salt_slug.alpha", RILLMARK_TR("part of the conductivity per °C, for linear"), ""},
    {"exchange.salt_slug.over_range", RILLMARK_TR("readings from here on are none"), ""},
    {"exchange.salt_slug.start", RILLMARK_TR("begin of the salt, found where empty"), ""},
    {"exchange.salt_slug.end", RILLMARK_TR("end of the salt, found where empty"), ""},
    {"exchange.salt_slug.before", RILLMARK_TR("begin or end of the background before the salt"), ""},
    {"exchange.salt_slug.after", RILLMARK_TR("begin or end of the background after the salt"), ""},
    {"exchange.salt_slug.reach", RILLMARK_TR("from the pouring to the probe"), ""},
    {"exchange.salt_slug.width", RILLMARK_TR("width of the stream"), ""},

    // Salt calibration
    {"exchange.method.salt_calibration", RILLMARK_TR("Salt calibration: factor from stepwise additions"), ""},
    {"exchange.salt_calibration.added", RILLMARK_TR("solution added so far, in all"), ""},
    {"exchange.salt_calibration.ec", RILLMARK_TR("conductivity then"), ""},
    {"exchange.salt_calibration.sample", RILLMARK_TR("stream water before the first addition"), ""},
    {"exchange.salt_calibration.solution", RILLMARK_TR("salt in the solution"), ""},
    {"exchange.salt_calibration.solvent_ec",
     RILLMARK_TR("conductivity of the water of the solution, where it is not stream water"), ""},
    {"exchange.salt_calibration.sample_uncertainty", RILLMARK_TR("standard uncertainty of the sample"), ""},
    {"exchange.salt_calibration.solution_uncertainty", RILLMARK_TR("standard uncertainty of the strength"), ""},
    {"exchange.salt_calibration.added_uncertainty", RILLMARK_TR("standard uncertainty of the volumes added"), ""},
    {"exchange.salt_calibration.resolution", RILLMARK_TR("smallest step of the display"), ""},

    // Constant rate
    {"exchange.method.constant_rate", RILLMARK_TR("Constant-rate injection: discharge from the plateau"), ""},
    {"exchange.constant_rate.background", RILLMARK_TR("concentration before the injection"), ""},
    {"exchange.constant_rate.plateau", RILLMARK_TR("concentration on the plateau"), ""},
    {"exchange.constant_rate.background_ec", RILLMARK_TR("or: conductivity before the injection"), ""},
    {"exchange.constant_rate.plateau_ec", RILLMARK_TR("or: conductivity on the plateau"), ""},
    {"exchange.constant_rate.injection", RILLMARK_TR("rate of injection"), ""},
    {"exchange.constant_rate.injection_uncertainty", RILLMARK_TR("its standard uncertainty"), ""},
    {"exchange.constant_rate.tracer", RILLMARK_TR("tracer in the injected solution"), ""},
    {"exchange.constant_rate.tracer_uncertainty", RILLMARK_TR("its standard uncertainty"), ""},

    // Results
    {"exchange.table.calibration", RILLMARK_TR("Calibration"), ""},
    {"exchange.result.surface_velocity", RILLMARK_TR("surface velocity"), ""},
    {"exchange.result.float_coefficient", RILLMARK_TR("mean over surface velocity"), ""},
    {"exchange.result.salt", RILLMARK_TR("salt"), ""},
    {"exchange.result.peak_chloride", RILLMARK_TR("chloride at the peak"), ""},
    {"exchange.result.probe_discharge", RILLMARK_TR("discharge by this probe"), ""},
    {"exchange.result.start", RILLMARK_TR("start"), ""},
    {"exchange.result.end", RILLMARK_TR("end"), ""},
    {"exchange.result.background_start", RILLMARK_TR("background at the start"), ""},
    {"exchange.result.background_end", RILLMARK_TR("background at the end"), ""},
    {"exchange.result.peak_rise", RILLMARK_TR("rise of the peak"), ""},
    {"exchange.result.calibration_factor", RILLMARK_TR("calibration factor in mg/L per µS/cm"), ""},
    {"exchange.result.calibration_scatter", RILLMARK_TR("scatter about the line"), ""},
    {"exchange.result.calibrated_to", RILLMARK_TR("highest reading"), ""},
    {"exchange.result.conductivity", RILLMARK_TR("conductivity"), ""},
    {"exchange.result.concentration", RILLMARK_TR("concentration"), ""},
    {"exchange.result.off_line", RILLMARK_TR("off the line"), ""},
    {"exchange.result.discharge_at_sampler", RILLMARK_TR("discharge at the sampler, the injection included"), ""},
    {"exchange.result.plateau_rise", RILLMARK_TR("rise of the plateau"), ""},
};

} // namespace

std::span<const Word> reduce_tracer_words() {
    return kWords;
}

} // namespace rillmark::words
