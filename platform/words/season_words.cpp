// SPDX-License-Identifier: GPL-3.0-or-later
// The flow through the seasons: ratings of stage, daily flows, transfer from a neighbour, the flow to leave.
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kPractice = "common practice, no source";
constexpr const char* kOwn = "our own choice";

constexpr Word kWords[] = {
    // Stage and discharge
    {"flow.bad_stage", RILLMARK_TR("Row {row}: {value} cannot be a stage. Look at the number and its unit."), ""},
    {"flow.bad_discharge_at_visit",
     RILLMARK_TR("Row {row}: {value} cannot be the discharge of a visit, or its uncertainty is larger than itself."),
     ""},
    {"flow.rating_too_few",
     RILLMARK_TR("Different stages gauged: {count} of at least {needed}. Gauge at other stages too."), ""},
    {"flow.rating_few_visits", RILLMARK_TR("The rating rests on {count} visits; {needed} or more make it sure."),
     kPractice},
    {"flow.rating_zero_unclear",
     RILLMARK_TR(
         "These visits do not show at which stage the flow ceases. Level the lowest point of the control, enter its "
         "stage, or gauge in lower water."),
     ""},
    {"flow.rating_zero_above",
     RILLMARK_TR("The stage of no flow ({zero}) is not below the lowest stage gauged ({stage}). Look at both."), ""},
    {"flow.rating_does_not_rise",
     RILLMARK_TR("The flow does not rise with the stage. Look for a mistaken visit, or a bed that has moved."), ""},
    {"flow.rating_scatter",
     RILLMARK_TR(
         "The visits scatter more than their uncertainty explains; it is enlarged {factor} times. One visit is off by "
         "about {scatter}. Look for a mistake, or a bed that has moved."),
     "Student's t: JCGM 100:2008, table G.2"},
    {"flow.rating_power_odd",
     RILLMARK_TR("The power of the rating is {power}; natural controls have 1 to 3.5. Gauge at more stages."),
     kPractice},
    {"flow.stage_outside_rating",
     RILLMARK_TR(
         "The stage {stage} is outside the gauged {lowest} to {highest}: the curve is drawn on, and may mislead."),
     ""},
    {"flow.stage_no_flow", RILLMARK_TR("At stage {stage} the rating gives no flow. Go and see if the creek is dry."),
     ""},
    {"flow.no_stages", RILLMARK_TR("The stage log is empty."), ""},
    {"flow.times_do_not_rise",
     RILLMARK_TR("Row {row}: its time is not after the one before. Sort the log, or correct it."), ""},
    {"flow.stages_above",
     RILLMARK_TR(
         "Entries above the highest stage gauged ({limit}): {count}. Their flows are drawn on, and may mislead."),
     ""},
    {"flow.stages_below",
     RILLMARK_TR(
         "Entries below the lowest stage gauged ({limit}): {count}. Gauge in low water; their flows may mislead."),
     ""},
    {"flow.stages_no_flow",
     RILLMARK_TR("Entries at or below the stage of no flow ({limit}): {count}. They get no flow."), ""},
    {"flow.stages_missing", RILLMARK_TR("Entries without a stage: {count}. They are missing, not zero."), ""},

    // Daily flows
    {"flow.no_days", RILLMARK_TR("No day has a flow. Look at the columns of the record."), ""},
    {"flow.bad_day", RILLMARK_TR("\"{date}\" is no day. Write year-month-day, such as 2025-08-31."), ""},
    {"flow.day_twice", RILLMARK_TR("Rows {other} and {row} are of one day. Keep one of them."), ""},
    {"flow.bad_daily_flow", RILLMARK_TR("Row {row}: {value} is no flow of a stream. Look at the number and its unit."),
     kOwn},
    {"flow.record_too_long", RILLMARK_TR("The record spans {days} days, more than {limit}. Look for a mistaken year."),
     kOwn},
    {"flow.days_missing", RILLMARK_TR("Days without a flow: {count} of {days}. They are left out."), ""},
    {"flow.days_coded",
     RILLMARK_TR(
         "Days with a negative figure: {count} of {days}. It is taken as a code for a missing day; they are left out."),
     ""},
    {"flow.days_zero",
     RILLMARK_TR(
         "Days with a flow of exactly zero: {count} of {days}. They count; make sure that zero does not stand for a "
         "missing day."),
     ""},
    {"flow.record_short", RILLMARK_TR("Full years in the record: {count}; a low flow should rest on {needed}."),
     kPractice},

    // Transfer
    {"flow.gauge_flow", RILLMARK_TR("Flow at the gauge"), ""},
    {"flow.gauge_area", RILLMARK_TR("Catchment of the gauge"), ""},
    {"flow.site_area", RILLMARK_TR("Catchment of the site"), ""},
    {"flow.area_power", RILLMARK_TR("Power of the ratio of areas"), ""},
    {"flow.transfer_method", RILLMARK_TR("Carrying the flow over from elsewhere"), ""},
    {"flow.spot_gaugings", RILLMARK_TR("Measurements of the same-day flows"), ""},
    {"flow.specific_yield", RILLMARK_TR("Specific yield"), ""},
    {"flow.area_ratio_far",
     RILLMARK_TR("The ratio of the catchments is {ratio}, outside the usual {least} to {greatest}; the doubt is "
                 "doubled. Measure "
                 "at the site on days when the gauge is read."),
     "USGS SIR 2008-5126"},
    {"flow.no_spots", RILLMARK_TR("No flow has been measured at the site on a day of the record. Measure one."), ""},
    {"flow.bad_spot", RILLMARK_TR("Row {row}: both flows must be above zero, with an uncertainty of less than half."),
     ""},
    {"flow.few_spots",
     RILLMARK_TR("Same-day measurements: {count} of {needed}. One or a few leave a doubt of a factor of two or near "
                 "it; measure "
                 "in other seasons."),
     kPractice},
    {"flow.q95_unknown",
     RILLMARK_TR("The flow to leave is a share of Q95, and Q95 is not known. Enter a record of flows."), ""},

    // Reductions
    {"exchange.plotting_unknown", RILLMARK_TR("\"{cell}\" is no plotting rule. Use one of: {accepted}."), ""},
    {"exchange.method.stage_rating", RILLMARK_TR("Stage and discharge: the rating of a gauge"), ""},
    {"exchange.stage_rating.stage", RILLMARK_TR("reading of the gauge at a visit"), ""},
    {"exchange.stage_rating.flow", RILLMARK_TR("discharge measured then; empty in a row of the gauge's log"), ""},
    {"exchange.stage_rating.time", RILLMARK_TR("time of the row, given back as it stands"), ""},
    {"exchange.table.stage_log", RILLMARK_TR("Flows of the gauge's log by the rating"), ""},
    {"exchange.result.rated_range", RILLMARK_TR("against the gauged stages"), ""},
    {"exchange.stage_rating.u_flow", RILLMARK_TR("its standard uncertainty, flow_uncertainty where empty"), ""},
    {"exchange.stage_rating.zero_flow_stage", RILLMARK_TR("stage at which the flow ceases, searched for where empty"),
     ""},
    {"exchange.stage_rating.flow_uncertainty", RILLMARK_TR("relative standard uncertainty of a visit without its own"),
     ""},
    {"exchange.stage_rating.at", RILLMARK_TR("stage to give the flow of"), ""},
    {"exchange.method.daily_flow", RILLMARK_TR("Daily flows: duration curve, low flows, months"), ""},
    {"exchange.daily_flow.date", RILLMARK_TR("year-month-day"), ""},
    {"exchange.daily_flow.flow", RILLMARK_TR("mean flow of the day; empty or negative: missing"), ""},
    {"exchange.daily_flow.plotting", RILLMARK_TR("plotting rule: weibull r/(N+1), linear (r-1)/(N-1)"), ""},
    {"exchange.daily_flow.year_begins", RILLMARK_TR("month in which a year begins, for the low flows: the wettest"),
     ""},
    {"exchange.table.visits", RILLMARK_TR("Visits"), ""},
    {"exchange.table.duration", RILLMARK_TR("Flow duration"), ""},
    {"exchange.table.months", RILLMARK_TR("Months"), ""},
    {"exchange.result.rating_a", RILLMARK_TR("a of Q = a (h - h0)^b"), ""},
    {"exchange.result.rating_b", RILLMARK_TR("b of Q = a (h - h0)^b"), ""},
    {"exchange.result.rating_h0", RILLMARK_TR("stage of no flow h0"), ""},
    {"exchange.result.scatter", RILLMARK_TR("scatter of a visit"), ""},
    {"exchange.result.stage", RILLMARK_TR("stage"), ""},
    {"exchange.result.rated", RILLMARK_TR("by the rating"), ""},
    {"exchange.result.deviation", RILLMARK_TR("measured against rated"), ""},
    {"exchange.result.discharge_lowest", RILLMARK_TR("lowest, 95 %"), ""},
    {"exchange.result.discharge_highest", RILLMARK_TR("highest, 95 %"), ""},
    {"exchange.result.days", RILLMARK_TR("days with a flow"), ""},
    {"exchange.result.full_years", RILLMARK_TR("full years"), ""},
    {"exchange.result.mean_flow", RILLMARK_TR("mean flow"), ""},
    {"exchange.result.q50", RILLMARK_TR("Q50"), ""},
    {"exchange.result.q95", RILLMARK_TR("Q95"), ""},
    {"exchange.result.low7", RILLMARK_TR("mean of the years' lowest seven days"), ""},
    {"exchange.result.base_flow_index", RILLMARK_TR("base-flow index, smoothed minima"), ""},
    {"exchange.result.part_of_time", RILLMARK_TR("part of the time"), ""},
    {"exchange.result.month", RILLMARK_TR("month"), ""},
};

} // namespace

std::span<const Word> season_words() {
    return kWords;
}

} // namespace rillmark::words
