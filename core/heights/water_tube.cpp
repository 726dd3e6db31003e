// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/water_tube.h"

#include "heights/input_range.h"
#include "water/water.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

std::optional<Finding> bad_setup(const TubeSetup& setup) {
    const TubeLegs legs = setup.legs.value_or(TubeLegs{});
    return first_out_of_range(
        {{"levels.tube_from_reading", setup.from_reading_m, 0.0, 10.0, Quantity::Length},
         {"levels.tube_to_reading", setup.to_reading_m, 0.0, 10.0, Quantity::Length},
         {"levels.tube_from_temperature", legs.from_C, kWaterTemperatureMin_C, kWaterTemperatureMax_C,
          Quantity::Temperature},
         {"levels.tube_to_temperature", legs.to_C, kWaterTemperatureMin_C, kWaterTemperatureMax_C,
          Quantity::Temperature},
         {"levels.tube_temperature_uncertainty", legs.temperature_u_C, 0.0, 20.0, Quantity::Temperature}});
}

/// The step with the uncertainty that the temperatures give it.
Expected<Estimate> step_of(const TubeLegs& legs) {
    const Expected<double> step_m = tube_temperature_step_m(legs.height_m, legs.from_C, legs.to_C);
    if (!step_m)
        return step_m.error();
    double variance_m2 = 0.0;
    for (const bool from : {true, false}) {
        const double own_C = from ? legs.from_C : legs.to_C;
        // towards the middle of the range, so that the density is always known
        const double moved_C = own_C + (own_C < 20.0 ? 1.0 : -1.0) * legs.temperature_u_C;
        const Expected<double> moved_m =
            tube_temperature_step_m(legs.height_m, from ? moved_C : legs.from_C, from ? legs.to_C : moved_C);
        if (!moved_m)
            return moved_m.error();
        variance_m2 += (*moved_m - *step_m) * (*moved_m - *step_m);
    }
    return Estimate{*step_m, std::sqrt(variance_m2)};
}

Finding in_row(Finding finding, std::size_t index) {
    finding.args.push_back({"row", static_cast<std::int64_t>(index + 1)});
    return finding;
}

} // namespace

Expected<double> tube_temperature_step_m(double leg_height_m, double from_C, double to_C) {
    if (const auto bad = first_out_of_range({{"levels.tube_leg_height", leg_height_m, 0.0, 100.0, Quantity::Length}}))
        return *bad;
    const Expected<double> from_kgm3 = water_density_kgm3(from_C);
    if (!from_kgm3)
        return from_kgm3.error();
    const Expected<double> to_kgm3 = water_density_kgm3(to_C);
    if (!to_kgm3)
        return to_kgm3.error();
    const double step_m = leg_height_m * (std::max(*from_kgm3, *to_kgm3) / std::min(*from_kgm3, *to_kgm3) - 1.0);
    return *to_kgm3 <= *from_kgm3 ? step_m : -step_m;
}

Expected<MeasuredRise> water_tube(const std::vector<TubeSetup>& setups, const WaterTubeOptions& options) {
    if (setups.empty())
        return refusal("levels.nothing_measured");
    if (const auto bad =
            first_out_of_range({{"levels.tube_uncertainty", options.setup_u_m, 0.0001, 0.1, Quantity::Length}}))
        return *bad;
    MeasuredRise result;
    double variance_m2 = 0.0;
    for (std::size_t i = 0; i < setups.size(); ++i) {
        if (const auto bad = bad_setup(setups[i]))
            return in_row(*bad, i);
        result.rise_m += setups[i].from_reading_m - setups[i].to_reading_m;
        variance_m2 += options.setup_u_m * options.setup_u_m;
        if (!setups[i].legs)
            continue;
        const Expected<Estimate> step_m = step_of(*setups[i].legs);
        if (!step_m)
            return in_row(step_m.error(), i);
        // water that stands too high at `to` makes the rise too small
        result.rise_m += step_m->value;
        variance_m2 += step_m->standard_uncertainty * step_m->standard_uncertainty;
        if (std::abs(step_m->value) > kTubeTemperatureMatters_m)
            result.findings.push_back(in_row(note("levels.tube_temperature", "levels.tube_leg_height",
                                                  {{"correction", step_m->value, Quantity::Length}}),
                                             i));
    }
    result.random_m = std::sqrt(variance_m2);
    return result;
}

} // namespace rillmark
