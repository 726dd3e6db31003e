// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/book_page.h"

#include "site_fixture.h"

#include <gtest/gtest.h>

namespace rillmark {

namespace {

class BookPageTest : public SiteFixture {
protected:
    void SetUp() override {
        SiteFixture::SetUp();
        LevelBookRow row;
        row.name = "There and back";
        m_book = book(row);
    }
    Id sight(const std::string& kind, const std::string& point, double reading_m, const std::string& remark = {}) {
        SightRow row;
        row.book_id = m_book;
        row.position = ++m_position;
        row.kind = kind;
        row.point = point;
        row.reading_m = reading_m;
        row.remark = remark;
        return book(row);
    }
    BookPage page() {
        const Expected<Survey> survey = load_survey(*m_project);
        EXPECT_TRUE(survey.ok());
        return book_page(*survey, site_heights(*survey), m_book);
    }
    Id m_book = 0;
    std::int64_t m_position = 0;
};

} // namespace

TEST_F(BookPageTest, AChangePointStandsOnOneLineAndTheBookClosesOnItsStart) {
    sight("backsight", "A", 1.500);
    sight("foresight", "B", 2.500, "on the root");
    sight("backsight", "B", 2.480, "turned");
    sight("foresight", "A", 1.490);
    const BookPage one = page();
    ASSERT_EQ(one.lines.size(), 3u);
    EXPECT_EQ(one.lines[1].point, "B");
    EXPECT_EQ(one.lines[1].backsight_m, 2.480);
    EXPECT_EQ(one.lines[1].foresight_m, 2.500);
    EXPECT_EQ(one.lines[1].sights.size(), 2u);
    EXPECT_EQ(one.lines[1].remark, "on the root; turned");
    EXPECT_NEAR(one.lines[1].level_m.value_or(0.0), kPageStartLevel_m - 1.0, 1e-9);
    // sum of backsights 3.980, of foresights 3.990
    ASSERT_TRUE(one.closing.has_value());
    EXPECT_NEAR(one.closing->closure.misclosure_m, -0.010, 1e-9);
    EXPECT_FALSE(one.no_closure.has_value());
}

TEST_F(BookPageTest, StruckReadingsKeepTheirPlaceAndTakeNothingOfTheirNeighbours) {
    sight("backsight", "A", 1.500);
    sight("foresight", "B", 2.500);
    const Id wrong = sight("backsight", "B", 3.480);
    sight("backsight", "B", 2.480);
    sight("foresight", "A", 1.490);
    ASSERT_TRUE(m_project->strike(SightRow::kTable, wrong, "metre misread").ok());
    const BookPage one = page();
    ASSERT_EQ(one.lines.size(), 4u);
    EXPECT_TRUE(one.lines[2].struck);
    EXPECT_EQ(one.lines[2].backsight_m, 3.480);
    EXPECT_EQ(one.lines[2].remark, "metre misread");
    EXPECT_FALSE(one.lines[2].level_m.has_value());
    // the backsight that counts stands with its foresight, not with the struck one
    EXPECT_EQ(one.lines[1].backsight_m, 2.480);
    ASSERT_TRUE(one.closing.has_value());
    EXPECT_NEAR(one.closing->closure.misclosure_m, -0.010, 1e-9);
}

TEST_F(BookPageTest, ABookThatCannotBeReducedIsShownWithTheReason) {
    sight("foresight", "A", 1.500);
    const BookPage one = page();
    EXPECT_FALSE(one.reduced.has_value());
    ASSERT_TRUE(one.not_reduced.has_value());
    EXPECT_EQ(one.not_reduced->code, "levels.no_setup");
    ASSERT_EQ(one.lines.size(), 1u);
    EXPECT_EQ(one.lines[0].foresight_m, 1.500);
    EXPECT_FALSE(one.lines[0].level_m.has_value());
}

TEST_F(BookPageTest, AnEmptyBookHasNoLinesAndNothingToSay) {
    const BookPage one = page();
    EXPECT_TRUE(one.lines.empty());
    EXPECT_FALSE(one.reduced.has_value());
    EXPECT_FALSE(one.not_reduced.has_value());
    EXPECT_FALSE(one.closing.has_value());
    EXPECT_TRUE(book_page(Survey{}, SiteHeights{}, 4711).lines.empty());
}

} // namespace rillmark
