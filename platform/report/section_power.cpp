// SPDX-License-Identifier: GPL-3.0-or-later
// From water to wire, alternative beside alternative.
#include "report/sections.h"

#include <algorithm>

namespace rillmark::report {

namespace {

constexpr std::size_t kBeside = 3; // alternatives in one table

QString station_name(const Context& context, const std::optional<Id>& id, const char* kind) {
    const StationRow* station = id ? context.survey.station(*id) : context.survey.first_of_kind(kind);
    return station != nullptr ? text_of(station->name) : QStringLiteral("–");
}

QString pipe_label(const Built& one) {
    QStringList labels;
    for (const ChainPipe& pipe : one.estimate.input.pipes)
        labels.append(text_of(pipe.label));
    if (labels.isEmpty())
        return Report::tr("not chosen");
    const QString whole = labels.join(QStringLiteral(", "));
    const int side_by_side = one.estimate.input.parallel_pipes;
    return side_by_side > 1 ? Report::tr("%1 side by side: %2").arg(side_by_side).arg(whole) : whole;
}

QString cable_label(const Context& context, const Built& one) {
    const Expected<Conductor> cable = context.tables.conductor(one.row->cable_id);
    return cable ? text_of(cable->label) : Report::tr("not chosen");
}

std::optional<Estimate> house_of(const ChainResult& chain) {
    return chain.house_W ? std::optional(chain.house_W->estimate) : std::nullopt;
}

/// One row: what it is called, and what it comes to for an alternative.
struct Link {
    QString label;
    std::function<QString(const Built&)> value;
    bool strong = false;
};

std::vector<Link> links_of(const Context& context) {
    const auto of_result = [&context](std::optional<Estimate> ChainResult::*member, Quantity quantity) {
        return [&context, member, quantity](const Built& one) {
            return shown(context, one.estimate.result.*member, quantity);
        };
    };
    const auto of_input = [&context](Estimate ChainInput::*member, Quantity quantity) {
        return [&context, member, quantity](const Built& one) {
            return shown(context, one.estimate.input.*member, quantity);
        };
    };
    return {
        {Report::tr("Intake"),
         [&context](const Built& one) { return station_name(context, one.row->intake_id, "intake"); }},
        {Report::tr("Powerhouse"),
         [&context](const Built& one) { return station_name(context, one.row->powerhouse_id, "powerhouse"); }},
        {Report::tr("Gross head"), of_result(&ChainResult::gross_head_m, Quantity::Length), true},
        {Report::tr("Flow through the turbine"), of_result(&ChainResult::flow_m3s, Quantity::Discharge), true},
        {Report::tr("Water power of the gross head"), of_result(&ChainResult::gross_W, Quantity::Power)},
        {Report::tr("Pipe"), pipe_label, true},
        {Report::tr("Length of the pipe"),
         [&context](const Built& one) { return shown(context, one.estimate.pipe.length_m, Quantity::Length); }},
        {Report::tr("Speed in the pipe"), of_result(&ChainResult::pipe_speed_ms, Quantity::Velocity)},
        {Report::tr("Lost at the intake"), of_result(&ChainResult::intake_loss_m, Quantity::Length)},
        {Report::tr("Lost to friction"), of_result(&ChainResult::friction_loss_m, Quantity::Length)},
        {Report::tr("Lost in bends, valves and entrance"), of_result(&ChainResult::minor_loss_m, Quantity::Length)},
        {Report::tr("Standing pressure at the lower end"),
         [&context](const Built& one) {
             const QString value = context.wording.value(one.estimate.result.static_pressure_Pa, Quantity::Pressure);
             return value.isEmpty() ? QStringLiteral("–") : value;
         }},
        {Report::tr("Net head"), of_result(&ChainResult::net_head_m, Quantity::Length), true},
        {Report::tr("Water power at the turbine"), of_result(&ChainResult::net_W, Quantity::Power)},
        {Report::tr("Efficiency of the turbine"), of_input(&ChainInput::turbine_efficiency, Quantity::Ratio)},
        {Report::tr("At the shaft"), of_result(&ChainResult::shaft_W, Quantity::Power)},
        {Report::tr("Efficiency of the drive"),
         [&context](const Built& one) { return shown(context, one.estimate.input.drive_efficiency, Quantity::Ratio); }},
        {Report::tr("Efficiency of the generator"), of_input(&ChainInput::generator_efficiency, Quantity::Ratio)},
        {Report::tr("At the generator"), of_result(&ChainResult::generator_W, Quantity::Power), true},
        {Report::tr("Cable"), [&context](const Built& one) { return cable_label(context, one); }, true},
        {Report::tr("Length of the cable, one way"),
         [&context](const Built& one) {
             return one.estimate.input.cable
                        ? context.wording.estimate(one.estimate.input.cable->length_m, Quantity::Length)
                        : QStringLiteral("–");
         }},
        {Report::tr("Lost in the cable"), of_result(&ChainResult::cable_loss_W, Quantity::Power)},
        {Report::tr("Voltage drop"), of_result(&ChainResult::cable_drop_V, Quantity::Voltage)},
        {Report::tr("At the house"),
         [&context](const Built& one) { return shown(context, house_of(one.estimate.result), Quantity::Power); }, true},
    };
}

void add_table(const Context& context, Galley& galley, std::size_t first) {
    const std::size_t end = std::min(first + kBeside, context.alternatives.size());
    Table table{{{Report::tr("Link")}}, {}};
    for (std::size_t i = first; i < end; ++i)
        table.columns.push_back({text_of(context.alternatives[i].row->name)});
    for (const Link& link : links_of(context)) {
        std::vector<Cell> row{Cell(link.label)};
        for (std::size_t i = first; i < end; ++i)
            row.push_back(link.strong ? Cell(link.value(context.alternatives[i])).bold()
                                      : Cell(link.value(context.alternatives[i])));
        table.rows.push_back(std::move(row));
    }
    galley.table(std::move(table));
}

void add_alternative(const Context& context, Galley& galley, const Built& one) {
    galley.heading(text_of(one.row->name));
    galley.text(text_of(one.row->note));
    std::vector<std::string> pipes{one.row->pipe_id};
    for (const PipeSectionRow& section : context.survey.sections(one.row->id))
        if (std::ranges::find(pipes, section.pipe_id) == pipes.end())
            pipes.push_back(section.pipe_id);
    for (const std::string& id : pipes)
        if (const Expected<PipeSize> pipe = context.tables.pipe(id))
            galley.text(Report::tr("%1: bore %2, roughness %3, rated %4. Source: %5 (%6)")
                            .arg(text_of(pipe->label), context.wording.value(pipe->bore_m, Quantity::Bore),
                                 context.wording.value(pipe->roughness_m, Quantity::Bore),
                                 context.wording.value(pipe->pressure_rating_Pa, Quantity::Pressure),
                                 text_of(pipe->source), text_of(pipe->provenance)),
                        type::kQuiet);
    if (const Expected<Conductor> cable = context.tables.conductor(one.row->cable_id))
        galley.text(Report::tr("%1. Source: %2 (%3)")
                        .arg(text_of(cable->label), text_of(cable->source), text_of(cable->provenance)),
                    type::kQuiet);
    add_findings(context, galley, one.estimate.findings);
    add_findings(context, galley, one.estimate.result.findings);
    if (one.estimate.result.house_W)
        add_budget(context, galley, *one.estimate.result.house_W, Quantity::Power);
}

} // namespace

void power_section(const Context& context, Galley& galley) {
    galley.chapter(Report::tr("From water to wire"));
    if (context.alternatives.empty()) {
        galley.text(Report::tr("No alternative has been set up yet: no pipe, turbine or cable is chosen."));
        add_findings(context, galley, context.estimate.chosen.result.findings);
        return;
    }
    for (std::size_t first = 0; first < context.alternatives.size(); first += kBeside)
        add_table(context, galley, first);
    if (context.alternatives.size() > 1)
        galley.text(Report::tr("The first is the one chosen."), type::kSmall);
    for (const Built& one : context.alternatives)
        add_alternative(context, galley, one);
}

} // namespace rillmark::report
