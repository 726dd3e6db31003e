// SPDX-License-Identifier: GPL-3.0-or-later
#include "uncertainty/propagate.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace rillmark {

namespace {

/// A smaller step, relative to the value, would be lost in the rounding of a double.
constexpr double kSmallestRelativeStep = 1e-9;

/// A variance below zero by more than rounding, relative to the uncorrelated one, comes from impossible correlations.
constexpr double kRoundingOfVariance = 1e-9;

Expected<double> sensitivity(const Model& model, std::vector<double> at, std::size_t index, const ModelInput& input) {
    const double centre = at[index];
    const double step = std::max(input.estimate.standard_uncertainty, kSmallestRelativeStep * std::abs(centre));
    at[index] = centre + step;
    const double above = model(at);
    at[index] = centre - step;
    const double below = model(at);
    if (!std::isfinite(above) || !std::isfinite(below))
        return refusal("uncertainty.not_finite", input.input);
    return (above - below) / (2.0 * step);
}

} // namespace

Expected<Budgeted> propagate(const std::vector<ModelInput>& inputs, const Model& model,
                             const std::vector<Correlation>& correlations) {
    std::vector<double> values;
    values.reserve(inputs.size());
    for (const ModelInput& input : inputs) {
        if (!std::isfinite(input.estimate.value) || !std::isfinite(input.estimate.standard_uncertainty))
            return refusal("uncertainty.not_finite", input.input);
        if (input.estimate.standard_uncertainty < 0.0)
            return refusal("uncertainty.negative", input.input);
        values.push_back(input.estimate.value);
    }
    const double value = model(values);
    if (!std::isfinite(value))
        return refusal("uncertainty.not_finite");

    std::vector<double> contributions; // signed: sensitivity x standard uncertainty
    contributions.reserve(inputs.size());
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        if (inputs[i].estimate.standard_uncertainty ==
            0.0) { // an exact input may stand at the edge of the model's domain
            contributions.push_back(0.0);
            continue;
        }
        const Expected<double> slope = sensitivity(model, values, i, inputs[i]);
        if (!slope)
            return slope.error();
        contributions.push_back(*slope * inputs[i].estimate.standard_uncertainty);
    }
    std::vector<double> variance_part(inputs.size());
    double uncorrelated = 0.0;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        variance_part[i] = contributions[i] * contributions[i];
        uncorrelated += variance_part[i];
    }
    std::set<std::pair<std::size_t, std::size_t>> correlated;
    for (const Correlation& c : correlations) {
        if (c.first >= inputs.size() || c.second >= inputs.size() || c.first == c.second ||
            !(std::abs(c.coefficient) <= 1.0) || !correlated.insert(std::minmax(c.first, c.second)).second)
            return refusal("uncertainty.bad_correlation");
        const double shared = contributions[c.first] * contributions[c.second] * c.coefficient;
        variance_part[c.first] += shared;
        variance_part[c.second] += shared;
    }
    double variance = 0.0;
    for (const double part : variance_part)
        variance += part;
    if (variance < -kRoundingOfVariance * uncorrelated)
        return refusal("uncertainty.bad_correlation");
    variance = std::max(variance, 0.0);

    Budgeted result;
    result.estimate = {value, std::sqrt(variance)};
    for (std::size_t i = 0; i < inputs.size(); ++i)
        result.budget.push_back({inputs[i].input, inputs[i].subject, std::abs(contributions[i]),
                                 variance > 0.0 ? variance_part[i] / variance : 0.0});
    std::stable_sort(result.budget.begin(), result.budget.end(),
                     [](const BudgetLine& a, const BudgetLine& b) { return a.share > b.share; });
    return result;
}

Expected<WeightedMean> weighted_mean(const std::vector<Estimate>& estimates) {
    if (estimates.empty())
        return refusal("uncertainty.nothing_to_average");
    double smallest = estimates.front().standard_uncertainty;
    for (const Estimate& e : estimates) {
        if (!std::isfinite(e.value) || !std::isfinite(e.standard_uncertainty) || e.standard_uncertainty <= 0.0)
            return refusal("uncertainty.no_weight");
        smallest = std::min(smallest, e.standard_uncertainty);
    }
    WeightedMean mean;
    double weight_sum = 0.0;
    for (const Estimate& e : estimates) {
        const double relative = smallest / e.standard_uncertainty; // 1/u^2 itself could overflow
        mean.weights.push_back(relative * relative);
        weight_sum += mean.weights.back();
    }
    mean.estimate.standard_uncertainty = smallest / std::sqrt(weight_sum);
    for (std::size_t i = 0; i < estimates.size(); ++i) {
        mean.weights[i] /= weight_sum;
        mean.estimate.value += mean.weights[i] * estimates[i].value;
    }
    if (estimates.size() > 1) {
        double chi_squared = 0.0;
        for (const Estimate& e : estimates) {
            const double z = (e.value - mean.estimate.value) / e.standard_uncertainty;
            chi_squared += z * z;
        }
        const double ratio = std::sqrt(chi_squared / static_cast<double>(estimates.size() - 1));
        mean.birge_ratio = std::max(1.0, ratio);
        mean.estimate.standard_uncertainty *= mean.birge_ratio;
    }
    if (!std::isfinite(mean.estimate.value) || !std::isfinite(mean.estimate.standard_uncertainty))
        return refusal("uncertainty.not_finite");
    return mean;
}

} // namespace rillmark
