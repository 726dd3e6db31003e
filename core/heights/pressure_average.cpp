// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/pressure_average.h"

#include "heights/serial_mean.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace rillmark {

namespace {

constexpr double kLargestNoise_pa = 1000.0;

std::optional<Finding> fault(std::span<const PressureSample> samples) {
    double before_s = samples.front().time_s;
    for (const PressureSample& sample : samples) {
        if (!(sample.pressure_pa >= kLowestPressure_pa && sample.pressure_pa <= kHighestPressure_pa))
            return refusal("levels.pressure_out_of_range", "",
                           {{"pressure", sample.pressure_pa, Quantity::Pressure},
                            {"lowest", kLowestPressure_pa, Quantity::Pressure},
                            {"highest", kHighestPressure_pa, Quantity::Pressure}});
        if (!std::isfinite(sample.time_s) || sample.time_s < before_s ||
            (sample.temperature_c && !std::isfinite(*sample.temperature_c)))
            return refusal("levels.pressure_bad_reading");
        before_s = sample.time_s;
    }
    return {};
}

std::optional<double> mean_temperature_c(std::span<const PressureSample> samples) {
    std::vector<double> given_c;
    for (const PressureSample& sample : samples)
        if (sample.temperature_c)
            given_c.push_back(*sample.temperature_c);
    return given_c.empty() ? std::optional<double>{} : serial_mean(given_c).mean;
}

} // namespace

Expected<AveragedPressure> average_pressure(std::span<const PressureSample> samples, double noise_pa) {
    if (!(noise_pa > 0.0 && noise_pa <= kLargestNoise_pa))
        return refusal("levels.pressure_bad_noise", "",
                       {{"noise", noise_pa, Quantity::Pressure}, {"limit", kLargestNoise_pa, Quantity::Pressure}});
    if (samples.empty())
        return refusal("levels.pressure_too_few");
    if (std::optional<Finding> why = fault(samples))
        return *why;

    std::vector<double> pressures_pa;
    for (const PressureSample& sample : samples)
        pressures_pa.push_back(sample.pressure_pa);
    const SerialMean pressure = serial_mean(pressures_pa);
    AveragedPressure result;
    result.pressure_pa = {pressure.mean, std::max(pressure.standard_uncertainty, noise_pa)};
    result.scatter_pa = pressure.scatter;
    result.seconds = samples.back().time_s - samples.front().time_s;
    result.effective_n = pressure.effective_n;
    result.n = pressure.n;
    result.temperature_c = mean_temperature_c(samples);
    if (result.scatter_pa > kPressureScatterLimit_pa)
        result.findings.push_back(warning("levels.pressure_unsteady", "",
                                          {{"scatter", result.scatter_pa, Quantity::Pressure},
                                           {"limit", kPressureScatterLimit_pa, Quantity::Pressure}}));
    if (result.seconds < kAdvisedPressureTime_s)
        result.findings.push_back(
            note("levels.pressure_short", "",
                 {{"time", result.seconds, Quantity::Time}, {"advised", kAdvisedPressureTime_s, Quantity::Time}}));
    return result;
}

} // namespace rillmark
