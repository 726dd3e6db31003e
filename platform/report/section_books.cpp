// SPDX-License-Identifier: GPL-3.0-or-later
// The level books as booked: every reading in its place, struck ones under a line.
#include "report/plot.h"
#include "report/sections.h"
#include "site/book_page.h"

namespace rillmark::report {

namespace {

/// Without the unit, which stands above the table.
QString reading_text(const Context& context, const std::optional<double>& si_m) {
    return si_m ? QString::fromStdString(show_value(*si_m, Quantity::Length, context.options.display).value)
                : QString();
}

std::vector<Cell> row_of(const Context& context, const BookPageLine& line) {
    std::vector<Cell> row{text_of(line.point)};
    for (const std::optional<double>& value : {line.backsight_m, line.intermediate_m, line.foresight_m})
        row.emplace_back(reading_text(context, value));
    for (Cell& cell : row)
        cell.struck = line.struck && !cell.text.isEmpty();
    for (const std::optional<double>& value : {line.rise_m, line.fall_m, line.level_m})
        row.emplace_back(reading_text(context, value));
    row.push_back(Cell(text_of(line.remark)).in(line.struck ? ink::kDanger : ink::kQuiet));
    return row;
}

void add_sums(const Context& context, Table& table, const ReducedBook& book) {
    const auto sum = [&](double si_m) { return Cell(reading_text(context, si_m)).bold(); };
    table.rows.push_back({Cell(Report::tr("Sums")).bold(),
                          sum(book.sum_backsights_m),
                          {},
                          sum(book.sum_foresights_m),
                          sum(book.sum_rises_m),
                          sum(book.sum_falls_m),
                          {},
                          Report::tr("last less first %1").arg(reading_text(context, book.last_minus_first_m))});
}

void add_book(const Context& context, Galley& galley, const Booked<LevelBookRow>& book) {
    galley.heading(text_of(book.row.name));
    QStringList facts;
    for (const std::string& one : {book.row.instrument, book.row.observer})
        if (!one.empty())
            facts.append(text_of(one));
    facts.append(Wording::when(book.row.created_at));
    galley.text(facts.join(QStringLiteral(" · ")), type::kQuiet);
    if (book.struck)
        galley.item(Report::tr("The whole book is struck out: %1").arg(text_of(book.struck_reason)), ink::kDanger);
    const BookPage page = book_page(context.survey, context.estimate.heights, book.row.id);
    if (const auto rise = context.estimate.heights.books.find(book.row.id); rise != context.estimate.heights.books.end())
        galley.text(Report::tr("Rise from its first point to its last: %1").arg(context.wording.estimate(rise->second, Quantity::Length)));
    if (page.closing)
        galley.text(QStringLiteral("%1 (%2)").arg(
                        context.wording.closing(*page.closing),
                        Wording::words("levels.allowance." + std::string(allowance(page.closing->closure.rule).code))),
                    page.closing->closure.within ? type::kBody : type::kBody.in(ink::kDanger));
    for (const std::optional<Finding>& one : {page.not_reduced, page.no_closure})
        if (one)
            add_findings(context, galley, {*one});
    if (page.reduced)
        add_findings(context, galley, page.reduced->findings);
    if (page.lines.empty()) {
        galley.text(Report::tr("Nothing is booked in it yet."), type::kQuiet);
        return;
    }
    const QString unit = symbol_of(plot_unit(Quantity::Length, context.options.display));
    Table table{{{Report::tr("Staff on (%1)").arg(unit)},
                 {Report::tr("Back"), Fit::Figures},
                 {Report::tr("Inter"), Fit::Figures},
                 {Report::tr("Fore"), Fit::Figures},
                 {Report::tr("Rise"), Fit::Figures},
                 {Report::tr("Fall"), Fit::Figures},
                 {Report::tr("Level"), Fit::Figures},
                 {Report::tr("Remark")}},
                {}};
    for (const BookPageLine& line : page.lines)
        table.rows.push_back(row_of(context, line));
    if (page.reduced)
        add_sums(context, table, *page.reduced);
    galley.table(std::move(table));
    galley.text(Report::tr("The book by itself: its first point stands at %1.")
                    .arg(context.wording.value(kPageStartLevel_m, Quantity::Length)),
                type::kSmall);
}

} // namespace

void books_section(const Context& context, Galley& galley) {
    if (context.survey.books.empty())
        return;
    galley.chapter(Report::tr("Level books"));
    for (const Booked<LevelBookRow>& book : context.survey.books)
        add_book(context, galley, book);
}

} // namespace rillmark::report
