// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "uncertainty/estimate.h"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// An error that several readings have in common: the eye height of one observer, the zero of one gauge. Readings with
/// the same key share one unknown, which the adjustment estimates from its own uncertainty and from the readings.
struct SharedEffect {
    std::string key;       // of the cause within the network: "eye-height:4711"
    std::string source;    // code, as in BudgetLine::input ("levels.eye_height")
    double effect_m = 0.0; // what one standard uncertainty of the cause adds to the rise, with its sign
};

/// Evidence of height between two points, by any method: H(to) - H(from) = rise, with its standard uncertainty.
struct HeightDifference {
    std::int64_t id = 0;
    std::string from;
    std::string to;
    double rise_m = 0.0;
    double standard_uncertainty_m = 0.0; // > 0
    std::string source;                  // code of the method ("levels.staff_reading"), as in BudgetLine::input
    std::string subject;                 // what the user calls it (point or book), as in BudgetLine::subject
    std::vector<SharedEffect> shared = {}; // beyond the standard uncertainty above, which is its own alone
};

/// A height given from outside: a bench mark, or the height from a receiver.
struct KnownHeight {
    std::string point;
    Estimate height;    // m above the project's datum
    bool fixed = false; // true: part of the datum, its uncertainty is not used; false: one observation among the others
    std::int64_t id = 0; // of the observation, where it is not fixed
    std::string source = "levels.known_height"; // as BudgetLine::input
    std::vector<SharedEffect> shared = {}; // of one that is not fixed: what receiver heights have in common
};

struct AdjustOptions {
    /// The point whose height is 0 when no height is known; default: the first point of the first difference.
    std::optional<std::string> datum_point;
};

struct PointHeight {
    std::string point;
    Estimate height; // standard uncertainty relative to the datum, from the a-priori uncertainties
};

/// What the adjustment says of one observation, in the order of the input; heights known but not fixed follow.
struct AdjustedObservation {
    std::int64_t id = 0;
    std::string source;
    std::string subject;
    double residual_m = 0.0;                   // adjusted - observed, shared errors taken out
    double redundancy = 0.0;                   // 0: nothing checks it .. 1: entirely checked by the others
    std::optional<double> normalised_residual; // residual / its standard uncertainty; missing where nothing checks it
    std::optional<double> smallest_found_m;    // smallest gross error that would be found, see kNonCentrality
    bool outlier = false;                      // |normalised residual| above kOutlierLimit (sight_judgement.h)
};

/// What the adjustment says of a shared error, in units of its own standard uncertainty: 0 +/- 1 where nothing tells.
struct SharedEstimate {
    std::string key;
    std::string source;
    Estimate value;
};

/// A height difference that could be measured, and how well.
struct PlannedDifference {
    std::string from;
    std::string to;
    double standard_uncertainty_m = 0.0; // > 0
};

/// A gross error of this many standard uncertainties / sqrt(redundancy) is found with a probability of 80 % by a test
/// that rejects 0.1 % of good observations: the normal quantiles 3.29 and 0.84 (W. Baarda, as kOutlierLimit).
inline constexpr double kNonCentrality = 4.13;

/// Global test of the adjustment: sum of (residual / standard uncertainty)^2 against chi-square at 95 %.
struct GlobalTest {
    double value = 0.0;
    std::size_t degrees_of_freedom = 0;
    double limit = 0.0;
    [[nodiscard]] bool passes() const { return value <= limit; }
    /// Standard deviation of unit weight, sqrt(value / degrees of freedom): 1 where the uncertainties are right.
    [[nodiscard]] double s0() const;
};

/// A difference of two adjusted heights and which readings made its uncertainty, largest share first.
struct DifferenceBudget {
    Estimate difference;            // H(to) - H(from)
    std::vector<BudgetLine> budget; // contributions squared sum to the variance
    std::vector<std::int64_t> ids;  // of the observation of each line; 0 for a shared error
};

class NetworkSolution;

/// A network after adjustment. Cheap to copy; safe to read from several threads.
class AdjustedNetwork {
public:
    explicit AdjustedNetwork(std::shared_ptr<const NetworkSolution> solution);

