// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "uncertainty/estimate.h"

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <vector>

namespace rillmark {

/// A named input of a measurement model.
struct ModelInput {
    std::string input;   // code, as in BudgetLine::input
    std::string subject; // as in BudgetLine::subject
    Estimate estimate;
};

/// Correlation of two inputs that share a source (the same meter, the same gravity, the same bench mark).
struct Correlation {
    std::size_t first = 0;
    std::size_t second = 0;
    double coefficient = 0.0; // -1..1
};

using Model = std::function<double(std::span<const double>)>;

/// Law of propagation of uncertainty, first order (JCGM 100:2008, equations 10 and 13), with sensitivities by central
/// differences of one standard uncertainty (JCGM 100:2008, 5.1.3 note 2), or of 1e-9 of the value where that is more.
/// An input with zero uncertainty is exact: it has no part in the variance and the model is not tried around it.
///
/// Refuses: a model or input that is not finite (`uncertainty.not_finite`), a negative standard uncertainty
/// (`uncertainty.negative`), and, as `uncertainty.bad_correlation`, a coefficient outside -1..1, an index out of range, a
/// pair given twice, or coefficients that cannot hold together (the variance would be negative).
/// Accuracy: exact for linear models; second-order terms are left out (GUM 5.1.2 note). Checked against GUM H.2.
[[nodiscard]] Expected<Budgeted> propagate(const std::vector<ModelInput>& inputs, const Model& model,
                                           const std::vector<Correlation>& correlations = {});

/// Weighted mean of independent estimates by 1/u^2. When the scatter is more than their uncertainties explain, u is
/// enlarged by the Birge ratio sqrt(chi2/(n-1)) (R. T. Birge, Phys. Rev. 40, 1932, 207). Refuses an empty list
/// (`uncertainty.nothing_to_average`), inputs that are not finite or have no uncertainty above zero
/// (`uncertainty.no_weight`), and a result beyond the range of a double (`uncertainty.not_finite`).
struct WeightedMean {
    Estimate estimate;
    double birge_ratio = 1.0; // 1 when n = 1 or when the scatter is explained
    std::vector<double> weights; // sum 1, in the order of the inputs
};
[[nodiscard]] Expected<WeightedMean> weighted_mean(const std::vector<Estimate>& estimates);

} // namespace rillmark
