// SPDX-License-Identifier: GPL-3.0-or-later
#include "uncertainty/monte_carlo.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rillmark {

namespace {

constexpr std::size_t kFewestDraws = 1'000;
constexpr std::size_t kMostDraws = 10'000'000;
// Part of a normal distribution beyond two standard deviations on one side.
constexpr double kTail = 0.022750131948179195;
// 2^-52: the upper 53 bits of the engine become an even number in -1..1.
constexpr double kUnit = 0x1.0p-52;
constexpr int kBitsDropped = 11;

Expected<void> check_inputs(const std::vector<ModelInput>& inputs) {
    for (const ModelInput& input : inputs) {
        if (!std::isfinite(input.estimate.value) || !std::isfinite(input.estimate.standard_uncertainty))
            return refusal("uncertainty.not_finite", input.input);
        if (input.estimate.standard_uncertainty < 0.0)
            return refusal("uncertainty.negative", input.input);
    }
    return {};
}

double quantile(std::vector<double>& values, double part) {
    const auto place = static_cast<std::ptrdiff_t>(part * static_cast<double>(values.size() - 1) + 0.5);
    std::nth_element(values.begin(), values.begin() + place, values.end());
    return values[static_cast<std::size_t>(place)];
}

DrawnEstimate summed_up(std::vector<double>& values) {
    DrawnEstimate drawn;
    drawn.draws = values.size();
    // around the first value, so that nothing is lost where the spread is small
    const double shift = values.front();
    double sum = 0.0;
    double squares = 0.0;
    for (const double value : values) {
        sum += value - shift;
        squares += (value - shift) * (value - shift);
    }
    const double count = static_cast<double>(values.size());
    drawn.estimate.value = shift + sum / count;
    drawn.estimate.standard_uncertainty = std::sqrt(std::max(squares - sum * sum / count, 0.0) / (count - 1.0));
    drawn.low = quantile(values, kTail);
    drawn.high = quantile(values, 1.0 - kTail);
    return drawn;
}

} // namespace

double NormalDraws::next() {
    if (m_has_spare) {
        m_has_spare = false;
        return m_spare;
    }
    double u = 0.0;
    double v = 0.0;
    double s = 0.0;
    do {
        u = static_cast<double>(m_engine() >> kBitsDropped) * kUnit - 1.0;
        v = static_cast<double>(m_engine() >> kBitsDropped) * kUnit - 1.0;
        s = u * u + v * v;
    } while (s >= 1.0 || s == 0.0);
    const double scale = std::sqrt(-2.0 * std::log(s) / s);
    m_spare = v * scale;
    m_has_spare = true;
    return u * scale;
}

double NormalDraws::next_rectangular() {
    return std::numbers::sqrt3 * (static_cast<double>(m_engine() >> kBitsDropped) * kUnit - 1.0);
}

Expected<DrawnEstimate> draw_estimate(const std::vector<ModelInput>& inputs, const Model& model,
                                      std::mt19937_64& engine, const DrawOptions& options) {
    if (options.draws < kFewestDraws || options.draws > kMostDraws)
        return refusal("uncertainty.bad_draws", {},
                       {{"draws", static_cast<double>(options.draws)},
                        {"lowest", static_cast<double>(kFewestDraws)},
                        {"highest", static_cast<double>(kMostDraws)}});
    if (const Expected<void> check = check_inputs(inputs); !check)
        return check.error();
    NormalDraws draws(engine);
    std::vector<char> rectangular(inputs.size(), 0);
    for (const std::size_t place : options.rectangular)
        if (place < rectangular.size())
            rectangular[place] = 1;
    std::vector<double> x(inputs.size());
    std::vector<double> values;
    values.reserve(options.draws);
    while (values.size() < options.draws) {
        if (options.keep_going && values.size() % kDrawsAtATime == 0 &&
            !options.keep_going(static_cast<double>(values.size()) / static_cast<double>(options.draws)))
            return refusal("uncertainty.cancelled");
        for (std::size_t i = 0; i < x.size(); ++i) {
            const Estimate& one = inputs[i].estimate;
            x[i] = one.value;
            if (one.standard_uncertainty > 0.0)
                x[i] += one.standard_uncertainty * (rectangular[i] != 0 ? draws.next_rectangular() : draws.next());
        }
        const double value = model(x);
        if (!std::isfinite(value))
            return refusal("uncertainty.draw_without_result");
        values.push_back(value);
    }
    const DrawnEstimate drawn = summed_up(values);
    if (!std::isfinite(drawn.estimate.standard_uncertainty))
        return refusal("uncertainty.not_finite");
    return drawn;
}

bool first_order_differs(const Estimate& first_order, const DrawnEstimate& drawn) {
    const double allowed = kFirstOrderTolerance * first_order.expanded();
    return std::abs(first_order.value - first_order.expanded() - drawn.low) > allowed ||
           std::abs(first_order.value + first_order.expanded() - drawn.high) > allowed;
}

} // namespace rillmark
