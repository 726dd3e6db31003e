// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/serial_mean.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace rillmark {

namespace {

double lagged_product(const std::vector<double>& departures, std::size_t lag) {
    return std::inner_product(departures.begin() + static_cast<std::ptrdiff_t>(lag), departures.end(),
                              departures.begin(), 0.0);
}

} // namespace

SerialMean serial_mean(std::span<const double> values) {
    SerialMean result;
    result.n = values.size();
    const double n = static_cast<double>(result.n);
    std::vector<double> departures;
    departures.reserve(values.size());
    for (const double value : values)
        departures.push_back(value - values.front()); // keeps the digits of a small scatter about a large value
    const double shift = std::accumulate(departures.begin(), departures.end(), 0.0) / n;
    for (double& departure : departures)
        departure -= shift;
    result.mean = values.front() + shift;

    const double sum_of_squares = lagged_product(departures, 0);
    if (result.n < 2 || sum_of_squares <= 0.0) {
        result.effective_n = n;
        return result;
    }
    result.scatter = std::sqrt(sum_of_squares / (n - 1.0));
    double tau = 1.0;
    for (std::size_t lag = 1; lag < result.n && tau < n / 2.0; ++lag) {
        const double autocorrelation = lagged_product(departures, lag) / sum_of_squares;
        if (autocorrelation <= 0.0)
            break;
        tau += 2.0 * (1.0 - static_cast<double>(lag) / n) * autocorrelation;
    }
    tau = std::clamp(tau, 1.0, std::max(1.0, n / 2.0));
    result.effective_n = n / tau;
    result.standard_uncertainty = result.scatter * std::sqrt((n - 1.0) / (n - tau) * tau / n);
    return result;
}

} // namespace rillmark
