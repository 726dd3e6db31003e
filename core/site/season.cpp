// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/season.h"

#include "flow/independent_budget.h"
#include "units/iso_time.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace rillmark {

namespace {

bool same(const Estimate& a, const Estimate& b) {
    return a.value == b.value && a.standard_uncertainty == b.standard_uncertainty;
}

void append(Findings& findings, const Findings& more) {
    findings.insert(findings.end(), more.begin(), more.end());
}

void rate_gauge(SiteSeason& season) {
    std::vector<StageVisit> visits;
    for (const GaugeVisit& visit : season.inputs.gauge_visits)
        visits.push_back({visit.test_id, visit.stage_m, visit.discharge_m3s.value,
                          visit.discharge_m3s.standard_uncertainty, !visit.counts});
    if (visits.empty()) {
        season.rating_findings.push_back(note("site.no_stage_visits"));
        return;
    }
    StageRatingOptions options;
    options.zero_flow_stage_m = season.inputs.zero_flow_stage_m;
    Expected<StageRating> rating = fit_stage_rating(visits, options);
    if (!rating) {
        season.rating_findings.push_back(rating.error());
        return;
    }
    season.rating_findings = rating->findings;
    season.rating = std::move(rating).value();
}

/// The record of a stage log by the rating.
std::optional<GaugeRecord> rated_record(const std::vector<StagePoint>& log, SiteSeason& season) {
    if (!season.rating) {
        season.findings.push_back(warning("site.log_without_rating"));
        return {};
    }
    Expected<RatedDays> days = rated_days(log, *season.rating);
    if (!days) {
        season.findings.push_back(days.error());
        return {};
    }
    append(season.findings, days->findings);
    GaugeRecord record;
    record.daily = std::move(days->daily);
    record.outside = std::move(days->outside);
    return record;
}

void add_record(SiteSeason& season) {
    const SeasonInputs& in = season.inputs;
    if (!in.series || !in.values)
        return;
    if (in.values->fault) {
        season.findings.push_back(*in.values->fault);
        return;
    }
    std::optional<GaugeRecord> record = GaugeRecord{in.values->daily, {}, {}, {}};
    if (in.series->kind == kStageSeries)
        record = rated_record(in.values->stages, season);
    if (!record)
        return;
    Expected<DailySummary> summary = daily_summary(record->daily, in.summary);
    if (!summary) {
        season.findings.push_back(summary.error());
        return;
    }
    record->summary = std::move(summary).value();
    append(season.findings, record->summary.findings);
    season.record = std::move(record);
}

/// Relative standard uncertainty of a flow at the gauge, the years' scatter apart.
double gauge_u_rel(const SiteSeason& season, double flow_m3s) {
    const FlowSeriesRow& series = *season.inputs.series;
    if (series.kind != kStageSeries)
        return series.flow_u.value_or(kDailyFlow_u_rel);
    const StageRating& rating = *season.rating;
    const RatedFlow rated = rating.at(rating.h0_m + std::pow(flow_m3s / rating.a, 1.0 / rating.b));
    return rated.discharge.value > 0.0 ? rated.discharge.standard_uncertainty / rated.discharge.value : 1.0;
}

/// A figure at the gauge with all its doubt there.
Budgeted gauge_figure(const SiteSeason& season, double flow_m3s, std::optional<double> years_u_m3s) {
    const bool few_years = season.record->summary.full_years < 2;
    const double years = few_years ? kOneYear_u_rel * flow_m3s : years_u_m3s.value_or(kOneYear_u_rel * flow_m3s);
    const char* gauge = season.inputs.series->kind == kStageSeries ? "site.season_rating" : "site.season_gauge";
    return combine_independent(flow_m3s,
                               {{"site.season_years", season.inputs.series->name, years, 0.0},
                                {gauge, season.inputs.series->name, gauge_u_rel(season, flow_m3s) * flow_m3s, 0.0}});
}

Estimate area_of(double m2, const std::optional<double>& u_rel) {
    return {m2, u_rel.value_or(kCatchment_u_rel) * m2};
}

/// The days on which both the site was gauged and the record has a flow.
std::vector<SpotRatio> spots_of(const SiteSeason& season) {
    std::vector<SpotRatio> spots;
    const DailyFlow& daily = season.record->daily;
    for (const auto& [date, flow] : season.inputs.visits) {
        const std::optional<std::chrono::sys_days> day = day_from_iso(date);
        const auto place = day ? (*day - daily.first).count() : -1;
        if (place < 0 || static_cast<std::size_t>(place) >= daily.flow_m3s.size())
            continue;
        const std::optional<double> there = daily.flow_m3s[static_cast<std::size_t>(place)];
        if (there && *there > 0.0)
            spots.push_back({flow, {*there, gauge_u_rel(season, *there) * *there}});
    }
    return spots;
}

Expected<TransferredFlow> carried(const SiteSeason& season, const std::vector<SpotRatio>& spots,
                                  const Budgeted& at_gauge) {
    const SeasonInputs& in = season.inputs;
    if (in.transfer == "spots")
        return transfer_by_spots(spots, at_gauge.estimate);
    if (in.transfer != "area")
        return TransferredFlow{at_gauge, 1.0, {}};
    if (!in.catchment_m2 || !in.series->catchment_m2)
        return refusal("site.catchments_unknown");
    AreaTransfer transfer;
    transfer.gauge_flow_m3s = at_gauge.estimate;
    transfer.gauge_area_m2 = area_of(*in.series->catchment_m2, in.series->catchment_u);
    transfer.site_area_m2 = area_of(*in.catchment_m2, in.catchment_u);
    transfer.power.value = in.area_power.value_or(transfer.power.value);
    return transfer_by_area(transfer);
}

void carry_record(SiteSeason& season) {
    const DailySummary& summary = season.record->summary;
    const std::vector<SpotRatio> spots =
        season.inputs.transfer == "spots" ? spots_of(season) : std::vector<SpotRatio>();
    SiteRecord site;
    const auto figure = [&](std::optional<double> flow_m3s, std::optional<double> u_m3s) -> std::optional<Budgeted> {
        if (!flow_m3s)
            return {};
        Expected<TransferredFlow> moved = carried(season, spots, gauge_figure(season, *flow_m3s, u_m3s));
        if (!moved) {
            if (std::ranges::find(season.findings, moved.error().code, &Finding::code) == season.findings.end())
                season.findings.push_back(moved.error());
            return {};
        }
        if (!site.ratio)
            append(season.findings, moved->findings);
        site.ratio = moved->ratio;
        return std::move(moved->discharge);
    };
    site.mean = figure(summary.mean_m3s, summary.mean_u_m3s);
    site.q50 = figure(summary.q50_m3s, summary.q50_u_m3s);
    site.q95 = figure(summary.q95_m3s, summary.q95_u_m3s);
    if (summary.low7_m3s)
        site.low7 = figure(summary.low7_m3s->value, summary.low7_m3s->standard_uncertainty);
    if (!site.ratio)
        return;
    DailyFlow daily = season.record->daily;
    for (std::optional<double>& flow : daily.flow_m3s)
        if (flow)
            *flow *= *site.ratio;
    site.curve = flow_duration(daily);
    site.months = monthly_flow_duration(daily);
    season.site = std::move(site);
}

void add_yield(SiteSeason& season) {
    const SeasonInputs& in = season.inputs;
    if (!in.yield_ms || !in.catchment_m2) {
        season.findings.push_back(refusal("site.yield_unknown"));
        return;
    }
    Expected<TransferredFlow> flow = flow_from_yield(
        {*in.yield_ms, in.yield_u_ms.value_or(kYield_u_rel * *in.yield_ms)}, area_of(*in.catchment_m2, in.catchment_u));
    if (!flow) {
        season.findings.push_back(flow.error());
        return;
    }
    season.site.emplace();
    season.site->mean = std::move(flow->discharge);
    season.findings.push_back(warning("site.mean_from_yield"));
}

} // namespace

