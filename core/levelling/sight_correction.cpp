// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/sight_correction.h"

#include "levelling/staff_checks.h"

#include <cmath>
#include <utility>

namespace rillmark {

namespace {

/// A difference of 10 m as typed is not beyond 10 m.
constexpr double kRoundingOfLengths_m = 1e-6;

Expected<double> corrected_reading_m(const Sight& sight, const SightCorrections& corrections) {
    double reading_m = sight.reading_m;
    if (corrections.curvature) {
        const Expected<double> bend_m = curvature_refraction_m(*sight.distance_m, corrections.earth);
        if (!bend_m)
            return bend_m;
        reading_m -= *bend_m;
    }
    if (corrections.collimation)
        reading_m -= corrections.collimation->value * *sight.distance_m;
    return reading_m;
}

std::vector<SetupLengths> setup_lengths(const std::vector<Sight>& sights) {
    std::vector<SetupLengths> setups;
    std::optional<double> backsight_m;
    std::size_t setup = 0;
    for (const Sight& sight : sights) {
        if (sight.struck || sight.kind == SightKind::Intermediate)
            continue;
        if (sight.kind == SightKind::Backsight) {
            ++setup;
            backsight_m = sight.distance_m;
        } else if (backsight_m && sight.distance_m) {
            setups.push_back({setup, sight.point, *backsight_m, *sight.distance_m});
        }
    }
    return setups;
}

void judge_balance(bool corrected, CorrectedSights& result) {
    for (const SetupLengths& one : result.setups) {
        if (std::abs(one.difference_m()) <= kUnbalancedSetup_m + kRoundingOfLengths_m)
            continue;
        std::vector<Arg> args{{"setup", static_cast<std::int64_t>(one.setup), Quantity::Number},
                              {"backsight", one.backsight_m, Quantity::Length},
                              {"foresight", one.foresight_m, Quantity::Length},
                              {"limit", kUnbalancedSetup_m, Quantity::Length}};
        result.findings.push_back(corrected
                                      ? note("levels.setup_unbalanced_corrected", one.foresight_point, std::move(args))
                                      : warning("levels.setup_unbalanced", one.foresight_point, std::move(args)));
    }
}

void tell_cost(const Estimate& collimation, CorrectedSights& result) {
    if (result.setups.empty())
        return;
    double difference_m = 0.0;
    for (const SetupLengths& one : result.setups)
        difference_m += one.difference_m();
    const Estimate cost{collimation.value * difference_m, collimation.standard_uncertainty * std::abs(difference_m)};
    result.collimation_cost = cost;
    result.findings.push_back(note("levels.collimation_cost", "",
                                   {{"cost", cost.value, Quantity::Length},
                                    {"plus_minus", cost.expanded(), Quantity::Length},
                                    {"difference", difference_m, Quantity::Length},
                                    {"setups", static_cast<std::int64_t>(result.setups.size()), Quantity::Number}}));
}

} // namespace

Expected<double> curvature_refraction_m(double distance_m, const EarthCurvature& earth) {
    if (const Expected<void> good = check_sight_length(distance_m, {"levels.sight_length", {}}); !good)
        return good.error();
    if (!(std::isfinite(earth.radius_m) && earth.radius_m > 0.0))
        return refusal("levels.curvature_impossible", "levels.earth_radius",
                       {{"value", earth.radius_m, Quantity::Length}});
    if (!(std::abs(earth.refraction_k) <= 1.0))
        return refusal("levels.curvature_impossible", "levels.refraction", {{"value", earth.refraction_k}});
    return (1.0 - earth.refraction_k) * distance_m * distance_m / (2.0 * earth.radius_m);
}

Expected<void> check_collimation(const std::optional<Estimate>& collimation) {
    if (!collimation)
        return {};
    if (!(std::abs(collimation->value) <= kLargestCollimation))
        return refusal("levels.collimation_impossible", "levels.collimation",
                       {{"error", collimation->value * kToldOver_m, Quantity::Length},
                        {"limit", kLargestCollimation * kToldOver_m, Quantity::Length},
                        {"over", kToldOver_m, Quantity::Length}});
    const double u = collimation->standard_uncertainty;
    if (!(std::isfinite(u) && u >= 0.0))
        return refusal("levels.uncertainty_impossible", "levels.collimation", {{"uncertainty", u, Quantity::Ratio}});
    return {};
}

Expected<CorrectedSights> correct_sights(const std::vector<Sight>& sights, const SightCorrections& corrections) {
    if (const Expected<void> good = check_collimation(corrections.collimation); !good)
        return good.error();
    if (const Expected<ReducedBook> book = reduce(sights, 0.0); !book)
        return book.error();
    CorrectedSights result;
    result.sights = sights;
    std::int64_t without = 0;
    std::string first_without;
    for (std::size_t i = 0; i < sights.size(); ++i) {
        Sight& sight = result.sights[i];
        if (sight.struck)
            continue;
        if (!sight.distance_m) {
            if (without++ == 0)
                first_without = sight.point;
            continue;
        }
        const Expected<double> reading_m = corrected_reading_m(sight, corrections);
        if (!reading_m) {
            Finding finding = reading_m.error();
            finding.args.push_back({"row", static_cast<std::int64_t>(i + 1), Quantity::Number});
            return finding;
        }
        sight.reading_m = *reading_m;
    }
    result.setups = setup_lengths(sights);
    judge_balance(corrections.collimation.has_value(), result);
    if (corrections.collimation)
        tell_cost(*corrections.collimation, result);
    if (without > 0 && (corrections.collimation || corrections.curvature))
        result.findings.push_back(
            note("levels.sights_not_corrected", first_without, {{"count", without, Quantity::Number}}));
    return result;
}

void share_collimation(const std::vector<Sight>& sights, const Estimate& collimation, const std::string& instrument,
                       std::vector<HeightDifference>& observations) {
    std::size_t at = 0;
    for (const Sight& sight : sights) {
        if (sight.struck)
            continue;
        if (at >= observations.size())
            return;
        HeightDifference& observation = observations[at++];
        if (!sight.distance_m || !(collimation.standard_uncertainty > 0.0))
            continue;
        // A line of sight that points higher than thought leaves the corrected reading too large: the instrument stands
        // too high over a backsight, and the point of a foresight too low.
        const double effect_m = collimation.standard_uncertainty * *sight.distance_m;
        observation.shared.push_back({"collimation:" + instrument, "levels.collimation",
                                      sight.kind == SightKind::Backsight ? effect_m : -effect_m});
    }
}

} // namespace rillmark
