// SPDX-License-Identifier: GPL-3.0-or-later
// Every method that the figures of this site rest on, with its source, and the limits that were met.
#include "report/sections.h"
#include "words/words.h"

#include <algorithm>
#include <set>

namespace rillmark::report {

namespace {

class Sources {
public:
    /// `name` as the reader knows the method, `code` of source_words.cpp.
    void add(const QString& name, const std::string& code) {
        const words::Word* word = words::find(code);
        if (word == nullptr || !m_seen.insert(code).second)
            return;
        QString source = Wording::source(code);
        m_table.rows.push_back(
            {Cell(name).bold(), Wording::words(code),
             Cell(source.isEmpty() ? QStringLiteral("–") : source.section(QStringLiteral(": "), 1)).in(ink::kQuiet)});
    }
    [[nodiscard]] Table table() && { return std::move(m_table); }

private:
    Table m_table{{{Report::tr("Method")}, {Report::tr("How it computes")}, {Report::tr("Source")}}, {}};
    std::set<std::string> m_seen;
};

std::string underscored(std::string id) {
    std::ranges::replace(id, '-', '_');
    return id;
}

void add_power(const Context& context, Sources& sources) {
    bool pipe = false;
    bool cable = false;
    for (const Built& one : context.alternatives) {
        pipe = pipe || !one.estimate.input.pipes.empty();
        cable = cable || one.estimate.input.cable.has_value();
    }
    if (pipe)
        sources.add(Report::tr("Friction in the pipe"), "power.source_friction");
    if (cable)
        sources.add(Report::tr("Cable"), "power.source_cable");
    if (context.estimate.chosen.result.gross_W) {
        sources.add(Report::tr("Water"), "power.source_water");
        sources.add(Report::tr("Gravity"), "power.source_gravity");
    }
}

} // namespace

void sources_section(const Context& context, Galley& galley) {
    const Survey& survey = context.survey;
    Sources sources;
    sources.add(Report::tr("Uncertainty"), "uncertainty.source_propagation");
    if (context.site.has_positions())
        sources.add(Report::tr("Plan"), "position.source_plan");
    if (context.estimate.heights.network)
        sources.add(Report::tr("Heights"), "levels.source_network");
    if (!survey.books.empty())
        sources.add(Wording::words("levels.level_book"), "levels.source_level_book");
    if (std::ranges::any_of(survey.occupations, [](const auto& one) { return !one.struck && one.row.u_up_m; }))
        sources.add(Report::tr("Receiver"), "levels.source_receiver");
    for (const Booked<HeightRunRow>& run : survey.height_runs)
        sources.add(height_method_words(run.row.method), "levels.source_" + underscored(run.row.method));
    for (const Booked<FlowTestRow>& test : survey.tests)
        sources.add(flow_method_words(test.row.method), "flow.source_" + underscored(test.row.method));
    add_power(context, sources);
    galley.chapter(Report::tr("Methods and their sources"));
    galley.text(Report::tr("Limits that a figure came near or passed are named with their sources where they were met, "
                           "in the chapters "
                           "before."),
                type::kQuiet);
    galley.table(std::move(sources).table());
}

} // namespace rillmark::report