bool operator==(const GaugeVisit& a, const GaugeVisit& b) {
    return a.test_id == b.test_id && a.name == b.name && a.date == b.date && a.stage_m == b.stage_m &&
           same(a.discharge_m3s, b.discharge_m3s) && a.counts == b.counts;
}

bool operator==(const SeasonInputs& a, const SeasonInputs& b) {
    const auto same_series = [](const std::optional<FlowSeriesRow>& x, const std::optional<FlowSeriesRow>& y) {
        return x.has_value() == y.has_value() &&
               (!x || (x->id == y->id && x->name == y->name && x->catchment_m2 == y->catchment_m2 &&
                       x->catchment_u == y->catchment_u && x->flow_u == y->flow_u));
    };
    const auto same_visit = [](const auto& x, const auto& y) { return x.first == y.first && same(x.second, y.second); };
    const auto numbers = [](const SeasonInputs& in) {
        return std::tie(in.values, in.transfer, in.zero_flow_stage_m, in.catchment_m2, in.catchment_u, in.area_power,
                        in.yield_ms, in.yield_u_ms, in.summary.rule, in.summary.year_begins);
    };
    return a.gauge_visits == b.gauge_visits && std::ranges::equal(a.visits, b.visits, same_visit) &&
           same_series(a.series, b.series) && numbers(a) == numbers(b);
}

SeasonInputs season_inputs(const Survey& survey, const SiteFlow& flow) {
    SeasonInputs in;
    for (const TestResult& result : flow.tests) {
        const FlowTestRow* test = survey.test(result.test_id);
        if (test == nullptr || !test->stage_m || !result.discharge)
            continue;
        in.gauge_visits.push_back({test->id, test->name, test->created_at.substr(0, kIsoDayLength), *test->stage_m,
                                   result.discharge->estimate, test->counts});
    }
    for (const FlowVisit& visit : flow.visits)
        in.visits.emplace_back(visit.date, visit.discharge.estimate);
    const SiteRow& site = survey.site;
    in.transfer = site.transfer;
    if (const FlowSeriesRow* series = survey.year_series(); series != nullptr && site.transfer != "yield") {
        in.series = *series;
        if (const auto found = survey.series_values.find(series->id); found != survey.series_values.end())
            in.values = found->second;
    }
    in.zero_flow_stage_m = site.zero_flow_stage_m;
    in.catchment_m2 = site.catchment_m2;
    in.catchment_u = site.catchment_u;
    in.area_power = site.area_power;
    in.yield_ms = site.yield_ms;
    in.yield_u_ms = site.yield_u_ms;
    in.summary.rule = site.duration_rule == "linear" ? PlottingRule::Linear : PlottingRule::Weibull;
    in.summary.year_begins = static_cast<unsigned>(site.year_begins.value_or(1));
    return in;
}

SiteSeason site_season(const SeasonInputs& inputs) {
    SiteSeason season;
    season.inputs = inputs;
    rate_gauge(season);
    add_record(season);
    if (season.record)
        carry_record(season);
    else if (inputs.transfer == "yield")
        add_yield(season);
    return season;
}

std::shared_ptr<const SiteSeason> site_season(const Survey& survey, const SiteFlow& flow,
                                              const std::shared_ptr<const SiteSeason>& before) {
    const SeasonInputs inputs = season_inputs(survey, flow);
    if (before && before->inputs == inputs)
        return before;
    return std::make_shared<const SiteSeason>(site_season(inputs));
}

} // namespace rillmark
