// SPDX-License-Identifier: GPL-3.0-or-later
// Weirs, flumes and the slope-area method.
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kPractice = "common practice, no source";
constexpr const char* kOwn = "our own choice";
constexpr const char* kMemory = "from memory, unconfirmed";
constexpr const char* kUsbrNotch = "USBR Water Measurement Manual, 3rd ed., ch. 7 sec. 7";
constexpr const char* kShen = "USGS Water-Supply Paper 1617-B after Blevins 1984";
constexpr const char* kCarter = "Kindsvater and Carter after Blevins 1984";
constexpr const char* kTwri = "USGS TWRI 3-A2, from memory, unconfirmed";
constexpr const char* kParshall = "USBR Water Measurement Manual, 3rd ed., ch. 8; ISO 9826:1992 (some from memory)";

constexpr Word kWords[] = {
    {"flow.method_weir", RILLMARK_TR("Thin-plate weir"), ""},
    {"flow.method_flume", RILLMARK_TR("Parshall flume"), ""},
    {"flow.method_slope_area", RILLMARK_TR("Slope-area (floods only)"), ""},

    // Lines of the budget, and inputs
    {"flow.head_reading", RILLMARK_TR("Readings of the head"), ""},
    {"flow.head_zero", RILLMARK_TR("Zero of the head gauge"), ""},
    {"flow.weir_coefficient", RILLMARK_TR("Coefficient of the weir"), ""},
    {"flow.weir_angle", RILLMARK_TR("Angle of the notch"), ""},
    {"flow.weir_crest_length", RILLMARK_TR("Crest length"), ""},
    {"flow.weir_crest_height", RILLMARK_TR("Crest height over the bed"), ""},
    {"flow.weir_approach_width", RILLMARK_TR("Width of the approach"), ""},
    {"flow.weir_gauge_distance", RILLMARK_TR("Distance of the head gauge"), ""},
    {"flow.weir_tailwater", RILLMARK_TR("Tailwater over the crest"), ""},
    {"flow.weir_submergence", RILLMARK_TR("Correction for submergence"), ""},
    {"flow.flume_coefficient", RILLMARK_TR("Coefficient of the flume"), ""},
    {"flow.flume_throat", RILLMARK_TR("Throat width"), ""},
    {"flow.water_line_level", RILLMARK_TR("Level of the water line"), ""},
    {"flow.water_line_slope", RILLMARK_TR("Slope of the water line"), ""},
    {"flow.manning_n", RILLMARK_TR("Manning's n"), ""},
    {"flow.section_area", RILLMARK_TR("Areas of the sections"), ""},
    {"flow.slope_area_method", RILLMARK_TR("Slope-area method"), ""},

    // Head
    {"flow.no_heads", RILLMARK_TR("No head has been read yet. Read the gauge at least three times."), ""},
    {"flow.bad_head", RILLMARK_TR("Row {row}: {value} cannot be a reading of the head gauge. Look at its unit."), ""},
    {"flow.head_not_positive",
     RILLMARK_TR("The head comes out as {value}: no water passes. Look at the readings and at the zero of the gauge."),
     ""},
    {"flow.few_heads", RILLMARK_TR("Head readings: {count} of at least {needed}. Read the gauge again."), kPractice},
    {"flow.heads_scatter",
     RILLMARK_TR(
         "The head readings scatter by {scatter}: the water was not steady. Wait, or still the gauge, and repeat."),
     kPractice},

    // Weir
    {"flow.weir_incomplete", RILLMARK_TR("This weir needs one more measure: {where}. Enter it."), ""},
    {"flow.weir_approach_too_narrow",
     RILLMARK_TR("The approach ({width}) cannot be narrower than the crest ({length}). Measure both again."), ""},
    {"flow.weir_drowned",
     RILLMARK_TR(
         "The tailwater stands {tailwater} over the crest, at {head} of head: more than {limit} of it says nothing of "
         "the flow. Lower the tailwater, or use another method."),
     kOwn},
    {"flow.weir_angle_low",
     RILLMARK_TR("The notch of {value} is narrower than {limit}; its coefficient is less sure there."), kUsbrNotch},
    {"flow.weir_head_low",
     RILLMARK_TR("The head of {value} is below {limit}: the nappe may cling to the plate. Use a narrower notch."),
     "V-notch: USBR Water Measurement Manual, ch. 7 sec. 7; rectangular: Blevins 1984; Cipolletti: from memory"},
    {"flow.weir_head_high", RILLMARK_TR("The head of {value} is above the rated {limit}. Use a wider weir."), kMemory},
    {"flow.weir_crest_short", RILLMARK_TR("The crest of {value} is shorter than {limit}, for which the formula holds."),
     kCarter},
    {"flow.weir_crest_low",
     RILLMARK_TR("The crest stands {value} over the bed, less than {limit}. Dig out the pool, or raise the plate."),
     "V-notch: USGS Water-Supply Paper 1617-B after Blevins 1984; rectangular: Blevins 1984"},
    {"flow.weir_approach_narrow",
     RILLMARK_TR("The approach of {value} is narrower than {limit}; the notch is not fully contracted."), kShen},
    {"flow.weir_head_over_height",
     RILLMARK_TR("Head over crest height is {value}, more than {limit}. Dig out the pool, or raise the plate."),
     "V-notch: USGS Water-Supply Paper 1617-B after Blevins 1984; rectangular: Blevins 1984"},
    {"flow.weir_head_over_width",
     RILLMARK_TR("Head over width of the approach is {value}, more than {limit}; the notch is not fully contracted."),
     kMemory},
    {"flow.weir_head_over_length",
     RILLMARK_TR("Head over crest length is {value}, more than {limit}. Use a longer crest."), kMemory},
    {"flow.weir_gauge_near",
     RILLMARK_TR(
         "The gauge stands {value} from the plate, within the drawdown. Read the head {limit} or more upstream."),
     "3 to 4 heads: laboratory texts"},
    {"flow.weir_approach_unknown",
     RILLMARK_TR("Crest height and width of the approach are not known; deep, slow water is assumed before the plate."),
     ""},
    {"flow.weir_tailwater_unknown",
     RILLMARK_TR(
         "The tailwater is not known; a nappe that springs free is assumed. Measure how far below the crest it is."),
     ""},
    {"flow.weir_tailwater_near",
     RILLMARK_TR("The tailwater is {value} below the crest, less than {limit}: air must reach under the nappe."),
     kUsbrNotch},
    {"flow.weir_submerged",
     RILLMARK_TR("The weir is submerged to {ratio} of its head; the flow is corrected for it and less sure."),
     "Villemonte 1947; US EPA SWMM Reference Manual, vol. II, equation 6-26; the uncertainty is our own choice"},

    // Flume
    {"flow.flume_unknown", RILLMARK_TR("There is no flume of size \"{size}\". Sizes are: {accepted}."), ""},
    {"flow.flume_throat_wrong",
     RILLMARK_TR("The throat of {value} is not that of size {size} ({nominal}). Choose the size again."), kOwn},
    {"flow.flume_throat_off",
     RILLMARK_TR("The throat of {value} is off the {nominal} of size {size}. Make sure that the right size is chosen: "
                 "one in feet and one in metres differ."),
     kOwn},
    {"flow.flume_submerged",
     RILLMARK_TR(
         "The flume is submerged: the downstream head is {ratio} of the upstream head, free flow ends at {limit}. "
         "Lower the tailwater, or use another method."),
     kParshall},
    {"flow.flume_head_low", RILLMARK_TR("The head of {value} is below the rated {limit}. A narrower flume is surer."),
     kMemory},
    {"flow.flume_head_high", RILLMARK_TR("The head of {value} is above the rated {limit}. A wider flume is needed."),
     kMemory},
    {"flow.flume_unconfirmed",
     RILLMARK_TR("The formula of size {size} is from memory, unconfirmed. Compare it with the maker's table."),
     kMemory},
    {"flow.flume_downstream_unknown",
     RILLMARK_TR(
         "The downstream head is not known; free flow is assumed. It ends where that head passes {limit} of the "
         "upstream head."),
     kParshall},

    // Slope-area
    {"flow.slope_area_sections", RILLMARK_TR("Sections given: {count}. One to {limit} are taken."), ""},
    {"flow.section_bad",
     RILLMARK_TR("Row {row}: this section needs at least three points, from bank to bank, whose offsets do not fall."),
     ""},
    {"flow.same_section", RILLMARK_TR("Two sections are both at {distance}. Correct one distance."), ""},
    {"flow.section_dry",
     RILLMARK_TR("The water line runs below the section at {distance}. Look at its heights and the marks."), ""},
    {"flow.section_open",
     RILLMARK_TR(
         "At {distance} the water stood above an end of the survey; a wall is taken there. Survey higher up the bank."),
     ""},
    {"flow.bad_mark", RILLMARK_TR("Row {row}: this cannot be a high-water mark. Look at its distance and height."), ""},
    {"flow.few_marks", RILLMARK_TR("Marks: {count}. At least two are needed, at different places along the stream."),
     ""},
    {"flow.marks_scatter",
     RILLMARK_TR("The marks scatter by {scatter} about a straight line. Look for one of another flood or from a wave."),
     kPractice},
    {"flow.slope_not_clear",
     RILLMARK_TR(
         "The water slope of {slope} is not clear of its uncertainty of {uncertainty}. Find marks farther apart."),
     ""},
    {"flow.slope_area_no_solution",
     RILLMARK_TR(
         "The sections and the water line do not go together: the flow would gain more speed than there is fall. "
         "Look at the areas, or choose a more even reach."),
     ""},
    {"flow.slope_area_flood_only",
     RILLMARK_TR("This is an estimate of a flood, for flood marks and spillways. Do not design a plant on it."),
     kPractice},
    {"flow.slope_area_one_section", RILLMARK_TR("The flow rests on one section. Survey two or three in an even reach."),
     kPractice},
    {"flow.slope_area_fall_small", RILLMARK_TR("The reach falls by {value}, less than {limit}. Take a longer reach."),
     kTwri},
    {"flow.slope_area_reach_short", RILLMARK_TR("The reach of {value} is shorter than {limit}. Take a longer reach."),
     kTwri},
    {"flow.slope_area_supercritical",
     RILLMARK_TR(
         "At {distance} the Froude number is {value}: natural streams seldom run faster than 1. n may be too small."),
     kPractice},
    {"flow.table_missing", RILLMARK_TR("The table {where} is missing from this program. Install it again."), ""},
    {"flow.table_bad_row", RILLMARK_TR("Line {line} of the table {where} cannot be read."), ""},
    {"flow.unknown_channel", RILLMARK_TR("No kind of channel \"{id}\" is known. Kinds are: {accepted}."), ""},

    // Reductions
    {"exchange.shape_unknown", RILLMARK_TR("\"{cell}\" is no shape of weir. Use one of: {accepted}."), ""},
    {"exchange.roughness_missing", RILLMARK_TR("The roughness is missing. Give n, or the kind of channel."), ""},
    {"exchange.head.zero", RILLMARK_TR("reading of the gauge at the crest or floor"), ""},
    {"exchange.head.reading_uncertainty", RILLMARK_TR("standard uncertainty of one reading"), ""},
    {"exchange.head.zero_uncertainty", RILLMARK_TR("standard uncertainty of the zero"), ""},
    {"exchange.method.weir", RILLMARK_TR("Thin-plate weir: discharge"), ""},
    {"exchange.weir.head", RILLMARK_TR("reading of the head gauge"), ""},
    {"exchange.weir.shape", RILLMARK_TR("v-notch, rectangular or cipolletti"), ""},
    {"exchange.weir.angle", RILLMARK_TR("whole angle of a V-notch"), ""},
    {"exchange.weir.crest_length", RILLMARK_TR("length of the crest, not for a V-notch"), ""},
    {"exchange.weir.crest_height", RILLMARK_TR("crest over the bed of the approach"), ""},
    {"exchange.weir.approach_width", RILLMARK_TR("width of the approach; the crest length for a suppressed weir"), ""},
    {"exchange.weir.gauge_distance", RILLMARK_TR("plate to head gauge"), ""},
    {"exchange.weir.tailwater", RILLMARK_TR("tailwater over the crest, negative below"), ""},
    {"exchange.method.flume", RILLMARK_TR("Parshall flume: discharge"), ""},
    {"exchange.flume.head", RILLMARK_TR("reading of the upstream gauge"), ""},
    {"exchange.flume.size", RILLMARK_TR("standard size, such as us-3in or iso-0.30"), ""},
    {"exchange.flume.downstream_head", RILLMARK_TR("head in the throat over the upstream floor"), ""},
    {"exchange.flume.throat", RILLMARK_TR("throat width as measured, that of the size where empty"), ""},
    {"exchange.method.slope_area", RILLMARK_TR("Slope-area: discharge of a flood by its marks"), ""},
    {"exchange.slope_area.distance", RILLMARK_TR("place along the stream, rising downstream"), ""},
    {"exchange.slope_area.offset", RILLMARK_TR("place across the section; empty for a high-water mark"), ""},
    {"exchange.slope_area.height", RILLMARK_TR("height of the point or mark"), ""},
    {"exchange.slope_area.channel", RILLMARK_TR("kind of channel, such as mountain-boulders"), ""},
    {"exchange.slope_area.n", RILLMARK_TR("Manning's n, instead of the kind of channel"), ""},
    {"exchange.slope_area.n_uncertainty", RILLMARK_TR("standard uncertainty of n, 15 % where empty"), ""},
    {"exchange.slope_area.mark_uncertainty", RILLMARK_TR("standard uncertainty of a high-water mark"), ""},
    {"exchange.table.sections", RILLMARK_TR("Sections"), ""},
    {"exchange.result.head", RILLMARK_TR("head"), ""},
    {"exchange.result.free_discharge", RILLMARK_TR("discharge without submergence"), ""},
    {"exchange.result.submergence", RILLMARK_TR("downstream over upstream head"), ""},
    {"exchange.result.water_slope", RILLMARK_TR("slope of the water"), ""},
    {"exchange.result.water_level", RILLMARK_TR("water level"), ""},
    {"exchange.result.roughness", RILLMARK_TR("Manning's n"), ""},
    {"exchange.result.hydraulic_radius", RILLMARK_TR("hydraulic radius"), ""},
    {"exchange.result.froude", RILLMARK_TR("Froude number"), ""},
};

} // namespace

std::span<const Word> flow_structures_words() {
    return kWords;
}

} // namespace rillmark::words
