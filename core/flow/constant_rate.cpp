// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/constant_rate.h"

#include "flow/limits.h"
#include "flow/salt_calibration.h"
#include "flow/student_factor.h"
#include "flow/tracer_input.h"
#include "uncertainty/propagate.h"
#include "units/in_range.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace rillmark {

namespace {

constexpr double kLeastInjection_m3s = 1e-9;
constexpr double kMostInjection_m3s = 10.0;
constexpr double kWeakestTracer_kgm3 = 1e-9;
constexpr double kStrongestTracer_kgm3 = 2000.0;
constexpr double kHighestReading = 2000.0;
// Our own choice: below this the law of propagation, which takes the flow as straight around the plateau, fails.
constexpr double kRiseOverDoubt = 4.0;

bool sound(const Estimate& estimate, double low, double high) {
    return in_range(estimate.value, low, high) &&
           in_range(estimate.standard_uncertainty, 0.0, kLargest_u_rel * estimate.value);
}

std::optional<Finding> check_readings(const std::vector<double>& readings, const char* where) {
    if (readings.empty())
        return refusal("flow.no_plateau", where);
    for (std::size_t i = 0; i < readings.size(); ++i)
        if (!in_range(readings[i], 0.0, kHighestReading))
            return bad_row_value("flow.bad_tracer_reading", where, i, readings[i], Quantity::Number);
    return std::nullopt;
}

std::optional<Finding> check_input(const ConstantRateInput& input) {
    if (!sound(input.injection_m3s, kLeastInjection_m3s, kMostInjection_m3s))
        return refusal("flow.bad_injection", "injection_m3s",
                       {{"value", input.injection_m3s.value, Quantity::Discharge}});
    if (!sound(input.tracer_kgm3, kWeakestTracer_kgm3, kStrongestTracer_kgm3))
        return refusal("flow.bad_solution", "tracer_kgm3", {{"value", input.tracer_kgm3.value, Quantity::Density}});
    if (input.factor && !sound(*input.factor, 1e-9, 1e9))
        return refusal("flow.bad_factor", "factor",
                       {{"factor", input.factor->value / kGenericSaltFactor.value, Quantity::Number}});
    if (!in_range(input.reading_u, 0.0, kHighestReading))
        return bad_option("reading_u", input.reading_u, Quantity::Number);
    if (!in_range(input.mixing_u_rel, 0.0, kLargest_u_rel))
        return bad_option("mixing_u_rel", input.mixing_u_rel, Quantity::Ratio);
    if (const std::optional<Finding> bad = check_readings(input.background, "background"))
        return bad;
    return check_readings(input.plateau, "plateau");
}

double mean(std::span<const double> readings) {
    double sum = 0.0;
    for (const double reading : readings)
        sum += reading;
    return sum / static_cast<double>(readings.size());
}

Estimate mean_estimate(std::span<const double> readings, double reading_u) {
    const double level = mean(readings);
    const double root = std::sqrt(static_cast<double>(readings.size()));
    if (readings.size() < 2)
        return {level, reading_u};
    double sum = 0.0;
    for (const double reading : readings)
        sum += (reading - level) * (reading - level);
    const double scatter = std::sqrt(sum / static_cast<double>(readings.size() - 1));
    const double by_scatter = scatter * student_factor(static_cast<int>(readings.size()) - 1);
    return {level, std::max(by_scatter, reading_u) / root};
}

Findings findings_of(const ConstantRateInput& input, double rise) {
    Findings findings;
    const std::span<const double> plateau(input.plateau);
    if (plateau.size() < static_cast<std::size_t>(kMinimumPlateauReadings))
        findings.push_back(note("flow.few_plateau_readings", {},
                                {{"count", static_cast<std::int64_t>(plateau.size())},
                                 {"needed", static_cast<std::int64_t>(kMinimumPlateauReadings)}}));
    if (plateau.size() < 2)
        return findings;
    const std::size_t half = plateau.size() / 2;
    const double change = mean(plateau.last(half)) - mean(plateau.first(half));
    if (std::abs(change) > kLargePlateauChange_rel * rise)
        findings.push_back(warning("flow.plateau_not_steady", {}, {{"change", change / rise, Quantity::Ratio}}));
    return findings;
}

} // namespace

Expected<ConstantRateResult> constant_rate(const ConstantRateInput& input) {
    if (const std::optional<Finding> bad = check_input(input))
        return *bad;
    const bool by_factor = input.factor.has_value();
    const Estimate background = mean_estimate(input.background, input.reading_u);
    const Estimate plateau = mean_estimate(input.plateau, input.reading_u);
    const double rise = plateau.value - background.value;
    if (!(rise > kRiseOverDoubt * std::hypot(background.standard_uncertainty, plateau.standard_uncertainty)))
        return refusal("flow.plateau_not_above");
    const Estimate factor = input.factor.value_or(Estimate{1.0, 0.0});
    const double plateau_kgm3 = factor.value * (by_factor ? rise : plateau.value);
    if (!(plateau_kgm3 < input.tracer_kgm3.value))
        return refusal(
            "flow.plateau_above_solution", {},
            {{"plateau", plateau_kgm3, Quantity::Density}, {"solution", input.tracer_kgm3.value, Quantity::Density}});

    const Model flow = [by_factor](std::span<const double> x) {
        const double rise_kgm3 = x[2] * (x[4] - x[3]);
        const double at_plateau_kgm3 = by_factor ? rise_kgm3 : x[4];
        return x[5] * x[0] * (x[1] - at_plateau_kgm3) / rise_kgm3;
    };
    Expected<Budgeted> discharge = propagate({{"flow.injection_rate", {}, input.injection_m3s},
                                              {"flow.tracer_solution", {}, input.tracer_kgm3},
                                              {"flow.salt_factor", {}, factor},
                                              {"flow.tracer_background", {}, background},
                                              {"flow.tracer_plateau", {}, plateau},
                                              {"flow.salt_mixing", {}, {1.0, input.mixing_u_rel}}},
                                             flow);
    if (!discharge)
        return discharge.error();
    ConstantRateResult result;
    result.flow = {FlowMethod::ConstantRate, std::move(discharge).value(), findings_of(input, rise)};
    result.at_sampler_m3s = result.flow.discharge.estimate.value + input.injection_m3s.value;
    result.rise_kgm3 = factor.value * rise;
    return result;
}

} // namespace rillmark
