// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/sections.h"

#include <algorithm>
#include <cmath>

namespace rillmark::report {

namespace {

constexpr std::size_t kMostBudgetLines = 8;

QRgb mark_of(Severity severity) {
    switch (severity) {
    case Severity::Note:
        return ink::kRule;
    case Severity::Warning:
        return ink::kWarning;
    case Severity::Refusal:
        return ink::kDanger;
    }
    return ink::kRule;
}

} // namespace

std::span<const Section> sections() {
    static constexpr Section kSections[] = {ready_section,  plan_section,     profile_section, power_section,
                                            flow_section,   heights_section,  books_section,   notes_section,
                                            photos_section, cautions_section, sources_section, file_section};
    return kSections;
}

void add_budget(const Context& context, Galley& galley, const Budgeted& result, Quantity quantity) {
    if (result.budget.empty())
        return;
    Table table{{{Report::tr("What makes the ±")},
                 {Report::tr("±"), Fit::Figures},
                 {Report::tr("share"), Fit::Figures},
                 {{}, Fit::Bar, 110.0}},
                {}};
    const auto add = [&](const QString& label, double contribution, double share) {
        table.rows.push_back({label, context.wording.value(kCoverageFactor * contribution, quantity),
                              share_text(context, share), Cell::of_bar(share, ink::kAction)});
    };
    double rest_share = 0.0;
    double rest_variance = 0.0;
    std::size_t rest = 0;
    for (std::size_t i = 0; i < result.budget.size(); ++i) {
        const BudgetLine& line = result.budget[i];
        if (i < kMostBudgetLines || result.budget.size() == kMostBudgetLines + 1) {
            add(label_of(line), line.contribution, line.share);
            continue;
        }
        rest_share += line.share;
        rest_variance += line.contribution * line.contribution;
        ++rest;
    }
    if (rest > 0)
        add(Report::tr("All others (%1)").arg(rest), std::sqrt(rest_variance), rest_share);
    galley.table(std::move(table));
}

void add_findings(const Context& context, Galley& galley, const Findings& findings) {
    std::vector<const Finding*> ordered;
    for (const Finding& one : findings)
        ordered.push_back(&one);
    std::ranges::stable_sort(ordered, [](const Finding* a, const Finding* b) { return a->severity > b->severity; });
    for (const Finding* one : ordered)
        galley.item(context.wording.sentence(*one), mark_of(one->severity), Wording::source(one->code));
}

} // namespace rillmark::report
