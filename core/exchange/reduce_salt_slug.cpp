// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/reduce_words.h"
#include "exchange/row_places.h"
#include "flow/salt_calibration.h"
#include "flow/salt_slug.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"time", Quantity::Time, true, false, "exchange.salt_slug.time"},
    {"ec", Quantity::Conductivity, false, false, "exchange.salt_slug.ec"},
    {"ec2", Quantity::Conductivity, false, false, "exchange.salt_slug.ec2"},
    {"temperature", Quantity::Temperature, false, false, "exchange.salt_slug.temperature"},
};
constexpr ReduceField kParameters[] = {
    {"mass", Quantity::Mass, false, false, "exchange.salt_slug.mass"},
    {"solution_volume", Quantity::Volume, false, false, "exchange.salt_slug.solution_volume"},
    {"solution", Quantity::Density, false, false, "exchange.salt_slug.solution"},
    {"mass_uncertainty", Quantity::Ratio, false, false, "exchange.salt_slug.mass_uncertainty", "0.01"},
    {"factor", Quantity::Number, false, false, "exchange.salt_slug.factor"},
    {"factor_uncertainty", Quantity::Ratio, false, false, "exchange.salt_slug.factor_uncertainty"},
    {"calibrated_to", Quantity::Conductivity, false, false, "exchange.salt_slug.calibrated_to"},
    {"mixing_uncertainty", Quantity::Ratio, false, false, "exchange.salt_slug.mixing_uncertainty", "0.03"},
    {"correction", {}, false, false, "exchange.salt_slug.correction", "as-read"},
    {"alpha", Quantity::Number, false, false, "exchange.salt_slug.alpha", "0.02"},
    {"over_range", Quantity::Conductivity, false, false, "exchange.salt_slug.over_range"},
    {"start", Quantity::Time, false, false, "exchange.salt_slug.start"},
    {"end", Quantity::Time, false, false, "exchange.salt_slug.end"},
    {"before_from", Quantity::Time, false, false, "exchange.salt_slug.before"},
    {"before_to", Quantity::Time, false, false, "exchange.salt_slug.before"},
    {"after_from", Quantity::Time, false, false, "exchange.salt_slug.after"},
    {"after_to", Quantity::Time, false, false, "exchange.salt_slug.after"},
    {"reach", Quantity::Length, false, false, "exchange.salt_slug.reach"},
    {"width", Quantity::Length, false, false, "exchange.salt_slug.width"},
};
constexpr PlacedField kPlaces[] = {{"time_s", "time"}, {"temperature_degC", "temperature"}, {"ec_Sm", "ec"}};
constexpr PlacedField kPlaces2[] = {{"time_s", "time"}, {"temperature_degC", "temperature"}, {"ec_Sm", "ec2"}};
constexpr ReduceWord<ConductivityCorrection> kCorrections[] = {{"as-read", ConductivityCorrection::AsRead},
                                                               {"linear", ConductivityCorrection::Linear},
                                                               {"non-linear", ConductivityCorrection::NonLinear}};

/// A window of which both ends are given, or what holds otherwise.
Expected<std::optional<TimeWindow>> window_of(const ReduceTable& table, std::string_view from, std::string_view to,
                                              const std::optional<TimeWindow>& otherwise) {
    const std::optional<double> from_s = table.parameter(from);
    const std::optional<double> to_s = table.parameter(to);
    if (!from_s && !to_s)
        return otherwise;
    if (!from_s || !to_s)
        return parameter_missing(from_s ? to : from);
    return std::optional<TimeWindow>{TimeWindow{*from_s, *to_s}};
}

Expected<TraceWindows> windows_of(const ReduceTable& table, const PreparedTrace& trace) {
    TraceWindows windows = suggest_windows(trace);
    if (const std::optional<double> start_s = table.parameter("start")) {
        windows.start_s = *start_s;
        windows.before.reset();
        if (*start_s > trace.time_s.front())
            windows.before = TimeWindow{trace.time_s.front(), *start_s};
    }
    if (const std::optional<double> end_s = table.parameter("end")) {
        windows.end_s = *end_s;
        windows.after.reset();
        if (*end_s < trace.time_s.back())
            windows.after = TimeWindow{*end_s, trace.time_s.back()};
    }
    const Expected<std::optional<TimeWindow>> before = window_of(table, "before_from", "before_to", windows.before);
    if (!before)
        return before.error();
    const Expected<std::optional<TimeWindow>> after = window_of(table, "after_from", "after_to", windows.after);
    if (!after)
        return after.error();
    windows.before = *before;
    windows.after = *after;
    return windows;
}

