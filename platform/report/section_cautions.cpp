// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/flow_method.h"
#include "heights/height_method.h"
#include "report/sections.h"
#include "words/words.h"

#include <algorithm>
#include <set>

namespace rillmark::report {

namespace {

std::string underscored(std::string_view id) {
    std::string text(id);
    std::ranges::replace(text, '-', '_');
    return text;
}

/// The cautions of the methods that this site used, as the app shows them at each step.
std::vector<std::string> cautions_of(const Survey& survey) {
    std::vector<std::string> codes;
    std::set<std::string> seen;
    const auto add = [&](const std::string& code) {
        if (words::find(code) != nullptr && seen.insert(code).second)
            codes.push_back(code);
    };
    for (const Booked<HeightRunRow>& run : survey.height_runs)
        if (const std::optional<HeightMethod> method = height_method_from_id(run.row.method); method && !run.struck)
            add(height_caution_code(*method));
    for (const Booked<FlowTestRow>& test : survey.tests)
        if (!test.struck)
            add("flow.caution_" + underscored(test.row.method));
    return codes;
}

} // namespace

void cautions_section(const Context& context, Galley& galley) {
    galley.chapter(Report::tr("Cautions"));
    for (const QString& one :
         {Report::tr("This report advises; it does not licence. Structures in water, pipe under pressure, electrical "
                     "work and taking water "
                     "are subject to local codes, permits and licensed practice."),
          Report::tr(
              "Ampacity, protection and earthing are never computed here: a licensed electrician decides on them."),
          Report::tr("Surge is not in the pressures of the estimate. A burst pipe can kill: have pipe classes, anchors "
                     "and valves "
                     "confirmed by the pipe's maker and a licensed engineer."),
          Report::tr("One day's flow says nothing about the year. Come back at low water before money is spent."),
          Report::tr("Whoever measures again: do not wade where depth times speed comes near %1, never alone, never in "
                     "rising water; cold "
                     "water takes the strength within minutes.")
              .arg(context.options.display.system == UnitSystem::Metric ? QStringLiteral("0.9 m²/s")
                                                                        : QStringLiteral("10 ft²/s"))})
        galley.item(one, ink::kDanger);
    const std::vector<std::string> codes = cautions_of(context.survey);
    if (!codes.empty())
        galley.subheading(Report::tr("Of the methods used here"));
    for (const std::string& code : codes)
        galley.item(Wording::words(code), ink::kWarning);
    std::vector<QString> hazards;
    for (const ExportStation& one : context.site.stations)
        if (station_kind_from_id(one.kind) == StationKind::Hazard)
            hazards.push_back(one.note.empty() ? text_of(one.name)
                                               : QStringLiteral("%1: %2").arg(text_of(one.name), text_of(one.note)));
    if (!hazards.empty())
        galley.subheading(Report::tr("Hazards logged on the walk"));
    for (const QString& one : hazards)
        galley.item(one, ink::kDanger);
}

} // namespace rillmark::report
