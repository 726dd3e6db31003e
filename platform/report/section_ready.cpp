// SPDX-License-Identifier: GPL-3.0-or-later
// The designer's list with what stands to each item: state, answer, and why one is not needed.
#include "report/sections.h"
#include "site/readiness.h"

namespace rillmark::report {

namespace {

Cell state_cell(Readiness state) {
    switch (state) {
    case Readiness::Done:
        return Cell(Report::tr("done")).in(ink::kAction);
    case Readiness::Thin:
        return Cell(Report::tr("thin")).in(ink::kWarning);
    case Readiness::NotNeeded:
        return Cell(Report::tr("not needed")).in(ink::kQuiet);
    case Readiness::Missing:
        break;
    }
    return Cell(Report::tr("missing")).in(ink::kDanger);
}

QString detail_of(const ReadinessItem& item) {
    QStringList parts;
    if (item.answer) {
        if (item.answer->verdict == "yes")
            parts.append(Report::tr("Yes."));
        else if (item.answer->verdict == "no")
            parts.append(Report::tr("No."));
        if (!item.answer->text.empty())
            parts.append(text_of(item.answer->text));
    }
    if (!item.why.empty())
        parts.append(Wording::words(item.why));
    return parts.join(QLatin1Char(' '));
}

} // namespace

void ready_section(const Context& context, Galley& galley) {
    galley.chapter(Report::tr("Ready for the designer?"));
    const std::vector<ReadinessItem> items = readiness(context.survey, context.estimate);
    const ReadinessTally count = tally(items);
    galley.text(Report::tr("%1 of %2 done, %3 thin, %4 missing.")
                    .arg(count.done)
                    .arg(count.asked())
                    .arg(count.thin)
                    .arg(count.missing));
    Table table{{{Report::tr("Asked for")}, {Report::tr("State")}, {Report::tr("What stands to it")}}, {}};
    for (const ReadinessItem& item : items)
        table.rows.push_back({Cell(Wording::words(item.code)).bold(), state_cell(item.state), Cell(detail_of(item))});
    galley.table(std::move(table));
}

} // namespace rillmark::report
