// SPDX-License-Identifier: GPL-3.0-or-later
#include "demo/demo_creek.h"

#include "levelling/closure.h"
#include "site/site_estimate.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <string>
#include <unistd.h>

namespace rillmark {
namespace {

ProjectContext fixed_context() {
    return {[] { return std::string("2026-09-24T08:00:00.000Z"); },
            [next = Id{1000}]() mutable { return next++; }, "test"};
}

class DemoCreek : public testing::Test {
protected:
    void SetUp() override {
        m_folder = std::filesystem::temp_directory_path() / ("rillmark-demo-" + std::to_string(::getpid()));
        std::filesystem::create_directories(m_folder);
        const Expected<void> made = make_demo_creek(file(), fixed_context());
        ASSERT_TRUE(made.ok()) << made.error().code << " " << made.error().where;
    }
    void TearDown() override { std::filesystem::remove_all(m_folder); }
    [[nodiscard]] std::filesystem::path file() const { return m_folder / "demo.gpkg"; }
    [[nodiscard]] Survey survey() const {
        return load_survey(*Project::open(file(), OpenMode::ReadOnly)).value_or(Survey{});
    }
    std::filesystem::path m_folder;
};

TEST_F(DemoCreek, HoldsWhatEveryPageShows) {
    const Expected<Project> project = Project::open(file(), OpenMode::ReadOnly);
    ASSERT_TRUE(project.ok());
    EXPECT_TRUE(project->verify().empty());
    const Survey all = survey();
    EXPECT_GE(all.stations.size(), 25u);
    EXPECT_EQ(all.occupations.size(), all.stations.size());
    EXPECT_EQ(all.tests.size(), 8u); // three of them the visits of the season
    ASSERT_EQ(all.series.size(), 1u);
    EXPECT_EQ(all.alternatives.size(), 2u);
    EXPECT_EQ(all.photos.size(), 4u);
    EXPECT_EQ(all.photo_links.size(), 4u);
    EXPECT_GE(all.notes.size(), 5u);
    EXPECT_EQ(std::ranges::count(all.sights, true, &Booked<SightRow>::struck), 1);
    const auto fixes = project->all<FixRow>();
    ASSERT_TRUE(fixes.ok());
    EXPECT_EQ(std::ranges::count_if(*fixes, [](const auto& fix) { return !fix.row.occupation_id; }), 300);
    EXPECT_GT(project->picture(all.photos[0].row.id)->size(), 10000u);
    EXPECT_FALSE(project->thumbnail(all.photos[0].row.id)->empty());
}

TEST_F(DemoCreek, LevelLineClosesWithinTheSiteRule) {
    const Survey all = survey();
    const Expected<ReducedBook> book = reduce(sights_of(all, all.books.at(0).row.id), 0.0);
    ASSERT_TRUE(book.ok());
    EXPECT_TRUE(book->checks.hold());
    const Expected<Closure> closed = closure(*book, 0.0, AllowanceId::SiteRule);
    ASSERT_TRUE(closed.ok());
    EXPECT_TRUE(closed->within);
    EXPECT_NE(closed->misclosure_m, 0.0);
}

TEST_F(DemoCreek, FiguresHangTogether) {
    const Survey all = survey();
    const SiteEstimate site = site_estimate(all, *read_power_tables());
    ASSERT_TRUE(site.heights.running_head.has_value());
    const RunningHead& head = *site.heights.running_head;
    EXPECT_TRUE(head.to_powerhouse);
    EXPECT_NEAR(head.head.estimate.value, 31.12, 0.03);
    EXPECT_LT(head.head.estimate.standard_uncertainty, 0.02);
    EXPECT_TRUE(site.heights.network->global_test()->passes());
    ASSERT_EQ(site.flow.tests.size(), 8u);
    std::map<std::string, Estimate> flow;
    for (const TestResult& test : site.flow.tests) {
        ASSERT_TRUE(test.discharge.has_value());
        flow.emplace(all.test(test.test_id)->method, test.discharge->estimate); // the first of each method
    }
    const double low = flow["container"].value;
    EXPECT_NEAR(flow["velocity-area"].value, 0.07927, 0.00001); // mid-section computed independently
    EXPECT_NEAR(low, 0.0224, 0.001);
    // drawn for 0.0795 and 0.046 m3/s: the salt agrees with the meter of the same evening, the floats lie between the visits
    EXPECT_NEAR(flow["salt-slug"].value, 0.0795, 2.0 * flow["salt-slug"].standard_uncertainty);
    EXPECT_LT(flow["salt-slug"].standard_uncertainty, 0.05 * flow["salt-slug"].value);
    EXPECT_NEAR(flow["float"].value, 0.046, 2.0 * flow["float"].standard_uncertainty);
    EXPECT_GT(flow["slope-area"].value, 2.0);
    EXPECT_GT(flow["slope-area"].standard_uncertainty, 0.15 * flow["slope-area"].value);
    ASSERT_TRUE(site.flow.to_use.has_value());
    for (const FlowVisit& visit : site.flow.to_use->visits)
        for (const Id test : visit.tests)
            EXPECT_NE(all.test(test)->method, "slope-area"); // a flood is never a flow for power
    EXPECT_DOUBLE_EQ(site.flow.to_use->discharge.estimate.value, low);
    ASSERT_TRUE(site.chosen.result.house_W.has_value());
    EXPECT_NEAR(site.chosen.result.house_W->estimate.value, 3600.0, 600.0);
    for (const Booked<AlternativeRow>& one : all.alternatives) {
        const AlternativeEstimate estimate =
            alternative_estimate(all, site.heights, site.flow, *read_power_tables(), one.row);
        EXPECT_TRUE(estimate.findings.empty()) << one.row.name;
        ASSERT_TRUE(estimate.result.house_W.has_value()) << one.row.name;
    }
}

TEST_F(DemoCreek, ShowsASeason) {
    const SiteEstimate site = site_estimate(survey(), *read_power_tables());
    ASSERT_NE(site.season, nullptr);
    ASSERT_TRUE(site.season->rating.has_value()) << site.season->rating_findings.front().code;
    EXPECT_EQ(site.season->rating->visits, 7u);
    EXPECT_GT(site.season->rating->b, 1.0);
    EXPECT_LT(site.season->rating->b, 2.5);
    ASSERT_TRUE(site.season->record.has_value());
    EXPECT_EQ(site.season->record->summary.full_years, 6u);
    ASSERT_TRUE(site.season->site.has_value());
    ASSERT_TRUE(site.season->site->q95 && site.season->site->q50 && site.season->site->mean);
    EXPECT_LT(site.season->site->q95->estimate.value, site.season->site->q50->estimate.value);
    EXPECT_GT(site.season->site->q95->estimate.standard_uncertainty, 0.25 * site.season->site->q95->estimate.value);
    for (const FlowDuration& month : site.season->site->months)
        EXPECT_GT(month.size(), 100u);
}

TEST_F(DemoCreek, IsTheSameEachTimeWithAFixedContext) {
    const std::filesystem::path again = m_folder / "again.gpkg";
    ASSERT_TRUE(make_demo_creek(again, fixed_context()).ok());
    const Survey one = survey();
    const Survey two = *load_survey(*Project::open(again, OpenMode::ReadOnly));
    ASSERT_EQ(one.sights.size(), two.sights.size());
    for (std::size_t i = 0; i < one.sights.size(); ++i)
        EXPECT_EQ(one.sights[i].row.id, two.sights[i].row.id);
    for (std::size_t i = 0; i < one.stations.size(); ++i)
        EXPECT_EQ(one.stations[i].row.created_at.substr(0, 4), "2026");
}

TEST_F(DemoCreek, NeverWritesOverAFileAndLeavesNothingHalfMade) {
    const auto size = std::filesystem::file_size(file());
    EXPECT_EQ(make_demo_creek(file(), fixed_context()).error().code, "project.exists");
    EXPECT_EQ(std::filesystem::file_size(file()), size);
    EXPECT_FALSE(make_demo_creek(m_folder / "nowhere" / "x.gpkg", fixed_context()).ok());
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(m_folder), std::filesystem::directory_iterator()), 1);
}

} // namespace
} // namespace rillmark
