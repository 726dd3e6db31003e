// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/conductivity_temperature.h"

#include "flow/limits.h"
#include "flow/tracer_input.h"
#include "units/in_range.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace rillmark {

namespace {

// ISO 7888:1985 / EN 27888, correction factors f25 for whole degrees from 0.
constexpr std::array kF25{1.918, 1.857, 1.800, 1.745, 1.693, 1.643, 1.596, 1.551, 1.508, 1.467, 1.428, 1.390,
                          1.354, 1.320, 1.287, 1.256, 1.225, 1.196, 1.168, 1.141, 1.116, 1.091, 1.067, 1.044,
                          1.021, 1.000, 0.979, 0.959, 0.940, 0.921, 0.903, 0.886, 0.869, 0.853, 0.837, 0.822};
constexpr double kWarmest_degC = static_cast<double>(kF25.size() - 1);
constexpr double kReference_degC = 25.0;
constexpr double kLowestAlpha_per_K = 0.015;
constexpr double kHighestAlpha_per_K = 0.025;

} // namespace

Expected<double> natural_water_f25(double temperature_degC) {
    if (!in_range(temperature_degC, 0.0, kWarmest_degC))
        return refusal("flow.bad_water_temperature", "temperature_degC",
                       {{"value", temperature_degC, Quantity::Temperature}});
    const auto below = std::min(static_cast<std::size_t>(temperature_degC), kF25.size() - 2);
    return std::lerp(kF25[below], kF25[below + 1], temperature_degC - static_cast<double>(below));
}

Expected<double> conductivity_at_25(double ec_Sm, double temperature_degC, ConductivityCorrection correction,
                                    double alpha_per_K) {
    if (!in_range(ec_Sm, 0.0, kHighest_Sm))
        return refusal("flow.bad_conductivity", "ec_Sm", {{"value", ec_Sm, Quantity::Conductivity}});
    if (correction == ConductivityCorrection::AsRead)
        return ec_Sm;
    const Expected<double> f25 = natural_water_f25(temperature_degC);
    if (!f25)
        return f25.error();
    if (correction == ConductivityCorrection::NonLinear)
        return ec_Sm * *f25;
    if (!in_range(alpha_per_K, kLowestAlpha_per_K, kHighestAlpha_per_K))
        return bad_option("alpha_per_K", alpha_per_K, Quantity::Number);
    return ec_Sm / (1.0 + alpha_per_K * (temperature_degC - kReference_degC));
}

} // namespace rillmark
