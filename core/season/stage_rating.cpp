// SPDX-License-Identifier: GPL-3.0-or-later
#include "season/stage_rating.h"

#include "flow/settings.h"
#include "flow/student_factor.h"
#include "season/limits.h"
#include "uncertainty/chi_squared.h"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace rillmark {

namespace {

constexpr double kLeastFlow_m3s = 1e-6;
constexpr double kLeastVisit_u_rel = 0.001;
// Common practice, no source: the level of the test that the visits' uncertainties explain their scatter.
constexpr double kAgreement = 0.95;
// Bounds of the search for h0, as parts of the range of the stages; our own choice.
constexpr double kNearest = 1e-3;
constexpr double kFarthest = 10.0;
constexpr int kGrid = 200;
constexpr int kGoldenSteps = 80;

struct Used {
    double stage_m;
    double ln_flow;
    double weight; // 1 / u^2 of ln Q
};

struct Line {
    double ln_a = 0.0;
    double b = 0.0;
    double squares = 0.0; // weighted
};

Expected<std::vector<Used>> used_visits(const std::vector<StageVisit>& visits, double default_u_rel) {
    std::vector<Used> used;
    std::int64_t row = 0;
    for (const StageVisit& visit : visits) {
        ++row;
        if (visit.struck)
            continue;
        if (!in_range(visit.stage_m, -kLargestStage_m, kLargestStage_m))
            return refusal("flow.bad_stage", "stage_m", {{"row", row}, {"value", visit.stage_m, Quantity::Length}});
        const double u_m3s = visit.discharge_u_m3s.value_or(default_u_rel * visit.discharge_m3s);
        if (!in_range(visit.discharge_m3s, kLeastFlow_m3s, kGreatestFlow_m3s) ||
            !in_range(u_m3s, 0.0, visit.discharge_m3s))
            return refusal("flow.bad_discharge_at_visit", "discharge_m3s",
                           {{"row", row}, {"value", visit.discharge_m3s, Quantity::Discharge}});
        const double u_rel = std::max(u_m3s / visit.discharge_m3s, kLeastVisit_u_rel);
        used.push_back({visit.stage_m, std::log(visit.discharge_m3s), 1.0 / (u_rel * u_rel)});
    }
    return used;
}

Line fit_line(const std::vector<Used>& visits, double h0_m) {
    double weights = 0.0;
    double mean_x = 0.0;
    double mean_y = 0.0;
    for (const Used& v : visits) {
        weights += v.weight;
        mean_x += v.weight * std::log(v.stage_m - h0_m);
        mean_y += v.weight * v.ln_flow;
    }
    mean_x /= weights;
    mean_y /= weights;
    double xx = 0.0;
    double xy = 0.0;
    for (const Used& v : visits) {
        const double x = std::log(v.stage_m - h0_m) - mean_x;
        xx += v.weight * x * x;
        xy += v.weight * x * (v.ln_flow - mean_y);
    }
    Line line;
    line.b = xy / xx;
    line.ln_a = mean_y - line.b * mean_x;
    for (const Used& v : visits) {
        const double off = v.ln_flow - line.ln_a - line.b * std::log(v.stage_m - h0_m);
        line.squares += v.weight * off * off;
    }
    return line;
}

/// h0 with the least sum of squares, or nothing where that lies at an end of the search.
std::optional<double> search_zero(const std::vector<Used>& visits, double lowest_m, double range_m) {
    const double low = std::log(kNearest * range_m);
    const double high = std::log(kFarthest * range_m);
    const auto squares = [&](double ln_distance) { return fit_line(visits, lowest_m - std::exp(ln_distance)).squares; };
    const auto place = [&](int step) { return low + (high - low) * step / kGrid; };
    int best = 0;
    double least = squares(low);
    for (int step = 1; step <= kGrid; ++step) {
        const double here = squares(place(step));
        if (here < least) {
            least = here;
            best = step;
        }
    }
    if (best == 0 || best == kGrid)
        return std::nullopt;
    constexpr double kGolden = std::numbers::phi - 1.0;
    double left = place(best - 1);
    double right = place(best + 1);
    for (int step = 0; step < kGoldenSteps; ++step) {
        const double part = kGolden * (right - left);
        if (squares(right - part) < squares(left + part))
            right = left + part;
        else
            left = right - part;
    }
    return lowest_m - std::exp(0.5 * (left + right));
}

/// d ln Q by ln a, b and h0.
Eigen::Vector3d gradient(const StageRating& rating, double stage_m) {
    const double above_m = stage_m - rating.h0_m;
    return {1.0, std::log(above_m), -rating.b / above_m};
}

/// How much a fit's scatter enlarges its uncertainty; 1 where the visits explain it. What chance alone makes of their
/// own uncertainties is explained: enlarged for every scatter above the mean, the interval would be too wide.
double enlarged_by(double squares, std::size_t freedom) {
    if (squares <= chi_squared_quantile(kAgreement, freedom))
        return 1.0;
    return std::sqrt(squares / static_cast<double>(freedom)) * student_factor(static_cast<int>(freedom));
}

void set_uncertainty(StageRating& rating, const std::vector<Used>& visits, double squares, bool searched) {
    Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
    double weights = 0.0;
    for (const Used& v : visits) {
        const Eigen::Vector3d g = gradient(rating, v.stage_m);
        normal += v.weight * g * g.transpose();
        weights += v.weight;
    }
    const std::size_t freedom = visits.size() - (searched ? 3 : 2);
    const double factor = enlarged_by(squares, freedom);
    Eigen::Map<Eigen::Matrix3d> covariance(rating.covariance.data()); // symmetric, so that the order does not matter
    if (searched)
        covariance = normal.inverse() * factor * factor;
    else
        covariance.topLeftCorner<2, 2>() = normal.topLeftCorner<2, 2>().inverse() * factor * factor;
    rating.scatter_rel = factor * std::sqrt(static_cast<double>(visits.size()) / weights);
    if (factor > 1.0)
        rating.findings.push_back(
            warning("flow.rating_scatter", {},
                    {{"factor", factor, Quantity::Number}, {"scatter", rating.scatter_rel, Quantity::Ratio}}));
}

} // namespace

