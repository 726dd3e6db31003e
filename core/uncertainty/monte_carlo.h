// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "uncertainty/propagate.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <random>
#include <vector>

namespace rillmark {

/// Draws from the normal distribution, the same ones on every computer for the same engine (std::normal_distribution
/// may differ): G. Marsaglia's polar method (G. Marsaglia, T. A. Bray, SIAM Review 6, 1964, 260).
class NormalDraws {
public:
    /// `engine` must outlive the draws.
    explicit NormalDraws(std::mt19937_64& engine) : m_engine(engine) {}
    [[nodiscard]] double next();
    /// One of a rectangular distribution with the same mean and spread: zero and one.
    [[nodiscard]] double next_rectangular();

private:
    std::mt19937_64& m_engine;
    double m_spare = 0.0;
    bool m_has_spare = false;
};

/// What many draws of the inputs make of a result (JCGM 101:2008, 7.6 and 7.7).
struct DrawnEstimate {
    Estimate estimate; // mean and standard deviation
    // The interval that leaves as much out on either side as +/- k = 2 does of a normal distribution (4.55 % in all)
    double low = 0.0;
    double high = 0.0;
    std::size_t draws = 0;
};

inline constexpr std::size_t kUsualDraws = 100'000;
// Between two looks at `keep_going`; our choice, a few milliseconds of the chain.
inline constexpr std::size_t kDrawsAtATime = 2'000;

struct DrawOptions {
    std::size_t draws = kUsualDraws; // 1000 to 10 million
    // Asked from time to time with the part that is done; false ends it. Empty: never asked.
    std::function<bool(double done)> keep_going;
    // Places of the inputs that are anything between two limits, each half a width of sqrt(3) u off (JCGM 101:2008,
    // 6.4.2); the others are normal; a place that there is not is passed over.
    std::vector<std::size_t> rectangular;
};

/// Propagation of distributions by drawing (JCGM 101:2008, clause 7), every input independent and of its
/// shape and standard uncertainty; a model that has bounds keeps its arguments within them. The engine is passed in, so that the
/// same seed gives the same figures. Accuracy: with 100,000 draws the standard deviation is known to 0.3 %, the ends of
/// the interval to 1 % of it.
/// Refuses as propagate does, a count of draws out of range (`uncertainty.bad_draws`), a draw without a result
/// (`uncertainty.draw_without_result`) and when it is told to end (`uncertainty.cancelled`).
[[nodiscard]] Expected<DrawnEstimate> draw_estimate(const std::vector<ModelInput>& inputs, const Model& model,
                                                    std::mt19937_64& engine, const DrawOptions& options = {});

// Part of the +/- by which the ends of both intervals may differ before both are shown; our choice, for a first
// estimate. JCGM 101:2008, clause 8 compares the same ends.
inline constexpr double kFirstOrderTolerance = 0.05;

/// Whether first order and the draws tell a different story: an end of y +/- U lies more than that part of U from the
/// end of the drawn interval.
[[nodiscard]] bool first_order_differs(const Estimate& first_order, const DrawnEstimate& drawn);

} // namespace rillmark
