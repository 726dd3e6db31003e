// SPDX-License-Identifier: GPL-3.0-or-later
// All evidence of height as one network.
#include "levelling/sight_judgement.h"
#include "report/sections.h"
#include "site/height_evidence.h"

#include <algorithm>
#include <cmath>

namespace rillmark::report {

namespace {

QString fit_of(const SiteHeights& heights) {
    const std::optional<GlobalTest>& test = heights.network->global_test();
    if (!test)
        return Report::tr("Nothing is measured twice: nothing checks these heights.");
    const QString numbers = Report::tr("readings to spare %1, spread %2 times what their ± allow for")
                                .arg(test->degrees_of_freedom)
                                .arg(test->s0(), 0, 'f', 2);
    return test->passes() ? Report::tr("The evidence fits together: %1.").arg(numbers)
                          : Report::tr("The evidence does not fit together: %1.").arg(numbers);
}

void add_stations(const Context& context, Galley& galley) {
    galley.heading(Report::tr("Heights of the stations"));
    Table table{{{Report::tr("Station")},
                 {Report::tr("Height"), Fit::Figures},
                 {Report::tr("Standard deviation"), Fit::Figures},
                 {Report::tr("Below the intake"), Fit::Figures}},
                {}};
    for (const ExportStation& one : context.site.stations)
        if (one.height_m)
            table.rows.push_back({text_of(one.name), context.wording.estimate(*one.height_m, Quantity::Length),
                                  context.wording.value(one.height_m->standard_uncertainty, Quantity::Length),
                                  one.fall_m ? shown(context, one.fall_m, Quantity::Length) : QString()});
    galley.table(std::move(table));
    galley.text(
        Report::tr(
            "A height carries the doubt of the datum; differences between stations are known better, see the column on "
            "the right."),
        type::kSmall);
}

void add_head(const Context& context, Galley& galley) {
    const std::optional<RunningHead>& head = context.estimate.heights.running_head;
    if (!head)
        return;
    galley.heading(Report::tr("Head"));
    galley.text(Report::tr("From %1 to %2: %3")
                    .arg(text_of(head->from), text_of(head->to),
                         context.wording.estimate(head->head.estimate, Quantity::Length)),
                type::kBody.as(Face::Bold));
    add_findings(context, galley, context.estimate.head_doubts);
    add_budget(context, galley, head->head, Quantity::Length);
}

void add_runs(const Context& context, Galley& galley) {
    if (context.survey.height_runs.empty())
        return;
    galley.heading(Report::tr("Runs by other methods"));
    Table table{{{Report::tr("Run")},
                 {Report::tr("Method")},
                 {Report::tr("Instrument")},
                 {Report::tr("Day")},
                 {Report::tr("Comes to")}},
                {}};
    Findings findings;
    for (const Booked<HeightRunRow>& run : context.survey.height_runs) {
        QString result = run.struck ? text_of(run.struck_reason) : QStringLiteral("–");
        for (const RunResult& one : context.estimate.heights.runs)
            if (one.run_id == run.row.id) {
                if (one.whole)
                    result = Report::tr("rise of %1, %2 to %3")
                                 .arg(context.wording.estimate(*one.whole, Quantity::Length), text_of(one.whole_from),
                                      text_of(one.whole_to));
                else if (one.two_peg)
                    result = context.wording.collimation(one.two_peg->collimation);
                findings.insert(findings.end(), one.findings.begin(), one.findings.end());
            }
        Cell name(text_of(run.row.name));
        name.struck = run.struck;
        table.rows.push_back({name, height_method_words(run.row.method), text_of(run.row.instrument),
                              day_of(run.row.created_at), result});
    }
    galley.table(std::move(table));
    add_findings(context, galley, findings);
}

/// Tenths of a millimetre or hundredths of an inch, and metres or feet from one metre on.
QString small_length(const Context& context, double length_m) {
    if (std::abs(length_m) >= 1.0)
        return context.wording.value(length_m, Quantity::Length, 2);
    return context.wording.value(length_m, Quantity::Bore,
                                 context.options.display.system == UnitSystem::Metric ? 1 : 2);
}

std::vector<Cell> evidence_row(const Context& context, const Evidence& one) {
    Cell subject(text_of(one.subject));
    if (one.struck) {
        subject.struck = true;
        return {subject, {}, {}, {}, Cell(text_of(one.struck_reason)).in(ink::kQuiet)};
    }
    const AdjustedObservation& seen = one.adjusted;
    QString remark = one.slip ? context.wording.sentence(*one.slip) : QString();
    if (!seen.normalised_residual)
        remark = Report::tr("checked by nothing");
    const QRgb colour = seen.outlier ? ink::kDanger : ink::kInk;
    Cell bar;
    if (seen.normalised_residual)
        bar = Cell::of_bar(std::clamp(*seen.normalised_residual / kOutlierLimit, -1.0, 1.0),
                           seen.outlier ? ink::kDanger : ink::kAction);
    return {seen.outlier ? subject.bold().in(colour) : subject, Cell(small_length(context, seen.residual_m)).in(colour),
            bar, seen.smallest_found_m ? small_length(context, *seen.smallest_found_m) : QString(),
            seen.outlier && remark.isEmpty() ? Cell(Report::tr("does not fit")).bold().in(colour)
                                             : Cell(remark).in(colour)};
}

void add_evidence(const Context& context, Galley& galley) {
    galley.heading(Report::tr("The evidence and its residuals"));
    galley.text(Report::tr("The bar is the residual against its own standard deviation; at either end it is so large "
                           "that it is flagged "
                           "(%1 times). Beside it the smallest error that would have shown.")
                    .arg(kOutlierLimit, 0, 'f', 2),
                type::kQuiet);
    std::vector<Table> tables; // one a method
    std::string source;
    for (const Evidence& one : evidence_of(context.survey, context.estimate.heights)) {
        if (tables.empty() || one.source != source) {
            QString heading = Wording::words(one.source);
            heading[0] = heading[0].toUpper();
            tables.push_back({{{heading},
                               {Report::tr("Residual"), Fit::Figures},
                               {{}, Fit::SignedBar, 70.0},
                               {Report::tr("Would show"), Fit::Figures},
                               {Report::tr("Remark")}},
                              {}});
            source = one.source;
        }
        tables.back().rows.push_back(evidence_row(context, one));
    }
    for (Table& table : tables)
        galley.table(std::move(table));
}

} // namespace

void heights_section(const Context& context, Galley& galley) {
    const SiteHeights& heights = context.estimate.heights;
    if (!heights.network)
        return;
    galley.chapter(Report::tr("Height network"));
    galley.text(fit_of(heights), type::kLead);
    add_findings(context, galley, heights.findings);
    add_head(context, galley);
    add_stations(context, galley);
    add_runs(context, galley);
    add_evidence(context, galley);
}

} // namespace rillmark::report
