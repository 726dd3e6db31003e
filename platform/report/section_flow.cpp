// SPDX-License-Identifier: GPL-3.0-or-later
// The flow tests: what each came to, its picture, its readings as booked, its budget.
#include "report/flow_plots.h"
#include "report/sections.h"
#include "site/flow_readings.h"

#include <algorithm>

namespace rillmark::report {

namespace {

QString role_words(const std::string& role) {
    static constexpr std::pair<const char*, const char*> kWords[] = {
        {flow_role::kRun, QT_TRANSLATE_NOOP("Report", "timed run")},
        {flow_role::kSounding, QT_TRANSLATE_NOOP("Report", "sounding")},
        {flow_role::kTrace, QT_TRANSLATE_NOOP("Report", "reading of the wave")},
        {flow_role::kAddition, QT_TRANSLATE_NOOP("Report", "step of the calibration")},
        {flow_role::kBackground, QT_TRANSLATE_NOOP("Report", "background")},
        {flow_role::kPlateau, QT_TRANSLATE_NOOP("Report", "plateau")},
        {flow_role::kHead, QT_TRANSLATE_NOOP("Report", "head")},
        {flow_role::kSection, QT_TRANSLATE_NOOP("Report", "section")},
        {flow_role::kMark, QT_TRANSLATE_NOOP("Report", "flood mark")}};
    for (const auto& [id, words] : kWords)
        if (role == id)
            return Report::tr(words);
    return text_of(role);
}

Cell struck_if(const QString& text, bool struck) {
    Cell cell(text);
    cell.struck = struck && !text.isEmpty();
    return cell;
}

Cell reason_cell(bool struck, const std::string& reason) {
    return struck ? Cell(text_of(reason)).in(ink::kDanger) : Cell();
}

void add_fills(const Context& context, Galley& galley, Id test) {
    Table table{{{Report::tr("Fill")},
                 {Report::tr("Volume"), Fit::Figures},
                 {Report::tr("Time"), Fit::Figures},
                 {Report::tr("Flow"), Fit::Figures},
                 {Report::tr("As typed")},
                 {Report::tr("Remark")}},
                {}};
    const Wording& words = context.wording;
    for (const Booked<FillRow>& fill : context.survey.fills)
        if (fill.row.test_id == test)
            table.rows.push_back(
                {QString::number(table.rows.size() + 1),
                 struck_if(words.value(fill.row.volume_m3, Quantity::Volume), fill.struck),
                 struck_if(words.value(fill.row.time_s, Quantity::Time), fill.struck),
                 fill.struck ? QString() : words.value(fill.row.volume_m3 / fill.row.time_s, Quantity::Discharge),
                 text_of(fill.row.typed), reason_cell(fill.struck, fill.struck_reason)});
    if (!table.rows.empty())
        galley.table(std::move(table));
}

/// The velocities of a vertical as read: "0.6: 0.45 m/s" or "0.6: 40 rev in 60 s".
QString points_of(const Context& context, Id vertical) {
    QStringList points;
    for (const Booked<VelocityRow>& one : context.survey.velocities) {
        if (one.row.vertical_id != vertical)
            continue;
        const QString depth = context.wording.value(one.row.depth_fraction, Quantity::Number, 1);
        QString text =
            one.row.velocity_ms
                ? Report::tr("%1: %2").arg(depth, context.wording.value(one.row.velocity_ms, Quantity::Velocity))
                : Report::tr("%1: %2 rev in %3")
                      .arg(depth, context.wording.value(one.row.revolutions, Quantity::Number, 0),
                           context.wording.value(one.row.time_s, Quantity::Time));
        if (one.struck)
            text = Report::tr("%1 (struck: %2)").arg(text, text_of(one.struck_reason));
        points.append(text);
    }
    return points.join(QStringLiteral("; "));
}

void add_verticals(const Context& context, Galley& galley, const TestResult& result) {
    Table table{{{Report::tr("At"), Fit::Figures},
                 {Report::tr("Depth"), Fit::Figures},
                 {Report::tr("Velocities read, by part of the depth")},
                 {Report::tr("Mean"), Fit::Figures},
                 {Report::tr("Flow of the panel"), Fit::Figures},
                 {Report::tr("Share"), Fit::Figures},
                 {Report::tr("Remark")}},
                {}};
    const Wording& words = context.wording;
    for (const Booked<VerticalRow>& one : context.survey.verticals) {
        if (one.row.test_id != result.test_id)
            continue;
        std::vector<Cell> row{struck_if(words.value(one.row.distance_m, Quantity::Length), one.struck),
                              struck_if(words.value(one.row.depth_m, Quantity::Length), one.struck),
                              struck_if(points_of(context, one.row.id), one.struck)};
        const Panel* panel = nullptr;
        if (result.gauging)
            for (const Panel& each : result.gauging->panels)
                if (each.vertical_id == one.row.id)
                    panel = &each;
        row.emplace_back(panel ? words.value(panel->velocity_ms, Quantity::Velocity) : QString());
        row.emplace_back(panel ? words.value(panel->discharge_m3s, Quantity::Discharge) : QString());
        row.emplace_back(panel ? words.percent(panel->share) : QString());
        row.push_back(one.struck                        ? reason_cell(true, one.struck_reason)
                      : one.row.edge == "water-edge"    ? Cell(Report::tr("water's edge"))
                      : one.row.edge == "vertical-bank" ? Cell(Report::tr("vertical bank"))
                                                        : Cell());
        table.rows.push_back(std::move(row));
    }
    if (!table.rows.empty())
        galley.table(std::move(table));
}

void add_readings(const Context& context, Galley& galley, Id test) {
    Table table{{{Report::tr("What")}, {Report::tr("As typed")}, {Report::tr("Remark")}}, {}};
    std::size_t wave = 0;
    for (const Booked<FlowReadingRow>& one : context.survey.test_readings(test)) {
        // a logged wave has thousands of readings: its picture stands for those that count
        if (one.row.role == flow_role::kTrace && ++wave > 0 && !one.struck)
            continue;
        table.rows.push_back({QStringLiteral("%1 %2").arg(role_words(one.row.role)).arg(one.row.part + 1),
                              struck_if(text_of(one.row.typed), one.struck),
                              one.struck ? reason_cell(true, one.struck_reason) : Cell(text_of(one.row.remark))});
    }
    if (!table.rows.empty())
        galley.table(std::move(table));
    if (wave > 0)
        galley.text(Report::tr("The wave has %1 readings: they are in the picture, and one by one in the project file.")
                        .arg(wave),
                    type::kSmall);
}

void add_picture(const Context& context, Galley& galley, const TestResult& result) {
    const DisplayOptions& display = context.options.display;
    if (result.gauging)
        galley.figure(kGaugingHeight, [&result, &display](QPainter& painter, const QRectF& box) {
            draw_gauging(painter, box, *result.gauging, display);
        });
    for (const SlugTrace& trace : result.traces)
        galley.figure(kWaveHeight, [&trace](QPainter& painter, const QRectF& box) { draw_wave(painter, box, trace); });
    const std::vector<ContainerFill> fills = fills_of(context.survey, result.test_id);
    if (result.discharge && fills.size() > 1)
        galley.figure(kFillsHeight, [fills, &result, &display](QPainter& painter, const QRectF& box) {
            draw_fills(painter, box, fills, result.discharge->estimate, display);
        });
}

QString facts_of(const Context& context, const FlowTestRow& test) {
    QStringList facts{flow_method_words(test.method), Wording::when(test.created_at)};
    if (const StationRow* station = test.station_id ? context.survey.station(*test.station_id) : nullptr)
        facts.append(Report::tr("at %1").arg(text_of(station->name)));
    if (const MeterRow* meter = test.meter_id ? context.survey.meter(*test.meter_id) : nullptr)
        facts.append(text_of(meter->name));
    if (test.stage_m)
        facts.append(Report::tr("staff gauge %1").arg(context.wording.value(test.stage_m, Quantity::Length)));
    return facts.join(QStringLiteral(" · "));
}

void add_test(const Context& context, Galley& galley, const TestResult& result) {
    const FlowTestRow& test = *context.survey.test(result.test_id);
    galley.heading(text_of(test.name));
    galley.text(facts_of(context, test), type::kQuiet);
    galley.text(result.discharge ? context.wording.estimate(result.discharge->estimate, Quantity::Discharge)
                                 : Report::tr("no result yet"),
                type::kMidFigure, 2.0);
    if (!test.counts)
        galley.item(Report::tr("Set aside: it does not count in the flow to use."), ink::kWarning);
    galley.text(text_of(test.note));
    add_picture(context, galley, result);
    galley.space(8.0);
    if (result.gauging)
        galley.text(Report::tr("Width %1, area %2, mean depth %3, mean velocity %4; by mean-section %5")
                        .arg(context.wording.value(result.gauging->width_m, Quantity::Length),
                             context.wording.value(result.gauging->area_m2, Quantity::Area),
                             context.wording.value(result.gauging->mean_depth_m, Quantity::Length),
                             context.wording.value(result.gauging->mean_velocity_ms, Quantity::Velocity),
                             context.wording.value(result.gauging->mean_section_m3s, Quantity::Discharge)));
    for (const FlowDetail& one : result.details)
        galley.text(QStringLiteral("%1: %2").arg(Wording::words(one.code), shown(context, one.value, one.quantity)),
                    type::kBody, 1.0);
    add_findings(context, galley, result.findings);
    if (result.discharge)
        add_budget(context, galley, *result.discharge, Quantity::Discharge);
    galley.space(6.0);
    add_fills(context, galley, test.id);
    add_verticals(context, galley, result);
    add_readings(context, galley, test.id);
}

void add_struck_tests(const Context& context, Galley& galley) {
    for (const Booked<FlowTestRow>& test : context.survey.tests)
        if (test.struck)
            galley.item(
                Report::tr("Struck out: %1, %2. %3")
                    .arg(text_of(test.row.name), flow_method_words(test.row.method), text_of(test.struck_reason)),
                ink::kDanger);
}

} // namespace

void flow_section(const Context& context, Galley& galley) {
    if (context.survey.tests.empty())
        return;
    galley.chapter(Report::tr("Flow tests"));
    if (const std::optional<FlowToUse>& flow = context.estimate.flow.to_use)
        galley.text(
            Report::tr("Flow to use: %1").arg(context.wording.estimate(flow->discharge.estimate, Quantity::Discharge)),
            type::kLead.as(Face::Bold));
    Table table{{{Report::tr("Test")}, {Report::tr("Method")}, {Report::tr("Day")}, {Report::tr("Flow"), Fit::Figures}},
                {}};
    for (const TestResult& one : context.estimate.flow.tests) {
        const FlowTestRow& test = *context.survey.test(one.test_id);
        table.rows.push_back({text_of(test.name), flow_method_words(test.method), day_of(test.created_at),
                              shown(context, one.discharge ? std::optional(one.discharge->estimate) : std::nullopt,
                                    Quantity::Discharge)});
    }
    galley.table(std::move(table));
    add_findings(context, galley, context.estimate.flow.findings);
    add_struck_tests(context, galley);
    for (const TestResult& one : context.estimate.flow.tests)
        add_test(context, galley, one);
}

} // namespace rillmark::report
