// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/row_places.h"
#include "season/low_flow.h"
#include "units/iso_time.h"

#include <array>
#include <cmath>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"date", {}, true, false, "exchange.daily_flow.date"},
    {"flow", Quantity::Discharge, false, false, "exchange.daily_flow.flow"},
};
constexpr ReduceField kParameters[] = {
    {"plotting", {}, false, false, "exchange.daily_flow.plotting", "weibull"},
    {"year_begins", Quantity::Number, false, false, "exchange.daily_flow.year_begins", "1"},
};
constexpr PlacedField kPlaces[] = {{"date", "date"}, {"flow_m3s", "flow"}};
constexpr std::array kParts{0.01, 0.05, 0.10, 0.20, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 0.95, 0.99};

Expected<SummaryOptions> options_of(const ReduceTable& table) {
    SummaryOptions options;
    const std::string& plotting = table.text_parameter("plotting");
    if (plotting == "linear")
        options.rule = PlottingRule::Linear;
    else if (plotting != "weibull")
        return refusal("exchange.plotting_unknown", {}, {{"cell", plotting}, {"accepted", "weibull, linear"}});
    const double month = *table.parameter("year_begins");
    if (!(month >= 1.0 && month <= 12.0) || month != std::floor(month))
        return refusal("flow.bad_option", "year_begins", {{"value", month, Quantity::Number}});
    options.year_begins = static_cast<unsigned>(month);
    return options;
}

ResultTable::Cell cell(const std::optional<double>& value) {
    if (value)
        return Estimate{*value, 0.0};
    return std::monostate{};
}

ResultTable duration_table(const DailyFlow& series, PlottingRule rule) {
    ResultTable table{
        "exchange.table.duration",
        {{"exchange.result.part_of_time", Quantity::Ratio}, {"exchange.result.discharge", Quantity::Discharge}},
        {}};
    const FlowDuration curve = flow_duration(series);
    for (const double part : kParts)
        table.rows.push_back({Estimate{part, 0.0}, cell(curve.flow_m3s(part, rule))});
    return table;
}

ResultTable month_table(const DailyFlow& series, PlottingRule rule) {
    ResultTable table{"exchange.table.months",
                      {{"exchange.result.month", Quantity::Number},
                       {"exchange.result.days", Quantity::Number},
                       {"exchange.result.mean_flow", Quantity::Discharge},
                       {"exchange.result.q50", Quantity::Discharge},
                       {"exchange.result.q95", Quantity::Discharge}},
                      {}};
    double number = 0.0;
    for (const FlowDuration& month : monthly_flow_duration(series))
        table.rows.push_back({Estimate{number += 1.0, 0.0}, Estimate{static_cast<double>(month.size()), 0.0},
                              cell(month.mean_m3s()), cell(month.flow_m3s(0.5, rule)),
                              cell(month.flow_m3s(0.95, rule))});
    return table;
}

std::vector<NamedResult> results_of(const DailySummary& summary) {
    std::vector<NamedResult> results{
        {"exchange.result.days", {}, {static_cast<double>(summary.days), 0.0}, Quantity::Number},
        {"exchange.result.full_years", {}, {static_cast<double>(summary.full_years), 0.0}, Quantity::Number}};
    const auto add = [&](const char* code, std::optional<double> value, std::optional<double> u) {
        if (value)
            results.push_back({code, {}, {*value, u.value_or(0.0)}, Quantity::Discharge});
    };
    add("exchange.result.mean_flow", summary.mean_m3s, summary.mean_u_m3s);
    add("exchange.result.q50", summary.q50_m3s, summary.q50_u_m3s);
    add("exchange.result.q95", summary.q95_m3s, summary.q95_u_m3s);
    if (summary.low7_m3s)
        results.push_back({"exchange.result.low7", {}, *summary.low7_m3s, Quantity::Discharge});
    if (summary.base_flow_index)
        results.push_back({"exchange.result.base_flow_index", {}, {*summary.base_flow_index, 0.0}, Quantity::Number});
    return results;
}

Expected<Reduction> reduce_daily_flow(const ReduceTable& table) {
    const Expected<SummaryOptions> options = options_of(table);
    if (!options)
        return options.error();
    std::vector<DayRecord> days;
    std::vector<std::size_t> rows;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const std::string& date = table.text(row, "date");
        const std::optional<std::chrono::sys_days> day = day_from_iso(date);
        if (!day)
            return table.at(refusal("flow.bad_day", "date", {{"date", date}}), row, "date");
        days.push_back({*day, table.number(row, "flow")});
        rows.push_back(row);
    }
    const RowPlaces places{table, rows, kPlaces};
    const Expected<DailyRecord> record = daily_record(std::move(days));
    if (!record)
        return places.put(record.error());
    const Expected<DailySummary> summary = daily_summary(record->series, *options);
    if (!summary)
        return summary.error();
    Reduction reduction;
    reduction.results = results_of(*summary);
    reduction.tables = {duration_table(record->series, options->rule), month_table(record->series, options->rule)};
    reduction.findings = record->findings;
    reduction.findings.insert(reduction.findings.end(), summary->findings.begin(), summary->findings.end());
    return reduction;
}

} // namespace

const ReduceMethod& daily_flow_method() {
    static constexpr ReduceMethod method{"daily-flow", "exchange.method.daily_flow", kColumns, kParameters,
                                         reduce_daily_flow};
    return method;
}

} // namespace rillmark