RatedRange StageRating::range_of(double stage_m) const {
    if (!(stage_m > h0_m))
        return RatedRange::NoFlow;
    if (stage_m < lowest_stage_m)
        return RatedRange::Below;
    return stage_m > highest_stage_m ? RatedRange::Above : RatedRange::Within;
}

double StageRating::discharge_m3s(double stage_m) const {
    return a * std::pow(stage_m - h0_m, b);
}

RatedFlow StageRating::at(double stage_m) const {
    RatedFlow flow;
    flow.range = range_of(stage_m);
    if (flow.range == RatedRange::NoFlow)
        return flow;
    const Eigen::Vector3d g = gradient(*this, stage_m);
    const double of_the_fit = g.dot(Eigen::Map<const Eigen::Matrix3d>(covariance.data()) * g);
    const double u_ln = std::sqrt(std::max(of_the_fit, 0.0) + scatter_rel * scatter_rel);
    const double value = discharge_m3s(stage_m);
    flow.discharge = {value, value * u_ln};
    flow.lowest = value * std::exp(-kCoverageFactor * u_ln);
    flow.highest = value * std::exp(kCoverageFactor * u_ln);
    return flow;
}

Expected<StageRating> fit_stage_rating(const std::vector<StageVisit>& visits, const StageRatingOptions& options) {
    const bool searched = !options.zero_flow_stage_m;
    if (const std::optional<Finding> bad =
            first_bad_setting({{"default_u_rel", options.default_u_rel, kLeastVisit_u_rel, 1.0, Quantity::Ratio},
                               {"zero_flow_stage_m", options.zero_flow_stage_m.value_or(0.0), -kLargestStage_m,
                                kLargestStage_m, Quantity::Length}}))
        return *bad;
    const Expected<std::vector<Used>> used = used_visits(visits, options.default_u_rel);
    if (!used)
        return used.error();
    std::set<double> stages;
    for (const Used& v : *used)
        stages.insert(v.stage_m);
    const std::size_t needed = searched ? 4 : 3;
    if (stages.size() < needed)
        return refusal(
            "flow.rating_too_few", {},
            {{"count", static_cast<std::int64_t>(stages.size())}, {"needed", static_cast<std::int64_t>(needed)}});
    StageRating rating;
    rating.visits = used->size();
    rating.lowest_stage_m = *stages.begin();
    rating.highest_stage_m = *stages.rbegin();
    const std::optional<double> zero_m =
        searched ? search_zero(*used, rating.lowest_stage_m, rating.highest_stage_m - rating.lowest_stage_m)
                 : options.zero_flow_stage_m;
    if (!zero_m)
        return refusal("flow.rating_zero_unclear");
    if (!(*zero_m < rating.lowest_stage_m))
        return refusal("flow.rating_zero_above", {},
                       {{"zero", *zero_m, Quantity::Length}, {"stage", rating.lowest_stage_m, Quantity::Length}});
    rating.h0_m = *zero_m;
    const Line line = fit_line(*used, rating.h0_m);
    if (!(line.b > 0.0))
        return refusal("flow.rating_does_not_rise");
    rating.a = std::exp(line.ln_a);
    rating.b = line.b;
    if (rating.visits < kGoodVisits)
        rating.findings.push_back(warning(
            "flow.rating_few_visits", {},
            {{"count", static_cast<std::int64_t>(rating.visits)}, {"needed", static_cast<std::int64_t>(kGoodVisits)}}));
    set_uncertainty(rating, *used, line.squares, searched);
    if (!in_range(rating.b, kLeastRatingPower, kGreatestRatingPower))
        rating.findings.push_back(warning("flow.rating_power_odd", {}, {{"power", rating.b, Quantity::Number}}));
    return rating;
}

} // namespace rillmark
