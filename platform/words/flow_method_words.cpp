// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> flow_method_words() {
    static constexpr Word table[] = {
        {"flow.advice_float",
         RILLMARK_TR(
             "A straight, even reach of some 20 s of travel. Sound one section or more, then time floats across the "
             "whole "
             "width, most of them where most of the water goes. A float shows the surface only: the coefficient is the "
             "large part of the doubt."),
         ""},
        {"flow.caution_float",
         RILLMARK_TR("Sound the section only where wading is safe: never alone, never in rising water, with a flotation vest, and out of "
                     "cold water in time. Catch floats from the bank, clear of racks and nets: the water holds you against them."),
         ""},
        {"flow.advice_salt_slug",
         RILLMARK_TR("Pour dissolved salt in at once, some 25 widths of turbulent water above the probe, and read the "
                     "conductivity "
                     "until it is back where it began. Calibrate the probe in water of this creek: add the standard "
                     "solution step "
                     "by step and read after each. Read the background before and after."),
         ""},
        {"flow.caution_salt_slug",
         RILLMARK_TR("Ask first: adding anything to a creek may need a permit. Keep the peak below the chloride limits "
                     "for life in "
                     "water, clear of spawning beds and of water intakes. Dissolve the salt before it goes in. Pour "
                     "and read from "
                     "the bank where you can; never wade alone or in rising water, and mind the cold."),
         ""},
        {"flow.advice_constant_rate",
         RILLMARK_TR("Let a solution of known strength run in at a steady rate until the probe below stands still; "
                     "read background "
                     "before and plateau after. Measure the rate with a jug, more than once."),
         ""},
        {"flow.caution_constant_rate",
         RILLMARK_TR("Ask first: adding anything to a creek may need a permit. Keep the plateau below the chloride "
                     "limits. Read "
                     "from the bank where you can; never wade alone or in rising water, and mind the cold."),
         ""},
        {"flow.advice_constant_rate_dye",
         RILLMARK_TR("Let a dye solution of known strength run in at a steady rate until the water below shows the "
                     "same again and again; "
                     "take samples of the background before and of the plateau after, and read them in the shade with "
                     "a calibrated "
                     "instrument. Measure the rate with a jug, more than once."),
         ""},
        {"flow.caution_constant_rate_dye",
         RILLMARK_TR("Ask first: dye in a creek needs a permit and the word of whoever drinks below; the permit says "
                     "which dye and how "
                     "much. Wear gloves. Read from the bank; never wade alone or in rising water, and mind the cold."),
         ""},
        {"flow.logger_conductivity", RILLMARK_TR("Conductivity"), ""},
        {"flow.logger_temperature", RILLMARK_TR("Water temperature"), ""},
        {"flow.advice_weir",
         RILLMARK_TR(
             "Read the water level at least four heads upstream of the plate, not at the crest, where it draws down. "
             "The zero "
             "of the gauge is its reading at the crest, set with a level. The water must spring clear of the plate."),
         ""},
        {"flow.caution_weir",
         RILLMARK_TR("Wet plates and planks are slippery: read from the bank, and hold on. Stay out of the water above a weir, a rack or a "
                     "net: it holds you against them."),
         ""},
        {"flow.advice_flume",
         RILLMARK_TR("Read the upstream gauge at two thirds of the converging wall from the throat; its zero is the "
                     "level floor. Where "
                     "the water stands high below, read the downstream gauge as well."),
         ""},
        {"flow.caution_flume",
         RILLMARK_TR("A flume can hold a leg: do not step into it. Its walls are slippery. Keep clear of racks and nets in its channel."), ""},
        {"flow.advice_slope_area",
         RILLMARK_TR("The flood that left its marks: survey one to three sections and the marks along a straight reach "
                     "that falls at "
                     "least 0.15 m, and judge the roughness. It is a flood estimate with a large doubt, never a flow "
                     "to build on."),
         ""},
        {"flow.caution_slope_area", RILLMARK_TR("Survey at low water. Undercut banks break: stay off their edges."),
         ""},
        {"flow.detail_area", RILLMARK_TR("Area of the section"), ""},
        {"flow.detail_surface_velocity", RILLMARK_TR("Velocity at the surface"), ""},
        {"flow.detail_float_coefficient", RILLMARK_TR("Float coefficient"), ""},
        {"flow.detail_salt", RILLMARK_TR("Salt poured in"), ""},
        {"flow.detail_factor", RILLMARK_TR("Calibration factor, kg/m³ per S/m"), ""},
        {"flow.detail_rise", RILLMARK_TR("Rise of the concentration"), ""},
        {"flow.detail_head", RILLMARK_TR("Head"), ""},
        {"flow.detail_submergence", RILLMARK_TR("Part of the free flow left by submergence"), ""},
        {"flow.detail_slope", RILLMARK_TR("Slope of the water surface"), ""},
    };
    return table;
}

} // namespace rillmark::words
