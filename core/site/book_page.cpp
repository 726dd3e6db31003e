// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/book_page.h"

#include <algorithm>
#include <unordered_map>

namespace rillmark {

namespace {

void close_page(BookPage& page, const Survey& survey, const LevelBookRow& book, const SiteHeights& heights) {
    const Expected<std::optional<BookClosing>> closing = book_closing(survey, heights, book, *page.reduced);
    if (!closing) {
        page.no_closure = closing.error();
        return;
    }
    page.closing = *closing;
    if (!page.closing)
        return;
    if (Expected<ReducedBook> shared = shared_out(book, *page.reduced, *page.closing))
        page.reduced = std::move(shared).value();
    else
        page.no_closure = shared.error();
}

BookPageLine sight_line(const Survey& survey, const Booked<SightRow>& sight) {
    BookPageLine line;
    line.point = point_name(survey, sight.row);
    std::optional<double>& cell = sight.row.kind == "backsight"   ? line.backsight_m
                                  : sight.row.kind == "foresight" ? line.foresight_m
                                                                  : line.intermediate_m;
    cell = sight.row.reading_m;
    line.struck = sight.struck;
    line.remark = sight.struck ? sight.struck_reason : sight.row.remark;
    line.sights = {sight.row.id};
    return line;
}

std::vector<BookPageLine> lines_of(const Survey& survey, const std::vector<Booked<SightRow>>& sights,
                                   const std::optional<ReducedBook>& reduced) {
    std::unordered_map<Id, const BookRow*> row_of;
    if (reduced)
        for (const BookRow& row : reduced->rows)
            for (const Id sight : row.sights)
                row_of.emplace(sight, &row);
    std::vector<BookPageLine> lines;
    const BookRow* last_row = nullptr;
    std::size_t last_line = 0;
    for (const Booked<SightRow>& sight : sights) {
        const auto found = row_of.find(sight.row.id);
        if (found == row_of.end()) {
            lines.push_back(sight_line(survey, sight));
            continue;
        }
        const BookRow& row = *found->second;
        if (&row == last_row) { // the backsight of a change point stands on the line of its foresight
            BookPageLine& line = lines[last_line];
            line.backsight_m = row.backsight_m;
            line.sights.push_back(sight.row.id);
            if (!sight.row.remark.empty())
                line.remark += (line.remark.empty() ? "" : "; ") + sight.row.remark;
            continue;
        }
        last_row = &row;
        last_line = lines.size();
        BookPageLine line = sight_line(survey, sight);
        line.rise_m = row.rise_m;
        line.fall_m = row.fall_m;
        line.level_m = row.adjusted_level_m.value_or(row.reduced_level_m);
        lines.push_back(std::move(line));
    }
    return lines;
}

} // namespace

BookPage book_page(const Survey& survey, const SiteHeights& heights, Id book) {
    BookPage page;
    const std::vector<Sight> sights = sights_of(survey, book);
    if (std::ranges::any_of(sights, [](const Sight& one) { return !one.struck; })) {
        Expected<ReducedBook> reduced = reduce(sights, kPageStartLevel_m);
        if (reduced)
            page.reduced = std::move(reduced).value();
        else
            page.not_reduced = reduced.error();
    }
    const LevelBookRow* row = survey.book(book);
    if (page.reduced && !page.reduced->open && row != nullptr)
        close_page(page, survey, *row, heights);
    page.lines = lines_of(survey, survey.page(book), page.reduced);
    return page;
}

} // namespace rillmark
