// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "season/flow_duration.h"
#include "season/flow_to_leave.h"
#include "season/low_flow.h"
#include "season/stage_rating.h"
#include "season/stage_series.h"
#include "season/transfer.h"
#include "site/flow_tests.h"
#include "site/survey.h"

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace rillmark {

// Common practice, no source: relative standard uncertainties where none is given.
inline constexpr double kDailyFlow_u_rel = 0.08; // of a gauge's daily flows
inline constexpr double kCatchment_u_rel = 0.03; // of a catchment from a map
inline constexpr double kYield_u_rel = 0.2;      // of a specific yield, beside the doubt of the method
// Our own choice: what a figure of one year, or of a part of one, may be off from that of many, relative, as u.
inline constexpr double kOneYear_u_rel = 0.3;

/// One test at which the staff gauge was read.
struct GaugeVisit {
    Id test_id = 0;
    std::string name;
    std::string date; // ISO day
    double stage_m = 0.0;
    Estimate discharge_m3s;
    bool counts = true;
    friend bool operator==(const GaugeVisit&, const GaugeVisit&);
};

/// All that the year's flow is computed from. Two that are equal give the same season.
struct SeasonInputs {
    std::vector<GaugeVisit> gauge_visits;
    std::vector<std::pair<std::string, Estimate>>
        visits; // day and flow of each day of tests that count, for same-day ratios
    std::optional<FlowSeriesRow> series;
    std::shared_ptr<const SeriesValues> values;
    std::string transfer;
    std::optional<double> zero_flow_stage_m, catchment_m2, catchment_u, area_power, yield_ms, yield_u_ms;
    SummaryOptions summary;
    friend bool operator==(const SeasonInputs&, const SeasonInputs&);
};
[[nodiscard]] SeasonInputs season_inputs(const Survey& survey, const SiteFlow& flow);

/// The record of one gauge as daily flows there.
struct GaugeRecord {
    DailyFlow daily;
    std::vector<bool> outside; // a day with stages outside the gauged ones; empty for a record of flows
    DailySummary summary;
    Findings findings;
};

/// The year's flow at the site. Its figures carry the doubt of the years, of the gauge or rating, and of the transfer.
struct SiteRecord {
    std::optional<double> ratio; // of the site's flow to the gauge's; nothing with a specific yield
    FlowDuration curve;          // empty with a specific yield
    std::array<FlowDuration, 12> months;
    std::optional<Budgeted> mean;
    std::optional<Budgeted> q50;
    std::optional<Budgeted> q95;
    std::optional<Budgeted> low7;
};

struct SiteSeason {
    SeasonInputs inputs;
    std::optional<StageRating> rating;
    Findings rating_findings;          // of the rating, or why there is none
    std::optional<GaugeRecord> record; // at its own gauge
    std::optional<SiteRecord> site;
    Findings findings; // of record and transfer, or why there is no site's figure
};

/// The season of the site: the rating of the staff gauge, the record at its gauge, and what the site's flow is by it.
///
/// A stage log becomes flows by the rating. A record of this creek is taken as it is, a neighbour's by transfer_by_area
/// or transfer_by_spots, and without a record flow_from_yield gives the mean alone. A figure's standard uncertainty at
/// the gauge combines that of the years' scatter (kOneYear_u_rel where fewer than two are full), and kDailyFlow_u_rel
/// or the series' own, or the rating's at that flow.
[[nodiscard]] SiteSeason site_season(const SeasonInputs& inputs);
/// The same, or `before` where its inputs are equal: a long log is not computed again at each booking.
[[nodiscard]] std::shared_ptr<const SiteSeason> site_season(const Survey& survey, const SiteFlow& flow,
                                                            const std::shared_ptr<const SiteSeason>& before);

/// The figure of the year that the site's record names as the flow to use: "q95" (also when empty), "q50", "mean",
/// "low7".
[[nodiscard]] const std::optional<Budgeted>* season_figure(const SiteSeason& season, const std::string& figure);

/// Puts the season's figure in the place of the tests' where the site chooses so. Without one the tests' stays, with
/// `site.season_unknown`.
void use_season(const SiteRow& site, const SiteSeason& season, SiteFlow& flow);

/// The twelve columns of the monthly table, January first.
[[nodiscard]] const std::array<std::optional<double> SiteRow::*, 12>& leave_columns();
/// The rule of the site; nothing where none is chosen.
[[nodiscard]] std::optional<FlowToLeave> leave_of(const SiteRow& site);

/// The flow to use divided by the site's rule. A monthly table is read in the month of the visit that the flow rests
/// on, else in the month that asks for most (`site.leave_month`). A rule that cannot be applied leaves all of the flow,
/// with the reason and `site.nothing_left`.
[[nodiscard]] UsableFlow usable_flow_of(const SiteRow& site, const FlowToUse& to_use, const SiteSeason& season);

} // namespace rillmark
