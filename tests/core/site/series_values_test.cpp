// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_fixture.h"

#include "site/series_values.h"

#include <chrono>
#include <cmath>
#include <random>

namespace rillmark {
namespace {

using std::chrono::days;
using std::chrono::seconds;
using std::chrono::sys_days;
using std::chrono::sys_seconds;
using std::chrono::year;

constexpr sys_days kDay{year(2024) / 2 / 28}; // before a leap day

std::vector<const FlowSeriesBlockRow*> pointers(const std::vector<FlowSeriesBlockRow>& blocks) {
    std::vector<const FlowSeriesBlockRow*> list;
    for (const FlowSeriesBlockRow& block : blocks)
        list.push_back(&block);
    return list;
}

TEST(SeriesValues, AStageLogReadsBackToTheSame) {
    const unsigned seed = 20261125;
    std::mt19937 random(seed);
    std::uniform_int_distribution<int> step(1, 4000);
    std::uniform_real_distribution<double> stage(-1.0, 3.0);
    std::vector<StagePoint> log;
    sys_seconds time{kDay};
    for (int i = 0; i < 5001; ++i) { // two full blocks and one more reading
        time += seconds(step(random));
        log.push_back({time, i % 97 == 0 ? std::nullopt : std::optional(stage(random))});
    }
    const std::vector<FlowSeriesBlockRow> blocks = stage_blocks(log);
    ASSERT_EQ(blocks.size(), 3u);
    EXPECT_EQ(blocks[2].readings, 1001);
    const Expected<SeriesValues> values = series_values(kStageSeries, pointers(blocks));
    ASSERT_TRUE(values.ok()) << values.error().code;
    ASSERT_EQ(values->stages.size(), log.size()) << "seed " << seed;
    for (std::size_t i = 0; i < log.size(); ++i) {
        EXPECT_EQ(values->stages[i].time, log[i].time) << i;
        EXPECT_EQ(values->stages[i].stage_m, log[i].stage_m) << i;
    }
}

TEST(SeriesValues, DailyFlowsReadBackToTheSameWithTheirMissingDays) {
    DailyFlow series;
    series.first = kDay;
    for (int i = 0; i < 3 * 366; ++i)
        series.flow_m3s.push_back(i % 50 == 7 ? std::nullopt : std::optional(0.01 + 0.1 / (i + 1)));
    const std::vector<FlowSeriesBlockRow> blocks = daily_blocks(series);
    EXPECT_EQ(blocks.front().first_at, "2024-02-28T00:00:00.000Z");
    EXPECT_EQ(blocks.front().data.substr(0, 7), "0,0.11\n"); // legible to anyone
    const Expected<SeriesValues> values = series_values(kDailyFlowSeries, pointers(blocks));
    ASSERT_TRUE(values.ok()) << values.error().code;
    EXPECT_EQ(values->daily.first, series.first);
    EXPECT_EQ(values->daily.flow_m3s, series.flow_m3s);
}

TEST(SeriesValues, WhatIsNoneOfOursIsRefused) {
    FlowSeriesBlockRow block;
    block.first_at = "2024-02-28T00:00:00.000Z";
    for (const char* data : {"0,1", "0;1\n", "x,1\n", "0,one\n", "0,1,2\n", "-5,1\n", "0,1e999\n", "0,nan\n", ",\n", "\n",
                             "9999999999999999,1\n", "0,1\n\n"}) {
        block.data = data;
        block.readings = 1;
        EXPECT_FALSE(series_values(kStageSeries, {&block}).ok()) << data;
    }
    block.data = "0,1\n60,2\n";
    EXPECT_FALSE(series_values(kStageSeries, {&block}).ok()); // two readings, not the one that it names
    block.readings = 2;
    EXPECT_TRUE(series_values(kStageSeries, {&block}).ok());
    EXPECT_FALSE(series_values(kDailyFlowSeries, {&block}).ok()); // two of one day
    block.first_at = "yesterday";
    EXPECT_EQ(series_values(kStageSeries, {&block}).error().code, "project.bad_series");
}

using SeriesInProject = SiteFixture;

TEST_F(SeriesInProject, ASeriesIsOneDeedAndItsValuesAreTakenOver) {
    FlowSeriesRow series;
    series.kind = kDailyFlowSeries;
    series.name = "Neighbour";
    DailyFlow daily;
    daily.first = kDay;
    daily.flow_m3s.assign(400, 0.05);
    ASSERT_TRUE(book_series(*m_project, series, daily_blocks(daily)).ok());
    const Expected<Survey> first = load_survey(*m_project);
    ASSERT_TRUE(first.ok());
    ASSERT_NE(first->year_series(), nullptr);
    const Id id = first->year_series()->id;
    EXPECT_EQ(first->series_values.at(id)->daily.flow_m3s.size(), 400u);
    const Expected<Survey> again = load_survey(*m_project, &*first);
    EXPECT_EQ(again->series_values.at(id), first->series_values.at(id)); // the same, not a copy
    ASSERT_TRUE(m_project->undo().ok());
    EXPECT_EQ(load_survey(*m_project)->year_series(), nullptr);
    EXPECT_TRUE(m_project->verify().empty());
}

} // namespace
} // namespace rillmark
