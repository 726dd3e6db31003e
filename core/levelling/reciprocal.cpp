// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/reciprocal.h"

#include "levelling/staff_checks.h"
#include "levelling/two_peg.h"

#include <cmath>
#include <utility>

namespace rillmark {

namespace {

Expected<void> check_readings(const ReciprocalObservation& observation) {
    std::int64_t bank = 0;
    for (const BankReadings& readings : {observation.from_a, observation.from_b}) {
        ++bank;
        for (const auto& [reading_m, where] :
             {std::pair{readings.reading_a_m, "levels.reading_a"}, {readings.reading_b_m, "levels.reading_b"}})
            if (const Expected<void> good = check_staff_reading(reading_m, {where, bank}); !good)
                return good;
    }
    if (!observation.distance_m)
        return {};
    if (*observation.distance_m == 0.0)
        return refusal("levels.sight_length_impossible", "levels.sight_length",
                       {{"distance", 0.0, Quantity::Length}, {"limit", kLongestSight_m, Quantity::Length}});
    return check_sight_length(*observation.distance_m, {"levels.sight_length", {}});
}

Expected<void> check_options(const ReciprocalOptions& options) {
    for (const double u_m : {options.near_uncertainty_m, options.far_uncertainty_m})
        if (const Expected<void> good = check_uncertainty_above_zero(u_m, "levels.staff_reading"); !good)
            return good;
    if (!(std::isfinite(options.refraction_change) && options.refraction_change >= 0.0))
        return refusal("levels.uncertainty_impossible", "levels.refraction",
                       {{"uncertainty", options.refraction_change}});
    return check_collimation(options.collimation);
}

/// What a sound level and the curve of the earth make of the far reading at most.
double doubtful_error_m(std::optional<double> curvature_m, const ReciprocalObservation& observation) {
    return curvature_m ? *curvature_m + kDoubtfulCollimation * *observation.distance_m : kDoubtfulLineError_m;
}

void judge_refraction(const Estimate& k, ReciprocalResult& result) {
    if (std::abs(k.value) > 1.0 + k.expanded())
        result.findings.push_back(
            warning("levels.refraction_unlikely", "", {{"value", k.value}, {"plus_minus", k.expanded()}}));
}

} // namespace

Expected<ReciprocalResult> reciprocal(const ReciprocalObservation& observation, const ReciprocalOptions& options) {
    if (const Expected<void> good = check_readings(observation); !good)
        return good.error();
    if (const Expected<void> good = check_options(options); !good)
        return good.error();
    std::optional<double> curvature_m;
    if (observation.distance_m) {
        const Expected<double> bend_m = curvature_refraction_m(*observation.distance_m, {options.earth_radius_m, 0.0});
        if (!bend_m)
            return bend_m.error();
        curvature_m = *bend_m;
    }

    ReciprocalResult result;
    result.rise_from_a_m = observation.from_a.reading_a_m - observation.from_a.reading_b_m;
    result.rise_from_b_m = observation.from_b.reading_a_m - observation.from_b.reading_b_m;
    // Half the root of four readings, for the mean as for half the difference.
    const double readings_m = std::hypot(options.near_uncertainty_m, options.far_uncertainty_m) / std::sqrt(2.0);
    const double change_m = curvature_m.value_or(0.0) * options.refraction_change / 2.0;
    const double u_m = std::hypot(readings_m, change_m);
    result.rise = {(result.rise_from_a_m + result.rise_from_b_m) / 2.0, u_m};
    result.line_error = {(result.rise_from_b_m - result.rise_from_a_m) / 2.0, u_m};

    const double error_m = std::abs(result.line_error.value);
    const double doubtful_m = doubtful_error_m(curvature_m, observation);
    if (error_m > doubtful_m) {
        const std::vector<Arg> args{{"error", result.line_error.value, Quantity::Length},
                                    {"limit", doubtful_m, Quantity::Length},
                                    {"from_a", result.rise_from_a_m, Quantity::Length},
                                    {"from_b", result.rise_from_b_m, Quantity::Length}};
        // With the staves of one bank swapped, line error and rise change places.
        if (std::abs(result.rise.value) * kSwapExplains <= error_m)
            return refusal("levels.staves_swapped", "", args);
        result.findings.push_back(warning("levels.line_error_large", "", args));
    }
    if (curvature_m && options.collimation) {
        const double collimation_m = options.collimation->value * *observation.distance_m;
        const double u_collimation_m = options.collimation->standard_uncertainty * *observation.distance_m;
        result.refraction_k = Estimate{1.0 - (result.line_error.value - collimation_m) / *curvature_m,
                                       std::hypot(u_m, u_collimation_m) / *curvature_m};
        judge_refraction(*result.refraction_k, result);
    }
    return result;
}

} // namespace rillmark
