// SPDX-License-Identifier: GPL-3.0-or-later
// How each method computes, in a line, and where that comes from: the list of sources of a report. The codes are
// topic.source_<id of the method>.
#include "words/words.h"

namespace rillmark::words {

std::span<const Word> source_words() {
    static constexpr Word table[] = {
        {"flow.source_container", RILLMARK_TR("volume over time, mean of the fills"),
         "Connected Water (Australian Government), volumetric measurement of stream flow"},
        {"flow.source_velocity_area",
         RILLMARK_TR("depth times mean velocity by verticals, mid-section; uncertainty by its components"),
         "G. Morgenschweis, Hydrometrie, section 4.5; USBR Water Measurement Manual, chapter 10; ISO 748:2007"},
        {"flow.source_float", RILLMARK_TR("area times velocity of the surface times a coefficient"),
         "C. E. Boyd, Measuring water flow, table 1; coefficients of rough beds from memory, unconfirmed"},
        {"flow.source_salt_slug", RILLMARK_TR("mass of salt over the area of its wave"),
         "Richardson, Sentlinger, Moore and Zimmermann, Confluence 1(2), 2017, doi:10.22230/jwsm.2017v1n1a1"},
        {"flow.source_constant_rate", RILLMARK_TR("balance of what is added and what arrives"),
         "Connected Water (Australian Government)"},
        {"flow.source_weir",
         RILLMARK_TR("Kindsvater-Shen, Kindsvater-Carter or Cipolletti by the shape; Villemonte where submerged"),
         "USBR Water Measurement Manual, 3rd ed., chapter 7; USGS Water-Supply Paper 1617-B; G. Morgenschweis, "
         "Hydrometrie, table 5.3"},
        {"flow.source_flume", RILLMARK_TR("rating of the standard sizes"),
         "USBR Water Measurement Manual, 3rd ed., chapter 8; ISO 9826:1992, table 3, in part from memory, unconfirmed"},
        {"flow.source_slope_area", RILLMARK_TR("Manning's equation over the fall of the flood marks"),
         "USGS TWRI 3-A2 (Dalrymple and Benson, 1967), from memory, unconfirmed"},
        {"levels.source_level_book", RILLMARK_TR("rise and fall, checked by height of instrument"),
         "any text on levelling"},
        {"levels.source_network",
         RILLMARK_TR("weighted least squares of all height differences; outliers by their normalised residual"),
         "C. D. Ghilani and P. R. Wolf, Adjustment Computations, 4th ed., 2006, chapter 12; W. Baarda, 1968"},
        {"levels.source_receiver", RILLMARK_TR("receiver heights, brought to one geoid"), "EGM96 (NASA GSFC and NIMA)"},
        {"levels.source_water_tube", RILLMARK_TR("hydrostatics"),
         "M. Tanaka et al., Metrologia 38 (2001) 301-309, for the density"},
        {"levels.source_hose_gauge", RILLMARK_TR("pressure of the water column, that of the air taken off"),
         "hydrostatics; ISO 2533:1975"},
        {"levels.source_hand_level", RILLMARK_TR("sum of eye heights"), "common practice, no source"},
        {"levels.source_clinometer", RILLMARK_TR("plane trigonometry"),
         "plane trigonometry; accuracy from memory, unconfirmed"},
        {"levels.source_zenith", RILLMARK_TR("zenith angle and distance, with curvature and refraction"),
         "J. Mahun, Open Access Surveying Library, Elevations, chapter C"},
        {"levels.source_barometer", RILLMARK_TR("hypsometric formula, drift shared out by time"),
         "barometric levelling; common practice, no source"},
        {"levels.source_barometer_base", RILLMARK_TR("hypsometric formula against a base that logs"),
         "barometric levelling; common practice, no source"},
        {"levels.source_reciprocal", RILLMARK_TR("mean of the differences from both sides"), "any text on levelling"},
        {"levels.source_known_height", RILLMARK_TR("height as given for a bench mark"), ""},
        {"levels.source_tape", RILLMARK_TR("distance measured upright"), "common practice, no source"},
        {"levels.source_two_peg", RILLMARK_TR("collimation of a level from two set-ups"), "any text on levelling"},
        {"position.source_plan", RILLMARK_TR("geodesics and local plane on WGS 84"),
         "C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87, 2013 (GeographicLib)"},
        {"power.source_friction",
         RILLMARK_TR("Darcy-Weisbach, friction factor of Colebrook and White; 64/Re where laminar"),
         "C. F. Colebrook, J. Inst. Civil Engrs. 11, 1939, 133"},
        {"power.source_water", RILLMARK_TR("density and viscosity of water by temperature"),
         "M. Tanaka et al., Metrologia 38 (2001) 301-309; J. Kestin et al., J. Phys. Chem. Ref. Data 7 (1978) 941"},
        {"power.source_gravity", RILLMARK_TR("normal gravity by latitude and height"),
         "NIMA TR8350.2, 3rd ed., equations 4-1 and 4-3"},
        {"power.source_cable", RILLMARK_TR("drop and loss of a short line"),
         "V. K. Mehta, R. Mehta, Principles of Power System, 4th ed., 2005, chapters 10 and 13"},
        {"uncertainty.source_propagation",
         RILLMARK_TR("standard uncertainties, propagated to first order; shown as ± at k = 2"), "JCGM 100:2008 (GUM)"},
    };
    return table;
}

} // namespace rillmark::words
