// SPDX-License-Identifier: GPL-3.0-or-later
// The year of a plant by the season of its site.
#include "core/site/site_fixture.h"

#include "power/chain_year.h"
#include "power/turbine_tables.h"
#include "site/plant_year.h"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace rillmark {
namespace {

bool says(const Findings& findings, const std::string& code) {
    return std::ranges::find(findings, code, &Finding::code) != findings.end();
}

class PlantYearTest : public SiteFixture {
protected:
    /// 30 m of head by a level book, 200 m of pipe, 20 L/s.
    void plant() {
        const Id page = level_book();
        sight(page, "backsight", station("intake", "Intake", 46.0, 7.0), {}, 0.2);
        for (const char* point : {"CP1", "CP2", "CP3", "CP4", "CP5"}) { // a staff is not 30 m long
            sight(page, "foresight", {}, point, 5.2);
            sight(page, "backsight", {}, point, 0.2);
        }
        sight(page, "foresight", station("powerhouse", "Powerhouse", 45.999, 7.0), {}, 5.2);
        AlternativeRow row;
        row.name = "A";
        row.design_flow_m3s = 0.02;
        row.pipe_id = "pe100-sdr17-160";
        row.pipe_length_m = 200.0;
        book(row);
    }
    /// Years of days, each with what `flow_m3s` gives to its date, at a gauge with the flow of the site.
    template <class Flow>
    void gauge(Flow&& flow_m3s, std::size_t days) {
        DailyFlow daily;
        daily.first = std::chrono::sys_days(std::chrono::year(2021) / 1 / 1);
        for (std::size_t i = 0; i < days; ++i)
            daily.flow_m3s.push_back(flow_m3s(daily.day(i)));
        FlowSeriesRow series;
        series.kind = kDailyFlowSeries;
        series.name = "Gauge";
        ASSERT_TRUE(book_series(*m_project, series, daily_blocks(daily)).ok());
    }
    template <class Change>
    void change_site(Change&& change) {
        SiteRow site = *m_project->site();
        change(site);
        ASSERT_TRUE(m_project->change(site).ok());
    }
    PlantYear year() {
        const SiteEstimate site = estimate();
        m_watts = site.chosen.result.generator_W.value_or(Estimate{}).value;
        return plant_year(m_survey, *site.season, site.chosen, m_turbines);
    }
    TurbineTables m_turbines = read_turbine_tables().value();
    double m_watts = 0.0;
};

constexpr std::size_t kThreeYears = 3 * 365;

double even(std::chrono::year_month_day) {
    return 0.05;
}
double dry_summer(std::chrono::year_month_day day) {
    const unsigned month = static_cast<unsigned>(day.month());
    return month >= 7 && month <= 8 ? 0.004 : 0.05;
}

TEST_F(PlantYearTest, EnergyOfAConstantFlowIsPowerTimesHours) {
    plant();
    gauge(even, kThreeYears);
    const PlantYear year_of = year();
    ASSERT_TRUE(year_of.year) << year_of.findings.front().code;
    ASSERT_GT(m_watts, 1000.0);
    EXPECT_NEAR(year_of.year->energy_J.estimate.value, m_watts * kEnergyYear_s, 1e-6 * m_watts * kEnergyYear_s);
    EXPECT_NEAR(year_of.year->capacity_factor.value, 1.0, 1e-9);
    EXPECT_EQ(year_of.year->months_without_power, 0u);
    EXPECT_NEAR(year_of.year->year_spread_J.value(), 0.0, 1e-6 * m_watts * kEnergyYear_s);
    for (const auto& month : year_of.months) {
        EXPECT_NEAR(month.value().middle_W, m_watts, 1e-6 * m_watts);
        EXPECT_NEAR(month.value().low_W, m_watts, 1e-6 * m_watts);
        EXPECT_NEAR(month.value().running, 1.0, 1e-12);
    }
    ASSERT_EQ(year_of.through_pipe.size(), 1u);
    EXPECT_NEAR(year_of.through_pipe[0].flow_m3s, 0.02, 1e-12);
    EXPECT_NEAR(year_of.through_pipe[0].time_s, kEnergyYear_s, 1.0);
    EXPECT_TRUE(says(year_of.findings, "site.year_nothing_left"));
}

TEST_F(PlantYearTest, MonthsWithoutWaterAreNamedAndSpreadIsNotMeasuring) {
    plant();
    gauge(dry_summer, kThreeYears);
    change_site([](SiteRow& site) {
        site.leave_rule = "fixed";
        site.leave_m3s = 0.004;
    });
    const PlantYear year_of = year();
    ASSERT_TRUE(year_of.year) << year_of.findings.front().code;
    EXPECT_EQ(year_of.year->months_without_power, 2u);
    EXPECT_TRUE(says(year_of.findings, "power.months_without_power"));
    EXPECT_FALSE(says(year_of.findings, "site.year_nothing_left"));
    EXPECT_EQ(year_of.months[6]->middle_W, 0.0);
    EXPECT_EQ(year_of.months[6]->running, 0.0);
    EXPECT_NEAR(year_of.months[0]->mean_W, m_watts, 1e-6 * m_watts);
    const double part = (365.0 - 62.0) / 365.0;
    EXPECT_NEAR(year_of.year->capacity_factor.value, part, 1e-9);
    EXPECT_NEAR(year_of.year->running, part, 1e-9);
    ASSERT_TRUE(year_of.curve && year_of.curve->knee);
    EXPECT_EQ(year_of.curve->points.size(), kDesignFlows);
}

TEST_F(PlantYearTest, EachRuleOfTheFlowToLeaveCounts) {
    plant();
    gauge(even, kThreeYears);
    change_site([](SiteRow& site) {
        site.leave_rule = "share-of-flow";
        site.leave_share = 0.7; // 15 L/s of 50 are left to the plant
    });
    EXPECT_NEAR(year().through_pipe.at(0).flow_m3s, 0.015, 1e-12);
    change_site([](SiteRow& site) {
        site.leave_rule = "share-of-q95";
        site.leave_q95_share = 0.8; // of 50 L/s
    });
    EXPECT_NEAR(year().through_pipe.at(0).flow_m3s, 0.010, 1e-9);
    change_site([](SiteRow& site) {
        site.leave_rule = "monthly";
        site.leave_jun_m3s = 0.05;
    });
    const PlantYear monthly = year();
    EXPECT_EQ(monthly.year.value().months_without_power, 1u);
    EXPECT_EQ(monthly.months[5]->middle_W, 0.0);
    EXPECT_GT(monthly.months[4]->middle_W, 0.0);
}

TEST_F(PlantYearTest, TheUncertaintyIsThatOfMeasuringNotOfTheYears) {
    plant();
    // the flow runs short of the design flow all year, and each year has its own
    gauge([](std::chrono::year_month_day day) { return 0.004 * (static_cast<int>(day.year()) - 2019); }, kThreeYears);
    const PlantYear year_of = year();
    ASSERT_TRUE(year_of.year) << year_of.findings.front().code;
    EXPECT_GT(*year_of.year->year_spread_J, 0.2 * year_of.year->energy_J.estimate.value);
    const auto flow = std::ranges::find(year_of.year->energy_J.budget, "power.flow", &BudgetLine::input);
    ASSERT_NE(flow, year_of.year->energy_J.budget.end());
    EXPECT_NEAR(flow->contribution / year_of.year->energy_J.estimate.value, kDailyFlow_u_rel, 0.02);
}

TEST_F(PlantYearTest, WhatIsMissingIsSaid) {
    EXPECT_TRUE(says(year().findings, "site.year_no_record"));
    gauge(even, kThreeYears);
    EXPECT_TRUE(says(year().findings, "power.no_watts")); // a season, and no plant
    change_site([](SiteRow& site) { site.transfer = "area"; });
    EXPECT_TRUE(says(year().findings, "site.year_no_transfer"));
    change_site([](SiteRow& site) {
        site.transfer = "yield";
        site.yield_ms = 1e-8;
        site.catchment_m2 = 4e6;
    });
    const PlantYear by_yield = year();
    EXPECT_TRUE(says(by_yield.findings, "site.year_mean_only"));
    EXPECT_FALSE(by_yield.year || by_yield.curve || by_yield.months[0]);
}

TEST_F(PlantYearTest, APartOfAYearStillSaysItsMonths) {
    plant();
    gauge(even, 100); // January to April
    const PlantYear year_of = year();
    EXPECT_FALSE(year_of.year);
    EXPECT_TRUE(says(year_of.findings, "power.month_missing"));
    EXPECT_TRUE(year_of.months[0] && year_of.months[3]);
    EXPECT_FALSE(year_of.months[4]);
}

TEST_F(PlantYearTest, AnUnknownTurbineIsRefused) {
    plant();
    gauge(even, kThreeYears);
    AlternativeRow row = load_survey(*m_project).value().alternatives.front().row;
    row.turbine_kind = "screw-of-nobody";
    ASSERT_TRUE(m_project->change(row).ok());
    EXPECT_TRUE(says(year().findings, "power.unknown_turbine"));
}

} // namespace
} // namespace rillmark
