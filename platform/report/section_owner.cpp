// SPDX-License-Identifier: GPL-3.0-or-later
// Page one: what it is worth, how sure that is and what is missing, for a reader who is no surveyor.
#include "report/sections.h"
#include "site/readiness.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace rillmark::report {

namespace {

constexpr double kSecondsADay = 86400.0;

/// First and last day on which something was read.
QString days_of(const Survey& survey) {
    std::vector<std::string> times;
    const auto take = [&times](const auto& rows) {
        for (const auto& one : rows)
            if (!one.struck && !one.row.observed_at.empty())
                times.push_back(one.row.observed_at);
    };
    take(survey.occupations);
    take(survey.sights);
    take(survey.height_readings);
    take(survey.fills);
    take(survey.verticals);
    take(survey.flow_readings);
    take(survey.notes);
    take(survey.photos);
    if (times.empty())
        return {};
    const auto [first, last] = std::ranges::minmax(times);
    return day_of(first) == day_of(last) ? day_of(first) : Report::tr("%1 to %2").arg(day_of(first), day_of(last));
}

void add_title(const Context& context, Galley& galley) {
    const SiteRow& site = context.survey.site;
    galley.text(Report::tr("Survey of a creek for small hydropower"), type::kQuiet, 0.0);
    galley.text(text_of(site.name), type::kTitle, 2.0);
    QStringList facts;
    if (!site.owner.empty())
        facts.append(Report::tr("for %1").arg(text_of(site.owner)));
    if (const QString days = days_of(context.survey); !days.isEmpty())
        facts.append(Report::tr("surveyed %1").arg(days));
    facts.append(Report::tr("report of %1").arg(QLocale().toString(context.options.now.date(), QLocale::ShortFormat)));
    QString line = facts.join(QStringLiteral(" · "));
    line[0] = line[0].toUpper();
    galley.text(line, type::kQuiet, 3.0);
    galley.text(text_of(site.note), type::kBody, 6.0);
}

/// The watts, as far along the chain as they are known.
struct Worth {
    QString label;
    std::optional<Estimate> watts;
};

Worth worth_of(const ChainResult& chain) {
    if (chain.house_W)
        return {Report::tr("Power at the house"), chain.house_W->estimate};
    if (chain.generator_W)
        return {Report::tr("Power at the generator; no cable is chosen yet"), chain.generator_W};
    return {Report::tr("Power at the house"), {}};
}

/// The place to which a ± is shown: one significant digit, two where it begins with 1 or 2 (see show_estimate).
double last_place(double expanded) {
    constexpr double kTwoDigitsBelow = 2.95;
    const double decade = expanded > 0.0 ? std::pow(10.0, std::floor(std::log10(expanded))) : 1.0;
    return expanded < kTwoDigitsBelow * decade ? 0.1 * decade : decade;
}

void add_worth(const Context& context, Galley& galley) {
    const ChainResult& chain = context.estimate.chosen.result;
    const Worth worth = worth_of(chain);
    galley.space(16.0);
    galley.text(worth.label, type::kQuiet);
    if (!worth.watts) {
        galley.text(Report::tr("No figure yet"), type::kFigure.in(ink::kQuiet), 0.0);
        for (const Finding& one : chain.findings)
            if (one.code.starts_with("power.missing_"))
                galley.item(context.wording.sentence(one), ink::kWarning);
        return;
    }
    galley.text(context.wording.estimate(*worth.watts, Quantity::Power), type::kFigure, 0.0);
    const Wording& words = context.wording;
    const double step = last_place(worth.watts->expanded());
    const double low = std::max(0.0, step * std::round((worth.watts->value - worth.watts->expanded()) / step));
    const double high = step * std::round((worth.watts->value + worth.watts->expanded()) / step);
    QString lead =
        Report::tr(
            "Built as “%1”, the creek gives between %2 and %3, day and night, for as long as it carries the water "
            "that this rests on: about %4 in a day.")
            .arg(context.alternatives.empty() ? QString() : text_of(context.alternatives.front().row->name),
                 words.value(low, Quantity::Power), words.value(high, Quantity::Power),
                 words.value(worth.watts->value * kSecondsADay, Quantity::Energy, 0));
    galley.text(lead, type::kLead, 2.0);
    galley.text(
        Report::tr(
            "Every ± in this report is two standard uncertainties: the true value lies within it about 19 times out "
            "of 20, unless a reading is wrong in a way that nothing has shown yet."),
        type::kQuiet, 3.0);
}

struct Fact {
    QString label;
    QString figure;
    QString below;
};

/// Three figures side by side, each with what it rests on.
void add_facts(const Context& context, Galley& galley) {
    const SiteEstimate& site = context.estimate;
    std::vector<Fact> facts;
    const std::optional<RunningHead>& head = site.heights.running_head;
    facts.push_back({Report::tr("Fall of the water"),
                     head ? context.wording.estimate(head->head.estimate, Quantity::Length) : QStringLiteral("–"),
                     !head ? Report::tr("not measured yet")
                           : Report::tr("%1 to %2; %3")
                                 .arg(text_of(head->from), text_of(head->to),
                                      head->checked ? Report::tr("checked by a second measurement")
                                                    : Report::tr("nothing checks it yet"))});
    const std::optional<FlowToUse>& flow = site.flow.to_use;
    facts.push_back(
        {Report::tr("Water to use"),
         flow ? context.wording.estimate(flow->discharge.estimate, Quantity::Discharge) : QStringLiteral("–"),
         !flow                      ? Report::tr("not measured yet")
         : flow->visits.size() == 1 ? Report::tr("tested on one day only: %1").arg(text_of(flow->visits.front().date))
                                    : Report::tr("tested on %1 days").arg(flow->visits.size())});
    const std::vector<ReadinessItem> asks = readiness(context.survey, site);
    const ReadinessTally count = tally(asks);
    facts.push_back({Report::tr("Survey"), Report::tr("%1 of %2").arg(count.done).arg(count.asked()),
                     Report::tr("of what a designer will ask for is done")});
    constexpr double kPad = 9.0;
    constexpr std::size_t kMostLines = 5;
    const double column = (galley.width() - 2.0 * kPad) / static_cast<double>(facts.size());
    std::size_t lines = 1;
    for (const Fact& fact : facts)
        lines = std::max(lines, lines_of(fact.below, type::kSmall, column - kPad, kMostLines).size());
    const double height = 2.0 * kPad + type::kSmall.leading * static_cast<double>(lines + 1) + type::kMidFigure.leading;
    galley.figure(
        height,
        [facts, column](QPainter& painter, const QRectF& box) {
            painter.fillRect(box, QColor::fromRgb(ink::kCard));
            QRectF cell(box.left() + kPad, box.top() + kPad, column - kPad, 0.0);
            for (const Fact& fact : facts) {
                draw_line(painter, cell, fact.label, type::kSmall);
                draw_line(painter, cell.translated(0.0, type::kSmall.leading), fact.figure, type::kMidFigure);
                double top = type::kSmall.leading + type::kMidFigure.leading;
                for (const QString& line : lines_of(fact.below, type::kSmall, cell.width(), kMostLines)) {
                    draw_line(painter, cell.translated(0.0, top), line, type::kSmall);
                    top += type::kSmall.leading;
                }
                cell.translate(column, 0.0);
            }
        },
        12.0);
}

/// The part of the variance that each input brings in, as one strip.
void add_doubt(const Context& context, Galley& galley) {
    const std::optional<Budgeted>& house = context.estimate.chosen.result.house_W;
    if (!house || house->budget.empty() || house->estimate.standard_uncertainty <= 0.0)
        return;
    galley.subheading(Report::tr("How sure: what makes the ±"));
    constexpr std::size_t kMost = 5;
    Table table{{Column{}, Column{{}, Fit::Bar, 190.0}, Column{{}, Fit::Figures}}, {}};
    double rest = 0.0;
    for (std::size_t i = 0; i < house->budget.size(); ++i) {
        const BudgetLine& line = house->budget[i];
        if (i >= kMost) {
            rest += line.share;
            continue;
        }
        table.rows.push_back({label_of(line), Cell::of_bar(line.share, ink::kAction), share_text(context, line.share)});
    }
    if (house->budget.size() > kMost)
        table.rows.push_back({Report::tr("All others"), Cell::of_bar(rest, ink::kAction), share_text(context, rest)});
    galley.table(std::move(table));
}

void add_missing(const Context& context, Galley& galley) {
    galley.subheading(Report::tr("What is still missing"));
    bool any = false;
    for (const Readiness state : {Readiness::Missing, Readiness::Thin})
        for (const ReadinessItem& one : readiness(context.survey, context.estimate))
            if (one.state == state) {
                galley.item(QStringLiteral("%1. %2").arg(Wording::words(one.code), Wording::words(one.why)),
                            state == Readiness::Missing ? ink::kDanger : ink::kWarning);
                any = true;
            }
    if (!any)
        galley.text(Report::tr("Nothing on the designer's list."));
    galley.text(
        Report::tr(
            "A day's flow is a day's flow: it says nothing about the driest weeks. This report advises; permits, pipe "
            "under pressure and electrical work belong to those licensed for them."),
        type::kQuiet, 7.0);
}

} // namespace

void owner_page(const Context& context, Galley& galley) {
    add_title(context, galley);
    add_worth(context, galley);
    add_facts(context, galley);
    add_doubt(context, galley);
    add_missing(context, galley);
}

} // namespace rillmark::report
