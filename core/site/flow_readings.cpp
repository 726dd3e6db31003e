// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/flow_readings.h"

#include "flow/constant_rate.h"
#include "flow/float_gauging.h"
#include "flow/parshall_flume.h"
#include "flow/salt_calibration.h"
#include "flow/salt_slug.h"
#include "flow/slope_area.h"
#include "flow/thin_plate_weir.h"
#include "units/constants.h"

#include <algorithm>
#include <map>

namespace rillmark {

namespace {

// Common practice, no source: a rate measured by filling a jug, a solution weighed in.
constexpr double kInjection_rel = 0.02;
constexpr double kTracer_rel = 0.01;
// Our choice, no source: where only the value of a roughness is given.
constexpr double kRoughness_rel = 0.2;
// Our choice, no source: two probes in one stream are called by their places.
constexpr const char* kProbeNames[] = {"1", "2"};

using Readings = std::vector<Booked<FlowReadingRow>>;

Readings with_role(const Survey& survey, Id test, std::string_view role) {
    Readings readings = survey.test_readings(test);
    std::erase_if(readings, [role](const Booked<FlowReadingRow>& one) { return one.row.role != role; });
    return readings;
}

TestResult refused(const FlowTestRow& test, const Finding& why) {
    TestResult result;
    result.test_id = test.id;
    result.findings.push_back(why);
    return result;
}

/// Says the same of every method: its discharge, its findings, and the figures that a surveyor looks at on the way.
TestResult told(const FlowTestRow& test, const FlowResult& flow, std::vector<FlowDetail> details) {
    TestResult result;
    result.test_id = test.id;
    result.discharge = flow.discharge;
    result.findings = flow.findings;
    result.details = std::move(details);
    return result;
}

FlowDetail exact(const char* code, double value, Quantity quantity) {
    return {code, {value, 0.0}, quantity};
}

FloatBed bed_of(const std::string& stored) {
    if (stored == "rough-shallow")
        return FloatBed::RoughShallow;
    return stored == "smooth-deep" ? FloatBed::SmoothDeep : FloatBed::Ordinary;
}

FloatWind wind_of(const std::string& stored) {
    if (stored == "light")
        return FloatWind::Light;
    return stored == "strong" ? FloatWind::Strong : FloatWind::None;
}

FloatSurface surface_of(const std::string& stored) {
    if (stored == "broken")
        return FloatSurface::Broken;
    return stored == "turbulent" ? FloatSurface::Turbulent : FloatSurface::Even;
}

TestResult float_result(const Survey& survey, const FlowTestRow& test) {
    std::vector<FloatRun> runs;
    for (const Booked<FlowReadingRow>& one : with_role(survey, test.id, flow_role::kRun))
        runs.push_back({one.row.id, one.row.time_s.value_or(0.0), one.row.length_m, one.row.distance_m, one.struck});
    std::map<std::int64_t, FloatSection> sections;
    for (const Booked<FlowReadingRow>& one : with_role(survey, test.id, flow_role::kSounding))
        if (!one.struck)
            sections[one.row.part].soundings.push_back(
                {one.row.distance_m.value_or(0.0), one.row.depth_m.value_or(0.0)});
    std::vector<FloatSection> in_order;
    for (auto& [part, section] : sections)
        in_order.push_back(std::move(section));
    FloatOptions options;
    options.length_m = test.length_m;
    options.bed = bed_of(test.bed);
    options.wind = wind_of(test.wind);
    options.surface = surface_of(test.water_surface);
    options.coefficient = test.coefficient;
    const Expected<FloatResult> result = float_gauging(runs, in_order, options);
    if (!result)
        return refused(test, result.error());
    return told(test, result->flow,
                {exact("flow.detail_area", result->area_m2, Quantity::Area),
                 exact("flow.detail_surface_velocity", result->surface_velocity_ms, Quantity::Velocity),
                 {"flow.detail_float_coefficient", result->coefficient, Quantity::Number}});
}

/// The factor to use: of the calibration booked with the test, else the one typed in, else the generic one.
struct SaltFactor {
    Estimate factor = kGenericSaltFactor;
    bool generic = true;
    std::optional<double> highest_Sm;
    Findings findings;
};

SaltFactor salt_factor(const Survey& survey, const FlowTestRow& test) {
    SaltFactor factor;
    SaltCalibrationInput input;
    for (const Booked<FlowReadingRow>& one : with_role(survey, test.id, flow_role::kAddition))
        input.additions.push_back(
            {one.row.id, one.row.volume_m3.value_or(0.0), one.row.conductivity_Sm.value_or(0.0), one.struck});
    if (!input.additions.empty()) {
        input.sample_m3 = test.sample_m3.value_or(0.0);
        input.solution_kgm3 = test.standard_kgm3.value_or(0.0);
        const Expected<SaltCalibration> calibration = salt_calibration(input);
        if (calibration) {
            factor.factor = calibration->factor.estimate;
            factor.generic = false;
            factor.highest_Sm = calibration->highest_ec_Sm;
            factor.findings = calibration->findings;
            return factor;
        }
        factor.findings.push_back(calibration.error());
        factor.findings.back().severity = Severity::Warning;
    }
    if (test.factor) {
        factor.factor = {*test.factor, test.factor_u.value_or(kPoorCalibration_u)};
        factor.generic = false;
    }
    return factor;
}

TestResult slug_result(const Survey& survey, const FlowTestRow& test) {
    const SaltFactor factor = salt_factor(survey, test);
    std::vector<SlugProbe> probes;
    std::vector<SlugTrace> traces;
    Findings findings = factor.findings;
    for (std::int64_t probe = 0; probe < 2; ++probe) {
        if (probe > 0 && !std::ranges::any_of(with_role(survey, test.id, flow_role::kTrace), [probe](const auto& one) {
                return one.row.part == probe && !one.struck;
            }))
            break;
        Expected<SlugTrace> trace = slug_trace(survey, test, probe);
        if (!trace)
            return refused(test, trace.error());
        findings.insert(findings.end(), trace->prepared.findings.begin(), trace->prepared.findings.end());
        SlugProbe one;
        one.name = kProbeNames[probe];
        one.integral = trace->integral;
        one.factor = factor.factor;
        one.generic_factor = factor.generic;
        one.highest_calibrated_Sm = factor.highest_Sm;
        probes.push_back(std::move(one));
        traces.push_back(std::move(trace).value());
    }
    SaltDose dose;
    dose.mass_kg = test.salt_mass_kg;
    dose.solution_m3 = test.solution_m3;
    dose.solution_kgm3 = test.solution_kgm3;
    SlugOptions options;
    options.reach_m = test.length_m;
    options.width_m = test.width_m;
    const Expected<SlugResult> result = salt_slug(dose, probes, options);
    for (std::size_t i = 0; result && i < traces.size(); ++i)
        traces[i].discharge_m3s = result->probes[i].discharge_m3s;
    TestResult outcome = result ? told(test, result->flow,
                                       {exact("flow.detail_salt", result->mass_kg, Quantity::Mass),
                                        {"flow.detail_factor", factor.factor, Quantity::Number}})
                                : refused(test, result.error());
    outcome.findings.insert(outcome.findings.end(), findings.begin(), findings.end());
    outcome.traces = std::move(traces);
    return outcome;
}

TestResult constant_rate_result(const Survey& survey, const FlowTestRow& test) {
    ConstantRateInput input;
    const double injection = test.injection_m3s.value_or(0.0);
    const double tracer = test.tracer_kgm3.value_or(0.0);
    input.injection_m3s = {injection, kInjection_rel * injection};
    input.tracer_kgm3 = {tracer, kTracer_rel * tracer};
    const bool dye = test.tracer == kDyeTracer;
    const auto column = dye ? &FlowReadingRow::concentration_kgm3 : &FlowReadingRow::conductivity_Sm;
    for (const auto& [role, readings] :
         {std::pair(flow_role::kBackground, &input.background), std::pair(flow_role::kPlateau, &input.plateau)})
        for (const Booked<FlowReadingRow>& one : with_role(survey, test.id, role))
            if (!one.struck && one.row.*column)
                readings->push_back(*(one.row.*column));
    SaltFactor factor;
    if (!dye) {
        factor = salt_factor(survey, test);
        input.factor = factor.factor;
    }
    const Expected<ConstantRateResult> result = constant_rate(input);
    if (!result)
        return refused(test, result.error());
    TestResult outcome = told(test, result->flow, {exact("flow.detail_rise", result->rise_kgm3, Quantity::Density)});
    outcome.findings.insert(outcome.findings.end(), factor.findings.begin(), factor.findings.end());
    return outcome;
}

std::vector<HeadReading> heads_of(const Survey& survey, Id test) {
    std::vector<HeadReading> heads;
    for (const Booked<FlowReadingRow>& one : with_role(survey, test, flow_role::kHead))
        heads.push_back({one.row.id, one.row.head_m.value_or(0.0), one.struck});
    return heads;
}

TestResult weir_result(const Survey& survey, const FlowTestRow& test) {
    ThinPlateWeir weir;
    weir.shape = test.shape == "rectangular"  ? WeirShape::Rectangular
                 : test.shape == "cipolletti" ? WeirShape::Cipolletti
                                              : WeirShape::VNotch;
    if (test.notch_angle_deg)
        weir.notch_angle_rad = *test.notch_angle_deg * kRadiansPerDegree;
    weir.crest_length_m = test.crest_length_m;
    weir.crest_height_m = test.crest_height_m;
    weir.approach_width_m = test.width_m;
    weir.gauge_distance_m = test.gauge_distance_m;
    WeirOptions options;
    options.gauge.zero_m = test.gauge_zero_m.value_or(0.0);
    options.tailwater_m = test.tailwater_m;
    const Expected<WeirResult> result = thin_plate_weir(weir, heads_of(survey, test.id), options);
    if (!result)
        return refused(test, result.error());
    return told(test, result->flow,
                {exact("flow.detail_head", result->head_m, Quantity::Length),
                 exact("flow.detail_submergence", result->submergence_factor, Quantity::Ratio)});
}

TestResult flume_result(const Survey& survey, const FlowTestRow& test) {
    FlumeOptions options;
    options.gauge.zero_m = test.gauge_zero_m.value_or(0.0);
    options.downstream_head_m = test.tailwater_m;
    const Expected<FlumeResult> result = parshall_flume(test.flume_size, heads_of(survey, test.id), options);
    if (!result)
        return refused(test, result.error());
    return told(test, result->flow, {exact("flow.detail_head", result->head_m, Quantity::Length)});
}

TestResult slope_area_result(const Survey& survey, const FlowTestRow& test) {
    std::map<std::int64_t, SurveyedSection> sections;
    for (const Booked<FlowReadingRow>& one : with_role(survey, test.id, flow_role::kSection)) {
        if (one.struck)
            continue;
        SurveyedSection& section = sections[one.row.part];
        section.id = one.row.part;
        section.distance_m = one.row.length_m.value_or(section.distance_m);
        section.points.push_back({one.row.distance_m.value_or(0.0), one.row.height_m.value_or(0.0)});
    }
    std::vector<SurveyedSection> in_order;
    for (auto& [part, section] : sections)
        in_order.push_back(std::move(section));
    std::vector<HighWaterMark> marks;
    for (const Booked<FlowReadingRow>& one : with_role(survey, test.id, flow_role::kMark))
        marks.push_back({one.row.id, one.row.length_m.value_or(0.0), one.row.height_m.value_or(0.0), one.struck});
    const double n = test.manning_n.value_or(0.0);
    const Expected<SlopeAreaResult> result =
        slope_area(in_order, marks, {n, test.manning_n_u.value_or(kRoughness_rel * n)});
    if (!result)
        return refused(test, result.error());
    return told(test, result->flow, {exact("flow.detail_slope", result->slope, Quantity::Slope)});
}

} // namespace

TraceWindows windows_between(const PreparedTrace& trace, TraceWindows windows, std::optional<double> from_s,
                             std::optional<double> to_s) {
    if (from_s) {
        windows.start_s = *from_s;
        windows.before = TimeWindow{trace.time_s.front(), *from_s};
    }
    if (to_s) {
        windows.end_s = *to_s;
        windows.after = TimeWindow{*to_s, trace.time_s.back()};
    }
    return windows;
}

Expected<SlugTrace> slug_trace(const Survey& survey, const FlowTestRow& test, std::int64_t probe) {
    std::vector<TraceReading> readings;
    SlugTrace trace;
    for (const Booked<FlowReadingRow>& one : with_role(survey, test.id, flow_role::kTrace))
        if (one.row.part == probe) {
            readings.push_back(
                {one.row.time_s.value_or(0.0), one.row.conductivity_Sm, one.row.temperature_C, one.struck});
            trace.reading_ids.push_back(one.row.id);
        }
    TraceOptions options;
    options.correction = test.temperature_rule == "iso-7888" ? ConductivityCorrection::NonLinear
                         : test.temperature_rule == "linear" ? ConductivityCorrection::Linear
                                                             : ConductivityCorrection::AsRead;
    Expected<PreparedTrace> prepared = prepare_trace(readings, options);
    if (!prepared)
        return prepared.error();
    trace.prepared = std::move(prepared).value();
    trace.windows = suggest_windows(trace.prepared);
    trace.windows = windows_between(trace.prepared, trace.windows, test.trace_from_s, test.trace_to_s);
    const Expected<TraceIntegral> integral = integrate_trace(trace.prepared, trace.windows);
    if (!integral)
        return integral.error();
    trace.integral = *integral;
    return trace;
}

TestResult flow_reading_result(const Survey& survey, const FlowTestRow& test, FlowMethod method) {
    switch (method) {
    case FlowMethod::Float:
        return float_result(survey, test);
    case FlowMethod::SaltSlug:
        return slug_result(survey, test);
    case FlowMethod::ConstantRate:
        return constant_rate_result(survey, test);
    case FlowMethod::Weir:
        return weir_result(survey, test);
    case FlowMethod::Flume:
        return flume_result(survey, test);
    case FlowMethod::SlopeArea:
        return slope_area_result(survey, test);
    case FlowMethod::Container:
    case FlowMethod::VelocityArea:
        break; // in tables of their own
    }
    return refused(test, warning("site.unknown_flow_method", test.name, {{"method", test.method}}));
}

} // namespace rillmark
