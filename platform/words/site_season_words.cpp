// SPDX-License-Identifier: GPL-3.0-or-later
// The season of a site: its gauge, its record, the flow that may be taken.
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr Word kWords[] = {
    {"site.no_stage_visits",
     RILLMARK_TR("No flow test has a staff gauge reading yet. Read the gauge at every test and enter it there."), ""},
    {"site.log_without_rating",
     RILLMARK_TR("The stage log gives no flows yet: it needs a rating. Gauge the flow at four or more stages."), ""},
    {"site.catchments_unknown",
     RILLMARK_TR("The catchments of the gauge and of the site are not both known. Take them off a map and enter them."),
     ""},
    {"site.yield_unknown",
     RILLMARK_TR("The specific yield and the catchment of the site are not both known. Enter them."), ""},
    {"site.mean_from_yield",
     RILLMARK_TR("Only a mean flow, from catchment and specific yield: it says nothing of how low the creek gets."),
     ""},
    {"site.season_unknown",
     RILLMARK_TR(
         "The year's figure that is chosen as the flow to use is not known; the lowest visit is used. Read in a "
         "record of flows, or choose otherwise."),
     ""},
    {"site.other_months", RILLMARK_TR("Tests outside the months chosen: {count}. They do not count."), ""},
    {"site.leave_month", RILLMARK_TR("The flow to leave is that of month {month} in the table."), ""},
    {"site.nothing_left",
     RILLMARK_TR("The flow to leave cannot be reckoned, so all of the flow is counted as usable. That is too much."),
     ""},
    {"site.season_years", RILLMARK_TR("The years of the record, for all years"),
     "30 % with fewer than two full years: our own choice"},
    {"site.season_gauge", RILLMARK_TR("Daily flows of the gauge"),
     "8 % where none is given: common practice, no source"},
    {"site.season_rating", RILLMARK_TR("Rating of the staff gauge"), ""},
    {"site.flow_left", RILLMARK_TR("Flow to leave in the creek"), ""},
    {"site.year_no_record",
     RILLMARK_TR("The flow of this creek over the year is not known, and one day's flow says nothing about a year. Under "
                 "Flow, The season, read in the daily flows of a gauge or a log of the stage."),
     ""},
    {"site.year_no_transfer",
     RILLMARK_TR("There is a record of flows, but it is not known what this creek has while the gauge has that much. Under "
                 "Flow, The season, enter how the flows come over to this site."),
     ""},
    {"site.year_mean_only",
     RILLMARK_TR("Only the mean flow of the year is known, from the catchment: it does not say how long the creek is low. "
                 "Under Flow, The season, read in daily flows of a gauge nearby."),
     ""},
    {"site.year_nothing_left",
     RILLMARK_TR("No flow to leave in the creek is entered, so all of it counts as usable. What must stay is for the "
                 "authority to say; enter it under Flow, The season."),
     ""},
    {"exchange.series_stage", RILLMARK_TR("Reading of the staff gauge"), ""},
    {"exchange.series_flow", RILLMARK_TR("Mean flow of the day"), ""},
    {"exchange.series_undated",
     RILLMARK_TR("The times of the file have no date. Choose the column that holds the date, or put one into the file."),
     ""},
    {"exchange.series_within_second",
     RILLMARK_TR("Readings within the second of the one before: {count}. They are left out."), ""},
    {"project.bad_series", RILLMARK_TR("A part of a series of readings (row {id}) is damaged. Read its file in again."),
     ""},
};

} // namespace

std::span<const Word> site_season_words() {
    return kWords;
}

} // namespace rillmark::words
