// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>

namespace rillmark {

/// The mean of readings taken in quick succession, with an uncertainty that knows that neighbours go together.
struct SerialMean {
    double mean = 0.0;
    double scatter = 0.0;              // standard deviation of one reading about the mean (n - 1); 0 for one reading
    double effective_n = 1.0;          // how many independent readings they are worth, 1..n
    double standard_uncertainty = 0.0; // of the mean, from the scatter alone
    std::size_t n = 0;
};

/// Fewer independent readings than this make the uncertainty itself uncertain: hold longer (common practice, no source;
/// see the simulation below).
inline constexpr double kEnoughIndependent = 10.0;

/// Averages equally spaced readings in the order taken. `values`: at least one, all finite (the caller has checked),
/// any unit; the result is in that unit.
///
/// A hand that sways and a sensor that filters make successive readings alike, so s/sqrt(n) is far too small. With the
/// sample autocorrelations r(k), taken up to the first that is not above zero,
///     tau = 1 + 2 sum of (1 - k/n) r(k),   n_eff = n / tau,   u^2 = s^2 (n - 1)/(n - tau) tau/n
/// where (n - 1)/(n - tau) undoes what s loses because the mean was taken from the same readings; tau is held
/// to 1..n/2. Form: N. F. Zhang, Calculation of the uncertainty of the mean of autocorrelated measurements, Metrologia
/// 43 (2006), S276 (from memory, unconfirmed); the cut-off is our choice, no source. Accuracy: what is slower than the
/// series is long cannot be seen in it, so u is too small where effective_n is below kEnoughIndependent. In the
/// simulation of the test (a first-order process), +/- 2 u holds the truth in 89 to 97 % of series worth 13 or more
/// independent readings, in as little as 70 % of those worth three.
[[nodiscard]] SerialMean serial_mean(std::span<const double> values);

} // namespace rillmark