    /// Points joined to the datum, in the order in which they were first named. Set-ups (instrument_node) are left out.
    [[nodiscard]] const std::vector<PointHeight>& heights() const;
    [[nodiscard]] std::optional<Estimate> height(const std::string& point) const;
    [[nodiscard]] const std::vector<AdjustedObservation>& observations() const;
    /// The shared errors, in the order in which they were first named.
    [[nodiscard]] const std::vector<SharedEstimate>& shared() const;
    /// Missing where nothing is measured more than once.
    [[nodiscard]] const std::optional<GlobalTest>& global_test() const;
    /// Points that no observation joins to the datum, group by group.
    [[nodiscard]] const std::vector<std::vector<std::string>>& unconnected() const;
    /// `levels.network_unconnected` for each such group, `levels.network_test_failed`, `levels.observation_outlier`.
    [[nodiscard]] const Findings& findings() const;

    /// H(to) - H(from) from the full covariance, also within a group that is not joined to the datum.
    /// Refuses unknown points (`levels.point_unknown`) and points that nothing joins (`levels.points_not_joined`).
    [[nodiscard]] Expected<Estimate> difference(const std::string& from, const std::string& to) const;
    [[nodiscard]] Expected<DifferenceBudget> difference_budget(const std::string& from, const std::string& to) const;

    /// Standard uncertainty of H(to) - H(from) were each of the planned differences measured once more, alone; unchanged
    /// where its points are not joined. The variance falls by (a'q)^2 / (u^2 + variance of the planned difference), q the
    /// response of the difference: the update of a least-squares solution by one observation (exact; Sherman-Morrison).
    [[nodiscard]] Expected<std::vector<double>> uncertainty_with(const std::string& from, const std::string& to,
                                                                 const std::vector<PlannedDifference>& planned) const;

    /// Fall of every point below one of them (the intake water level): H(point) - H(each), down positive. Lists all
    /// points that are joined to it, also where that group is not joined to the datum; the point itself has 0 +/- 0.
    /// Refuses an unknown point (`levels.point_unknown`).
    [[nodiscard]] Expected<std::vector<PointHeight>> falls_below(const std::string& point) const;

private:
    std::shared_ptr<const NetworkSolution> m_solution;
};

/// Largest ratio of standard uncertainties in one network; a level (0.1 mm) beside a barometer (10 m) is 1e5.
/// Beyond it a unit slip is more likely than a method. Our choice, no source.
inline constexpr double kLargestUncertaintyRatio = 1e6;
/// No two points on earth differ more than this. Our choice, no source.
inline constexpr double kLargestRise_m = 10000.0;
/// Error of adjusted heights against the exact solution of the normal equations (tested on random networks).
inline constexpr double kAdjustmentError_m = 1e-9;

/// Weighted least-squares adjustment of a height network: observation equation v = H(to) - H(from) - rise, weight
/// 1 / u^2, normal equations N = A' P A (C. D. Ghilani and P. R. Wolf, Adjustment Computations, 4th ed. 2006, chapter
/// 12).
///
/// Uncertainties are a-priori, u = sqrt(diagonal of N^-1): they rest on those given, not on the residuals. (The other
/// practice scales them by S0; with the few redundant readings of a head survey S0 is itself poorly known. A failed
/// global test says instead that they are too small: `levels.network_test_failed`.)
/// An error that several observations share is one more unknown, in units of its own standard uncertainty, known
/// beforehand as 0 +/- 1: v = H(to) - H(from) + sum of effect x unknown - rise. So it is carried where nothing tells it,
/// estimated where the readings do, and counted in the global test. In a budget it has a line with its key as subject.
/// Redundancy r = 1 - var(adjusted) / u^2; normalised residual v / (u sqrt(r)) against kOutlierLimit (Baarda).
///
/// Known heights: fixed ones make the datum. If none is fixed, those not fixed carry it with their own uncertainty; if
/// none is given, datum_point is 0. Points that nothing joins to the datum get no height, only differences.
/// Refuses: no observation (`levels.network_empty`); a number that is not finite or a rise beyond 10 km
/// (`levels.rise_impossible`); a standard uncertainty not above zero (`levels.uncertainty_impossible`); a ratio of
/// uncertainties above 1e6 (`levels.uncertainties_too_far_apart`); from = to (`levels.same_point`); an empty name
/// (`levels.point_unnamed`); a fixed point given twice with different heights (`levels.known_heights_differ`); a datum
/// point in no observation (`levels.point_unknown`); normal equations that rounding made singular
/// (`levels.network_unsolvable`). Accuracy: kAdjustmentError_m.
[[nodiscard]] Expected<AdjustedNetwork> adjust(const std::vector<HeightDifference>& differences,
                                               const std::vector<KnownHeight>& known = {},
                                               const AdjustOptions& options = {});

} // namespace rillmark
