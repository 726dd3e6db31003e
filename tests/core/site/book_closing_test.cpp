// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/book_closing.h"

#include "site_fixture.h"

#include <cmath>

namespace rillmark {
namespace {

class BookClosingTest : public SiteFixture {
protected:
    Id named_book(const std::string& name, const std::string& allowance = {}) {
        LevelBookRow row;
        row.name = name;
        row.allowance = allowance;
        return book(row);
    }
    /// One set-up from a station to another.
    void run(Id book_id, Id from, Id to, double rise_m) {
        sight(book_id, "backsight", from, "", 2.0);
        sight(book_id, "foresight", to, "", 2.0 - rise_m);
    }
    std::optional<BookClosing> closing(Id book_id) {
        m_heights = estimate().heights;
        const Expected<ReducedBook> reduced = reduce(sights_of(m_survey, book_id), 100.0);
        EXPECT_TRUE(reduced.ok());
        m_reduced = *reduced;
        const auto closed = book_closing(m_survey, m_heights, *m_survey.book(book_id), m_reduced);
        EXPECT_TRUE(closed.ok()) << (closed ? "" : closed.error().code);
        return closed.value_or({});
    }
    SiteHeights m_heights;
    ReducedBook m_reduced;
};

TEST_F(BookClosingTest, ALineThatLeadsNowhereHasNoCheck) {
    const Id a = station("intake", "A");
    const Id b = station("powerhouse", "B");
    const Id book_id = named_book("Out");
    run(book_id, a, b, -1.0);
    EXPECT_FALSE(closing(book_id));
}

TEST_F(BookClosingTest, ALoopClosesOnItself) {
    const Id a = station("intake", "A");
    const Id b = station("powerhouse", "B");
    const Id book_id = named_book("Loop");
    run(book_id, a, b, -1.0);
    run(book_id, b, a, 1.003);
    const std::optional<BookClosing> closed = closing(book_id);
    ASSERT_TRUE(closed);
    EXPECT_EQ(closed->on, BookClosing::On::Itself);
    EXPECT_NEAR(closed->closure.misclosure_m, 0.003, 1e-9);
    EXPECT_NEAR(closed->to_share_m, 0.003, 1e-9);
}

TEST_F(BookClosingTest, BenchMarksCloseALineBetweenThem) {
    const Id a = station("benchmark", "A");
    const Id b = station("benchmark", "B");
    HeightRunRow marks;
    marks.method = "known-height";
    marks.name = "Marks";
    const Id marks_id = book(marks);
    for (const auto& [at, height_m] : {std::pair(a, 250.0), std::pair(b, 248.99)}) {
        HeightReadingRow reading;
        reading.run_id = marks_id;
        reading.from_id = at;
        reading.height_m = height_m;
        reading.height_u_m = 0.002;
        book(reading);
    }
    const Id book_id = named_book("Line");
    run(book_id, a, b, -1.0);
    const std::optional<BookClosing> closed = closing(book_id);
    ASSERT_TRUE(closed);
    EXPECT_EQ(closed->on, BookClosing::On::KnownHeight);
    EXPECT_NEAR(closed->closure.misclosure_m, 0.01, 1e-9);
}

TEST_F(BookClosingTest, ASecondRunClosesTheFirstWhicheverWayItWent) {
    const Id a = station("intake", "A");
    const Id b = station("powerhouse", "B");
    const Id out = named_book("Out");
    run(out, a, b, -1.0);
    const Id again = named_book("Again");
    run(again, a, b, -1.004);
    std::optional<BookClosing> closed = closing(out);
    ASSERT_TRUE(closed);
    EXPECT_EQ(closed->on, BookClosing::On::SecondRun);
    EXPECT_EQ(closed->second_run, "Again");
    EXPECT_NEAR(closed->closure.misclosure_m, 0.004, 1e-9);
    const Id back = named_book("Back");
    run(back, b, a, 1.002);
    closed = closing(out);
    ASSERT_TRUE(closed);
    EXPECT_EQ(closed->second_run, "Back"); // the newest
    EXPECT_NEAR(closed->closure.misclosure_m, 0.002, 1e-9);
}

TEST_F(BookClosingTest, SharingOutBringsBothRunsToTheirMean) {
    const Id a = station("intake", "A");
    const Id b = station("powerhouse", "B");
    const Id out = named_book("Out");
    const Id back = named_book("Back");
    run(out, a, b, -1.0);
    run(back, b, a, 1.002);
    for (const Id book_id : {out, back}) {
        const std::optional<BookClosing> closed = closing(book_id);
        ASSERT_TRUE(closed);
        LevelBookRow row = *m_survey.book(book_id);
        EXPECT_FALSE(shared_out(row, m_reduced, *closed)->rows.back().adjusted_level_m);
        row.share_out = "setup";
        const Expected<ReducedBook> shared = shared_out(row, m_reduced, *closed);
        ASSERT_TRUE(shared.ok());
        EXPECT_NEAR(*shared->rows.back().adjusted_level_m, book_id == out ? 100.0 - 1.001 : 100.0 + 1.001, 1e-9);
    }
}

TEST_F(BookClosingTest, AClassForTwoRunsHoldsForTwoRunsOnly) {
    const Allowance& section = section_allowances().back();
    const Id a = station("intake", "A");
    const Id b = station("powerhouse", "B");
    const Id out = named_book("Out", std::string(section.code));
    run(out, a, b, -1.0);
    const Id back = named_book("Back", std::string(section.code));
    run(back, b, a, 1.002);
    LevelBookRow row = *(estimate(), m_survey.book(out));
    const auto without_length = book_closing(m_survey, estimate().heights, row, *reduce(sights_of(m_survey, out), 0.0));
    ASSERT_FALSE(without_length.ok());
    EXPECT_EQ(without_length.error().code, "levels.no_length");
    row.length_m = 250.0;
    ASSERT_TRUE(m_project->change(row));
    const std::optional<BookClosing> closed = closing(out);
    ASSERT_TRUE(closed);
    EXPECT_EQ(closed->closure.rule, section.id);
    EXPECT_NEAR(closed->closure.allowed_m, section.factor_m * 0.5, 1e-12); // sqrt(0.25 km)
    const Id loop = named_book("Loop", std::string(section.code));
    run(loop, a, b, -1.0);
    run(loop, b, a, 1.0);
    EXPECT_EQ(closing(loop)->closure.rule, AllowanceId::SiteRule);
}

} // namespace
} // namespace rillmark
