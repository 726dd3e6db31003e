// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/two_peg.h"

#include "levelling/staff_checks.h"
#include "uncertainty/chi_squared.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <ranges>
#include <utility>

namespace rillmark {

namespace {

/// Level of the test of more than two set-ups, as that of the height network.
constexpr double kTestLevel = 0.95;
/// An error equal to the limit is within it, whatever the last bits say.
constexpr double kRoundingOfCollimation = 1e-12;

/// Chi-square of two pairs is zero but for rounding.
constexpr double kRoundingOfChiSquared = 1e-6;

/// One observation of the fit: difference = rise to B + collimation x leverage.
struct Pair {
    double leverage_m = 0.0;   // distance to A - distance to B; 0 for a known rise
    double difference_m = 0.0; // reading A - reading B = rise from A to B as it appears
    double weight = 0.0;       // 1 / u^2
    std::optional<std::int64_t> setup;
};

struct Line {
    Estimate collimation;
    Estimate rise;
    double chi_squared = 0.0;
};

Expected<void> check(const std::vector<PegSetup>& setups, const TwoPegOptions& options) {
    for (std::size_t i = 0; i < setups.size(); ++i) {
        const auto number = static_cast<std::int64_t>(i + 1);
        const PegSetup& s = setups[i];
        for (const auto& [distance_m, where] :
             {std::pair{s.distance_a_m, "levels.distance_a"}, {s.distance_b_m, "levels.distance_b"}})
            if (const Expected<void> good = check_sight_length(distance_m, {where, number}); !good)
                return good;
        for (const auto& [reading_m, where] :
             {std::pair{s.reading_a_m, "levels.reading_a"}, {s.reading_b_m, "levels.reading_b"}})
            if (const Expected<void> good = check_staff_reading(reading_m, {where, number}); !good)
                return good;
    }
    if (const Expected<void> good = check_uncertainty_above_zero(options.reading_uncertainty_m, "levels.staff_reading");
        !good)
        return good;
    if (options.known_rise) {
        if (!(std::abs(options.known_rise->value) <= kLargestRise_m))
            return refusal("levels.rise_impossible", "levels.known_rise",
                           {{"rise", options.known_rise->value, Quantity::Length}});
        if (const Expected<void> good =
                check_uncertainty_above_zero(options.known_rise->standard_uncertainty, "levels.known_rise");
            !good)
            return good;
    }
    if (!(std::isfinite(options.limit) && options.limit > 0.0))
        return refusal("levels.peg_limit_impossible", "", {{"limit", options.limit * kToldOver_m, Quantity::Length}});
    return {};
}

Expected<std::vector<Pair>> pairs_of(const std::vector<PegSetup>& setups, const TwoPegOptions& options) {
    std::vector<Pair> pairs;
    const double u_m = std::numbers::sqrt2 * options.reading_uncertainty_m;
    for (const PegSetup& s : setups) {
        double difference_m = s.reading_a_m - s.reading_b_m;
        if (options.curvature) {
            const Expected<double> bend_a_m = curvature_refraction_m(s.distance_a_m, *options.curvature);
            const Expected<double> bend_b_m = curvature_refraction_m(s.distance_b_m, *options.curvature);
            if (!bend_a_m || !bend_b_m)
                return bend_a_m ? bend_b_m.error() : bend_a_m.error();
            difference_m -= *bend_a_m - *bend_b_m;
        }
        pairs.push_back({s.distance_a_m - s.distance_b_m, difference_m, 1.0 / (u_m * u_m),
                         static_cast<std::int64_t>(pairs.size() + 1)});
    }
    if (const auto& known = options.known_rise)
        pairs.push_back({0.0, known->value, 1.0 / (known->standard_uncertainty * known->standard_uncertainty), {}});
    return pairs;
}

/// The straight line through the pairs, about their weighted mean so that rounding stays small.
Line fit(const std::vector<Pair>& pairs) {
    double weight = 0.0;
    double mean_leverage_m = 0.0;
    double mean_difference_m = 0.0;
    for (const Pair& p : pairs) {
        weight += p.weight;
        mean_leverage_m += p.weight * p.leverage_m;
        mean_difference_m += p.weight * p.difference_m;
    }
    mean_leverage_m /= weight;
    mean_difference_m /= weight;
    double square = 0.0;
    double product = 0.0;
    for (const Pair& p : pairs) {
        square += p.weight * (p.leverage_m - mean_leverage_m) * (p.leverage_m - mean_leverage_m);
        product += p.weight * (p.leverage_m - mean_leverage_m) * (p.difference_m - mean_difference_m);
    }
    Line line;
    line.collimation = {product / square, std::sqrt(1.0 / square)};
    line.rise = {mean_difference_m - line.collimation.value * mean_leverage_m,
                 std::sqrt(1.0 / weight + mean_leverage_m * mean_leverage_m / square)};
    for (const Pair& p : pairs) {
        const double residual_m = p.difference_m - line.rise.value - line.collimation.value * p.leverage_m;
        line.chi_squared += p.weight * residual_m * residual_m;
    }
    return line;
}

Expected<void> check_geometry(const std::vector<Pair>& pairs) {
    if (pairs.size() < 2)
        return refusal("levels.peg_setups_missing");
    double least_m = pairs.front().leverage_m;
    double most_m = least_m;
    for (const Pair& p : pairs) {
        least_m = std::min(least_m, p.leverage_m);
        most_m = std::max(most_m, p.leverage_m);
    }
    if (most_m - least_m < kLeastPegLeverage_m)
        return refusal(
            "levels.peg_same_geometry", "",
            {{"difference", most_m - least_m, Quantity::Length}, {"limit", kLeastPegLeverage_m, Quantity::Length}});
    return {};
}

/// The pair that, turned round, would make the error many times smaller.
struct Turned {
    std::optional<std::int64_t> setup; // none: the known rise
    Line line;
};

/// Of several the one that leaves the smallest residuals; two pairs explain it alike, then the known rise, else the
/// later.
std::optional<Turned> find_turned(std::vector<Pair> pairs, double collimation) {
    std::optional<Turned> best;
    for (Pair& p : pairs | std::views::reverse) {
        p.difference_m = -p.difference_m;
        const Line line = fit(pairs);
        p.difference_m = -p.difference_m;
        const bool explains = std::abs(line.collimation.value) * kSwapExplains <= std::abs(collimation);
        if (explains && (!best || line.chi_squared + kRoundingOfChiSquared < best->line.chi_squared))
            best = Turned{p.setup, line};
    }
    return best;
}

/// The higher peg has the smaller reading. A pair booked the other way round shows as an error that no level has and
/// that vanishes when the pair is turned.
Expected<void> check_plausible(const std::vector<Pair>& pairs, double collimation) {
    std::vector<Arg> args{{"error", collimation * kToldOver_m, Quantity::Length},
                          {"over", kToldOver_m, Quantity::Length}};
    if (std::abs(collimation) > kDoubtfulCollimation) {
        if (const std::optional<Turned> turned = find_turned(pairs, collimation)) {
            args.push_back({"error_if_swapped", turned->line.collimation.value * kToldOver_m, Quantity::Length});
            if (!turned->setup)
                return refusal("levels.peg_contradicts_known_rise", "", std::move(args));
            args.push_back({"setup", *turned->setup, Quantity::Number});
            args.push_back({"row", *turned->setup, Quantity::Number}); // becomes the line of a file
            return refusal("levels.pegs_swapped", "", std::move(args));
        }
    }
    if (std::abs(collimation) <= kLargestCollimation)
        return {};
    args.push_back({"limit", kLargestCollimation * kToldOver_m, Quantity::Length});
    return refusal("levels.collimation_impossible", "levels.collimation", std::move(args));
}

void judge(const Line& line, std::size_t pairs, const TwoPegOptions& options, TwoPegResult& result) {
    result.within = std::abs(line.collimation.value) <= options.limit + kRoundingOfCollimation;
    const std::vector<Arg> args{{"error", line.collimation.value * kToldOver_m, Quantity::Length},
                                {"plus_minus", line.collimation.expanded() * kToldOver_m, Quantity::Length},
                                {"limit", options.limit * kToldOver_m, Quantity::Length},
                                {"over", kToldOver_m, Quantity::Length}};
    if (!result.within)
        result.findings.push_back(warning("levels.collimation_beyond_limit", "", args));
    const double u95 = line.collimation.expanded();
    if (u95 > options.limit && std::abs(line.collimation.value) <= options.limit + u95)
        result.findings.push_back(note("levels.peg_test_weak", "", args));
    if (pairs <= 2)
        return;
    const double limit = chi_squared_quantile(kTestLevel, pairs - 2);
    result.disagreement = line.chi_squared / limit;
    if (line.chi_squared > limit)
        result.findings.push_back(
            warning("levels.peg_setups_disagree", "", {{"value", line.chi_squared}, {"limit", limit}}));
}

} // namespace

Expected<TwoPegResult> two_peg(const std::vector<PegSetup>& setups, const TwoPegOptions& options) {
    if (const Expected<void> good = check(setups, options); !good)
        return good.error();
    const Expected<std::vector<Pair>> pairs = pairs_of(setups, options);
    if (!pairs)
        return pairs.error();
    if (const Expected<void> good = check_geometry(*pairs); !good)
        return good.error();
    const Line line = fit(*pairs);
    if (const Expected<void> good = check_plausible(*pairs, line.collimation.value); !good)
        return good.error();
    TwoPegResult result;
    result.collimation = line.collimation;
    result.rise = line.rise;
    const auto right_m = [&](double reading_m, double distance_m) {
        const double bend_m = options.curvature ? *curvature_refraction_m(distance_m, *options.curvature) : 0.0;
        return reading_m - bend_m - line.collimation.value * distance_m;
    };
    for (const PegSetup& s : setups)
        result.right_readings.push_back(
            {right_m(s.reading_a_m, s.distance_a_m), right_m(s.reading_b_m, s.distance_b_m)});
    judge(line, pairs->size(), options, result);
    return result;
}

} // namespace rillmark