Estimate factor_of(const ReduceTable& table) {
    const double value = table.parameter("factor").value_or(kGenericSaltFactor.value / factor_unit()) * factor_unit();
    const double generic_rel = kGenericSaltFactor.standard_uncertainty / kGenericSaltFactor.value;
    return {value, value * table.parameter("factor_uncertainty").value_or(generic_rel)};
}

struct ProbeTrace {
    SlugProbe probe;
    TraceWindows windows;
};

/// One probe's column, integrated; the findings of its cleaning go to the reduction.
Expected<ProbeTrace> probe_of(const ReduceTable& table, std::string_view column, const TraceOptions& options,
                              Reduction& reduction) {
    std::vector<TraceReading> readings;
    std::vector<std::size_t> rows;
    for (std::size_t row = 0; row < table.size(); ++row) {
        readings.push_back(
            {*table.number(row, "time"), table.number(row, column), table.number(row, "temperature"), false});
        rows.push_back(row);
    }
    const RowPlaces places{table, rows, column == "ec" ? std::span<const PlacedField>(kPlaces) : kPlaces2};
    const Expected<PreparedTrace> trace = prepare_trace(readings, options);
    if (!trace)
        return places.put(trace.error());
    const Expected<TraceWindows> windows = windows_of(table, *trace);
    if (!windows)
        return windows.error();
    const Expected<TraceIntegral> integral = integrate_trace(*trace, *windows);
    if (!integral)
        return integral.error();
    for (const Finding& finding : trace->findings)
        reduction.findings.push_back(places.put(finding));
    SlugProbe probe{std::string(column), *integral, factor_of(table), !table.parameter("factor"),
                    table.parameter("calibrated_to")};
    return ProbeTrace{std::move(probe), *windows};
}

void add_probe_results(const ProbeTrace& trace, double discharge_m3s, Reduction& reduction) {
    const TraceIntegral& integral = trace.probe.integral;
    const auto add = [&](const char* code, double value, Quantity quantity) {
        reduction.results.push_back({code, trace.probe.name, {value, 0.0}, quantity});
    };
    add("exchange.result.probe_discharge", discharge_m3s, Quantity::Discharge);
    add("exchange.result.start", trace.windows.start_s, Quantity::Time);
    add("exchange.result.end", trace.windows.end_s, Quantity::Time);
    add("exchange.result.background_start", integral.background_start_Sm, Quantity::Conductivity);
    add("exchange.result.background_end", integral.background_end_Sm, Quantity::Conductivity);
    add("exchange.result.peak_rise", integral.peak_rise_Sm, Quantity::Conductivity);
}

Expected<Reduction> reduce_salt_slug(const ReduceTable& table) {
    const Expected<ConductivityCorrection> correction =
        word_parameter<ConductivityCorrection>(table, "correction", kCorrections);
    if (!correction)
        return correction.error();
    Reduction reduction;
    std::vector<ProbeTrace> traces;
    std::vector<SlugProbe> probes;
    for (const char* column : {"ec", "ec2"}) {
        if (!table.has_column(column))
            continue;
        Expected<ProbeTrace> trace =
            probe_of(table, column, {*correction, *table.parameter("alpha"), table.parameter("over_range")}, reduction);
        if (!trace)
            return trace.error();
        traces.push_back(std::move(trace).value());
        probes.push_back(traces.back().probe);
    }
    const SaltDose dose{table.parameter("mass"), table.parameter("solution_volume"), table.parameter("solution"),
                        *table.parameter("mass_uncertainty")};
    const Expected<SlugResult> slug = salt_slug(
        dose, probes, {*table.parameter("mixing_uncertainty"), table.parameter("reach"), table.parameter("width")});
    if (!slug)
        return slug.error();
    reduction.results = {{"exchange.result.discharge", {}, slug->flow.discharge.estimate, Quantity::Discharge},
                         {"exchange.result.salt", {}, {slug->mass_kg, 0.0}, Quantity::Mass},
                         {"exchange.result.peak_chloride", {}, {slug->peak_chloride_kgm3, 0.0}, Quantity::Density}};
    for (std::size_t i = 0; i < traces.size(); ++i)
        add_probe_results(traces[i], slug->probes[i].discharge_m3s, reduction);
    reduction.findings.insert(reduction.findings.end(), slug->flow.findings.begin(), slug->flow.findings.end());
    return reduction;
}

} // namespace

const ReduceMethod& salt_slug_method() {
    static constexpr ReduceMethod method{"salt-slug", "exchange.method.salt_slug", kColumns, kParameters,
                                         reduce_salt_slug};
    return method;
}

} // namespace rillmark
