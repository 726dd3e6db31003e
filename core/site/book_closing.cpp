// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/book_closing.h"

#include <algorithm>
#include <ranges>

namespace rillmark {

namespace {

std::optional<double> length_km(const LevelBookRow& book) {
    return book.length_m ? std::optional(*book.length_m / 1000.0) : std::nullopt;
}

AllowanceId rule_of(const LevelBookRow& book, bool two_runs) {
    if (const Allowance* rule = find_allowance(book.allowance))
        return rule->id;
    if (const auto rule = std::ranges::find(section_allowances(), book.allowance, &Allowance::code);
        two_runs && rule != section_allowances().end())
        return rule->id;
    return AllowanceId::SiteRule;
}

/// The level that the last point of the book should have, from the book itself or from known heights.
std::optional<std::pair<BookClosing::On, double>> known_end(const SiteHeights& heights, const ReducedBook& reduced) {
    const BookRow& first = reduced.rows.front();
    const BookRow& last = reduced.rows.back();
    const auto before_last = std::ranges::subrange(reduced.rows.begin(), reduced.rows.end() - 1);
    if (const auto visit = std::ranges::find(before_last, last.point, &BookRow::point); visit != before_last.end())
        return std::pair(BookClosing::On::Itself, visit->reduced_level_m);
    if (const std::optional<double> rise_m = known_rise_m(heights, first.point, last.point))
        return std::pair(BookClosing::On::KnownHeight, first.reduced_level_m + *rise_m);
    return {};
}

/// The same line as if it had been run the other way.
ReducedBook turned(ReducedBook book) {
    std::ranges::reverse(book.rows);
    book.last_minus_first_m = -book.last_minus_first_m;
    return book;
}

struct SecondRun {
    std::string name;
    ReducedBook back; // from the end of the first run to its start
};

std::optional<SecondRun> second_run(const Survey& survey, Id book, const ReducedBook& reduced) {
    const std::string& start = reduced.rows.front().point;
    const std::string& end = reduced.rows.back().point;
    for (const Booked<LevelBookRow>& other : survey.books | std::views::reverse) {
        if (other.struck || other.row.id == book)
            continue;
        const Expected<ReducedBook> run = reduce(sights_of(survey, other.row.id), 0.0);
        if (!run || run->open || run->rows.empty())
            continue;
        const std::string& run_start = run->rows.front().point;
        const std::string& run_end = run->rows.back().point;
        if (run_start == end && run_end == start)
            return SecondRun{other.row.name, *run};
        if (run_start == start && run_end == end)
            return SecondRun{other.row.name, turned(*run)};
    }
    return {};
}

} // namespace

Expected<std::optional<BookClosing>> book_closing(const Survey& survey, const SiteHeights& heights,
                                                  const LevelBookRow& book, const ReducedBook& reduced) {
    if (reduced.open || reduced.rows.size() < 2)
        return std::optional<BookClosing>();
    if (const auto end = known_end(heights, reduced)) {
        const Expected<Closure> closed = closure(reduced, end->second, rule_of(book, false), length_km(book));
        if (!closed)
            return closed.error();
        return std::optional(BookClosing{end->first, *closed, {}, closed->misclosure_m});
    }
    const std::optional<SecondRun> other = second_run(survey, book.id, reduced);
    if (!other)
        return std::optional<BookClosing>();
    const Expected<DoubleRun> both = double_run(reduced, other->back, rule_of(book, true), length_km(book));
    if (!both)
        return both.error();
    const Closure closed{both->difference_m, both->allowed_m, both->within, both->rule};
    return std::optional(BookClosing{BookClosing::On::SecondRun, closed, other->name, both->difference_m / 2.0});
}

Expected<ReducedBook> shared_out(const LevelBookRow& book, ReducedBook reduced, const BookClosing& closing) {
    if (book.share_out.empty())
        return reduced;
    Closure closure = closing.closure;
    closure.misclosure_m = closing.to_share_m;
    return distribute(std::move(reduced), closure,
                      book.share_out.starts_with("setup") ? DistributeBy::Setup : DistributeBy::Distance,
                      book.share_out.ends_with("anyway") ? AboveAllowance::DistributeAnyway : AboveAllowance::Refuse);
}

} // namespace rillmark
