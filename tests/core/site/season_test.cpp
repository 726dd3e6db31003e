// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_fixture.h"

#include "site/season.h"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace rillmark {
namespace {

using std::chrono::days;
using std::chrono::sys_days;
using std::chrono::year;

bool says(const Findings& findings, const std::string& code) {
    return std::ranges::find(findings, code, &Finding::code) != findings.end();
}

class Season : public SiteFixture {
protected:
    /// A container test of so many litres a second, of that day, with the staff gauge at that reading.
    Id test(const std::string& day, double flow_ls, std::optional<double> stage_m = {}) {
        FlowTestRow row;
        row.method = "container";
        row.name = "Test of " + day;
        row.stage_m = stage_m;
        row.created_at = day + "T10:00:00.000Z";
        const Id id = book(row);
        for (const double time_s : {9.9, 10.0, 10.1}) {
            FillRow fill;
            fill.test_id = id;
            fill.volume_m3 = flow_ls * 0.01;
            fill.time_s = time_s;
            book(fill);
        }
        return id;
    }
    /// Years of days, each with the flow that `flow_m3s` gives to its place.
    template <class Flow>
    Id neighbour(Flow&& flow_m3s, std::size_t count = 4 * 365) {
        DailyFlow daily;
        daily.first = sys_days(year(2021) / 1 / 1);
        for (std::size_t i = 0; i < count; ++i)
            daily.flow_m3s.push_back(flow_m3s(i));
        FlowSeriesRow series;
        series.kind = kDailyFlowSeries;
        series.name = "Neighbour";
        series.catchment_m2 = 4e6;
        return *book_series(*m_project, series, daily_blocks(daily));
    }
    template <class Change>
    void change_site(Change&& change) {
        SiteRow site = *m_project->site();
        change(site);
        ASSERT_TRUE(m_project->change(site).ok());
    }
};

double saw(std::size_t day) { // 10 to 110 L/s, each equally often: quantiles by hand
    return 0.010 + 0.0001 * static_cast<double>(day % 1001);
}

TEST_F(Season, WithoutRecordAndGaugeItSaysWhatToDo) {
    const SiteEstimate site = estimate();
    ASSERT_NE(site.season, nullptr);
    EXPECT_FALSE(site.season->site.has_value());
    EXPECT_TRUE(says(site.season->rating_findings, "site.no_stage_visits"));
}

TEST_F(Season, TheGaugedTestsMakeARating) {
    // Q = 1.2 (h - 0.1)^2, worked by hand
    for (const auto& [day, stage_m] : {std::pair("2026-04-01", 0.5), {"2026-05-01", 0.4}, {"2026-06-01", 0.3}, {"2026-07-01", 0.2}, {"2026-08-01", 0.25}})
        test(day, 1200.0 * (stage_m - 0.1) * (stage_m - 0.1), stage_m);
    SiteEstimate site = estimate();
    ASSERT_TRUE(site.season->rating.has_value()) << site.season->rating_findings.front().code;
    EXPECT_NEAR(site.season->rating->h0_m, 0.1, 0.005);
    EXPECT_NEAR(site.season->rating->at(0.35).discharge.value, 1.2 * 0.0625, 0.001);
    // a test that is left out leaves the rating too
    FlowTestRow left_out = m_survey.tests.back().row;
    left_out.counts = false;
    left_out.set_aside_reason = "backwater from a log";
    ASSERT_TRUE(m_project->change(left_out).ok());
    site = estimate();
    EXPECT_EQ(site.season->rating->visits, 4u);
    EXPECT_EQ(site.flow.visits.size(), 4u);
}

TEST_F(Season, AStageLogBecomesFlowsAndMarksWhatWasNotGauged) {
    for (const auto& [day, stage_m] : {std::pair("2026-04-01", 0.5), {"2026-05-01", 0.4}, {"2026-06-01", 0.3}, {"2026-07-01", 0.2}})
        test(day, 1200.0 * (stage_m - 0.1) * (stage_m - 0.1), stage_m);
    std::vector<StagePoint> log;
    for (int hour = 0; hour < 24 * 10; ++hour)
        log.push_back({sys_days(year(2026) / 5 / 1) + std::chrono::hours(hour), hour / 24 == 4 ? 0.7 : 0.3});
    FlowSeriesRow series;
    series.kind = kStageSeries;
    series.name = "Staff gauge";
    ASSERT_TRUE(book_series(*m_project, series, stage_blocks(log)).ok());
    const SiteEstimate site = estimate();
    ASSERT_TRUE(site.season->record.has_value());
    const GaugeRecord& record = *site.season->record;
    ASSERT_EQ(record.daily.flow_m3s.size(), 10u);
    EXPECT_NEAR(*record.daily.flow_m3s[0], 1.2 * 0.04, 0.001);
    EXPECT_EQ(std::ranges::count(record.outside, true), 1);
    EXPECT_TRUE(record.outside[4]);
    EXPECT_TRUE(says(site.season->findings, "flow.stages_above"));
    ASSERT_TRUE(site.season->site && site.season->site->q50);
    EXPECT_DOUBLE_EQ(site.season->site->ratio.value_or(0.0), 1.0);
    // less than two full years: the doubt of one year is in it, kOneYear_u_rel
    EXPECT_GT(site.season->site->q50->estimate.standard_uncertainty, 0.3 * site.season->site->q50->estimate.value);
}

TEST_F(Season, ALogWithoutARatingGivesNoFlows) {
    FlowSeriesRow series;
    series.kind = kStageSeries;
    series.name = "Staff gauge";
    ASSERT_TRUE(book_series(*m_project, series, stage_blocks({{sys_days(year(2026) / 5 / 1), 0.3}})).ok());
    const SiteEstimate site = estimate();
    EXPECT_FALSE(site.season->record.has_value());
    EXPECT_TRUE(says(site.season->findings, "site.log_without_rating"));
}

TEST_F(Season, TheCatchmentsCarryANeighboursRecordOver) {
    neighbour(saw, 3 * 1001); // whole saws
    change_site([](SiteRow& site) {
        site.transfer = "area";
        site.catchment_m2 = 3e6;
    });
    const SiteEstimate site = estimate();
    ASSERT_TRUE(site.season->site.has_value()) << site.season->findings.front().code;
    const SiteRecord& record = *site.season->site;
    EXPECT_DOUBLE_EQ(*record.ratio, 0.75); // power 1
    // 10 to 110 L/s evenly: 95 % of the time above 15 L/s
    EXPECT_NEAR(record.q95->estimate.value, 0.75 * 0.015, 0.0001);
    EXPECT_NEAR(record.q50->estimate.value, 0.75 * 0.060, 0.0001);
    // never less than the doubt of the method, 25 % (kAreaTransfer_u_rel)
    EXPECT_GT(record.q95->estimate.standard_uncertainty, 0.25 * record.q95->estimate.value);
    EXPECT_NEAR(*record.curve.flow_m3s(0.95), record.q95->estimate.value, 1e-12);
}

TEST_F(Season, WithoutTheCatchmentsItRefuses) {
    neighbour(saw);
    change_site([](SiteRow& site) { site.transfer = "area"; });
    const SiteEstimate site = estimate();
    EXPECT_FALSE(site.season->site.has_value());
    EXPECT_TRUE(says(site.season->findings, "site.catchments_unknown"));
    EXPECT_EQ(std::ranges::count(site.season->findings, "site.catchments_unknown", &Finding::code), 1); // once, not for each figure
}

TEST_F(Season, SameDayTestsCarryANeighboursRecordOver) {
    neighbour([](std::size_t) { return 0.050; });
    test("2023-06-01", 20.0);
    test("2019-06-01", 20.0); // before the record
    change_site([](SiteRow& site) { site.transfer = "spots"; });
    const SiteEstimate site = estimate();
    ASSERT_TRUE(site.season->site.has_value()) << site.season->findings.front().code;
    EXPECT_NEAR(*site.season->site->ratio, 0.4, 0.001);
    EXPECT_TRUE(says(site.season->findings, "flow.few_spots"));
    // one pair of flows is good to a factor of two: at least 34.6 % (kOneSpotDoubt_ln)
    EXPECT_GT(site.season->site->mean->estimate.standard_uncertainty, 0.346 * 0.02);
}

TEST_F(Season, AYieldGivesTheMeanAlone) {
    change_site([](SiteRow& site) {
        site.transfer = "yield";
        site.catchment_m2 = 2e6;
        site.yield_ms = 1.5e-8; // 15 L/s from a km2
    });
    const SiteEstimate site = estimate();
    ASSERT_TRUE(site.season->site && site.season->site->mean);
    EXPECT_NEAR(site.season->site->mean->estimate.value, 0.030, 1e-12);
    EXPECT_GT(site.season->site->mean->estimate.standard_uncertainty, 0.4 * 0.030); // kSpecificYield_u_rel
    EXPECT_FALSE(site.season->site->q95.has_value());
}

TEST_F(Season, TheYearsFlowCanBeTheFlowToUse) {
    test("2023-06-01", 30.0);
    change_site([](SiteRow& site) { site.flow_choice = "season"; });
    SiteEstimate site = estimate();
    EXPECT_TRUE(says(site.flow_doubts, "site.season_unknown")); // and the lowest visit stays
    EXPECT_NEAR(site.flow.to_use->discharge.estimate.value, 0.030, 1e-12);
    neighbour([](std::size_t) { return 0.050; });
    for (const auto& [figure, flow_m3s] : {std::pair("q95", 0.05), {"q50", 0.05}, {"mean", 0.05}, {"low7", 0.05}}) {
        change_site([&](SiteRow& row) { row.flow_figure = figure; });
        site = estimate();
        EXPECT_EQ(site.flow.to_use->choice, FlowChoice::Season) << figure;
        EXPECT_NEAR(site.flow.to_use->discharge.estimate.value, flow_m3s, 1e-12) << figure;
        EXPECT_NEAR(site.chosen.input.flow_m3s->value, flow_m3s, 1e-12) << figure;
    }
}

TEST_F(Season, OnlyVisitsOfTheChosenMonthsCount) {
    test("2026-02-01", 20.0);
    test("2026-06-01", 50.0);
    EXPECT_NEAR(estimate().flow.to_use->discharge.estimate.value, 0.020, 1e-9);
    change_site([](SiteRow& site) {
        site.flow_from_month = 5;
        site.flow_to_month = 9;
    });
    SiteEstimate site = estimate();
    EXPECT_NEAR(site.flow.to_use->discharge.estimate.value, 0.050, 1e-9);
    EXPECT_TRUE(says(site.flow.findings, "site.other_months"));
    EXPECT_TRUE(says(site.flow_doubts, "flow.rests_on_one_test"));
    EXPECT_EQ(site.flow.visits.size(), 2u); // rating and ratios keep all
    change_site([](SiteRow& row) { // over the turn of the year
        row.flow_from_month = 11;
        row.flow_to_month = 3;
    });
    EXPECT_NEAR(estimate().flow.to_use->discharge.estimate.value, 0.020, 1e-9);
}

TEST_F(Season, TheFlowToLeaveByEveryRule) {
    test("2026-06-01", 50.0);
    change_site([](SiteRow& site) {
        site.leave_rule = "share-of-q95";
        site.leave_q95_share = 0.5;
    });
    SiteEstimate site = estimate();
    EXPECT_TRUE(says(site.flow_doubts, "flow.q95_unknown"));
    EXPECT_TRUE(says(site.flow_doubts, "site.nothing_left"));
    EXPECT_NEAR(site.flow.usable->usable.estimate.value, 0.050, 1e-9);
    neighbour([](std::size_t) { return 0.020; });
    site = estimate();
    EXPECT_NEAR(site.flow.usable->left_m3s, 0.010, 1e-9);
    EXPECT_NEAR(site.flow.usable->usable.estimate.value, 0.040, 1e-9);
    // the doubt of Q95 is in what may be taken
    EXPECT_GT(site.flow.usable->usable.estimate.standard_uncertainty,
              site.flow.to_use->discharge.estimate.standard_uncertainty);
    change_site([](SiteRow& row) {
        row.leave_rule = "monthly";
        for (std::size_t month = 0; month < 12; ++month)
            row.*leave_columns()[month] = 0.001 * static_cast<double>(month + 1);
    });
    site = estimate();
    EXPECT_EQ(site.flow.usable->month, 6u); // that of the visit
    EXPECT_NEAR(site.flow.usable->left_m3s, 0.006, 1e-9);
    change_site([](SiteRow& row) { row.flow_choice = "season"; });
    EXPECT_EQ(estimate().flow.usable->month, 12u); // that which asks for most
}

TEST_F(Season, IsTakenOverWhereNothingOfItChanged) {
    neighbour(saw);
    const SiteEstimate first = estimate();
    NoteRow remark;
    remark.text = "Nothing to do with the water";
    book(remark);
    Expected<Survey> survey = load_survey(*m_project, &m_survey);
    const SiteEstimate second = site_estimate(*survey, m_tables, first.season);
    EXPECT_EQ(second.season, first.season);
    change_site([](SiteRow& site) { site.duration_rule = "linear"; });
    survey = load_survey(*m_project, &m_survey);
    EXPECT_NE(site_estimate(*survey, m_tables, first.season).season, first.season);
}

} // namespace
} // namespace rillmark
