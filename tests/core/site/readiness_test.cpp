// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/readiness.h"

#include "core/site/site_fixture.h"
#include "words/words.h"

#include <algorithm>
#include <set>

namespace rillmark {

namespace {

class ReadinessTest : public SiteFixture {
protected:
    ReadinessItem item(const std::string& key) {
        const SiteEstimate site = estimate();
        const std::vector<ReadinessItem> items = readiness(m_survey, site);
        const auto found = std::ranges::find_if(items, [&](const ReadinessItem& one) { return one.ask.key == key; });
        EXPECT_NE(found, items.end()) << key;
        return found == items.end() ? ReadinessItem{} : *found;
    }
    Readiness state(const std::string& key) { return item(key).state; }
    Id answer(const std::string& key, const std::string& verdict, const std::string& text = {}) {
        return book(AnswerRow{0, key, verdict, text, {}});
    }
    void photo(Id station_id, std::optional<double> direction_deg) {
        PhotoData data;
        data.row.direction_deg = direction_deg;
        data.picture = {1};
        ASSERT_TRUE(m_project->book_photo(data, station_id).ok());
    }
};

TEST_F(ReadinessTest, TheListIsReadAndEveryItemHasItsWords) {
    const Expected<std::vector<Ask>> asks = read_asks();
    ASSERT_TRUE(asks.ok());
    EXPECT_GE(asks->size(), 12u);
    for (const Ask& ask : *asks) {
        EXPECT_NE(words::find("site.ask_" + ask.key), nullptr) << ask.key;
        EXPECT_NE(words::find("site.missing_" + ask.key), nullptr) << ask.key;
        if (ask.some < ask.enough && ask.rule != "answer") {
            EXPECT_NE(words::find("site.thin_" + ask.key), nullptr) << ask.key;
        }
        const std::set<std::string> places{"walk", "levels", "flow", "power", "handover"};
        EXPECT_TRUE(places.contains(ask.place)) << ask.key << " " << ask.place;
    }
}

TEST_F(ReadinessTest, AListWithAnUnknownRuleOrAnswerIsRefused) {
    const std::string head = "key,rule,about,some,enough,answer,place\n";
    for (const std::string row : {"a,luck,,1,1,,walk\n", "a,head,,1,1,maybe,walk\n", ",head,,1,1,,walk\n"}) {
        const std::string text = head + row;
        const EmbeddedText file{"asks.csv", text};
        const auto asks = read_asks({&file, 1});
        ASSERT_FALSE(asks.ok()) << row;
        EXPECT_EQ(asks.error().code, "site.ask_unknown") << row;
    }
    const std::string text = head + "a,head,,0,1,,walk\n";
    const EmbeddedText file{"asks.csv", text};
    EXPECT_EQ(read_asks({&file, 1}).error().code, "power.table_bad_cell");
    EXPECT_EQ(read_asks({}).error().code, "power.table_missing");
}

TEST_F(ReadinessTest, StationsAreCounted) {
    EXPECT_EQ(state("boundary"), Readiness::Missing);
    station("boundary-corner", "B1");
    EXPECT_EQ(state("boundary"), Readiness::Thin);
    EXPECT_EQ(item("boundary").why, "site.thin_boundary");
    station("boundary-corner", "B2");
    const Id third = station("boundary-corner", "B3");
    EXPECT_EQ(state("boundary"), Readiness::Done);
    EXPECT_EQ(item("boundary").why, "");
    ASSERT_TRUE(m_project->strike("station", third, "wrong corner").ok());
    EXPECT_EQ(state("boundary"), Readiness::Thin);
}

TEST_F(ReadinessTest, TwoPhotosFromTheSameSideAreOneView) {
    const Id intake = station("intake", "Intake");
    photo(intake, 350.0);
    EXPECT_EQ(state("intake_photo"), Readiness::Thin);
    photo(intake, 10.0); // 20 degrees apart across north
    EXPECT_EQ(state("intake_photo"), Readiness::Thin);
    photo(intake, 95.0);
    EXPECT_EQ(state("intake_photo"), Readiness::Done);
    EXPECT_EQ(state("powerhouse_photo"), Readiness::Missing);
}

TEST_F(ReadinessTest, HighPointsNeedARouteAndOneOfThemOrAnAnswer) {
    EXPECT_EQ(state("high_points"), Readiness::Missing);
    station("intake", "Intake", 46.0, 7.0);
    station("powerhouse", "Powerhouse", 46.001, 7.0);
    EXPECT_EQ(state("high_points"), Readiness::Thin);
    EXPECT_EQ(state("pipe_route"), Readiness::Thin);
    answer("high_points", "yes", "looked, there is none");
    EXPECT_EQ(state("high_points"), Readiness::Done);
    answer("high_points", "no");
    EXPECT_EQ(state("high_points"), Readiness::Thin);
    station("high-point", "Hump", 46.0005, 7.0);
    EXPECT_EQ(state("pipe_route"), Readiness::Done);
    EXPECT_EQ(state("high_points"), Readiness::Thin) << "a person said no";
}

TEST_F(ReadinessTest, AnswersFillWhatTheRecordCannotShow) {
    EXPECT_EQ(state("permissions"), Readiness::Missing);
    answer("permissions", "no", "the neighbour is away");
    EXPECT_EQ(state("permissions"), Readiness::Missing);
    EXPECT_EQ(item("permissions").answer->text, "the neighbour is away");
    answer("permissions", "yes");
    EXPECT_EQ(state("permissions"), Readiness::Done);
    answer("house_load", "text", "2 kW in the evening");
    EXPECT_EQ(state("house_load"), Readiness::Done);
    // the record alone tells of the head: a yes does not make it so
    answer("heights", "yes");
    EXPECT_EQ(state("heights"), Readiness::Missing);
}

TEST_F(ReadinessTest, AnItemIsStruckWithAReasonAndTakenBack) {
    answer("cable_route", "not-needed", "the house is at the powerhouse");
    EXPECT_EQ(state("cable_route"), Readiness::NotNeeded);
    const SiteEstimate site = estimate();
    const ReadinessTally count = tally(readiness(m_survey, site));
    EXPECT_EQ(count.not_needed, 1u);
    EXPECT_EQ(count.asked() + 1, read_asks()->size());
    ASSERT_TRUE(m_project->undo().ok());
    EXPECT_EQ(state("cable_route"), Readiness::Missing);
    EXPECT_EQ(m_project->book(AnswerRow{0, "cable_route", "not-needed", "", {}}).error().code, "project.out_of_range")
        << "a reason is asked for";
    EXPECT_EQ(m_project->book(AnswerRow{0, "cable_route", "perhaps", "x", {}}).error().code, "project.out_of_range");
}

TEST_F(ReadinessTest, TheLaterOfTwoAnswersHoldsAndTheOneBeforeComesBack) {
    answer("ground", "text", "rock");
    const Id later = answer("ground", "text", "bog");
    EXPECT_EQ(item("ground").answer->text, "bog");
    ASSERT_TRUE(m_project->strike("answer", later, "taken back").ok());
    EXPECT_EQ(item("ground").answer->text, "rock");
}

} // namespace

} // namespace rillmark
