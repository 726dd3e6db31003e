// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/surge.h"

#include "power/input_checks.h"
#include "power/pipe_strength.h"
#include "uncertainty/propagate.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rillmark {

namespace {

Expected<void> check_pipe(const SurgePipe& pipe) {
    return first_refusal(check_positive("power.pipe_length", pipe.length_m, Quantity::Length),
                         check_positive("power.wave_speed", pipe.wave_speed_ms, Quantity::Velocity),
                         check_positive("power.water_density", pipe.density_kgm3, Quantity::Density));
}

Expected<double> finite(double value, const char* where) {
    if (!std::isfinite(value))
        return refusal("uncertainty.not_finite", where);
    return value;
}

} // namespace

Expected<double> anchoring_factor(PipeAnchoring anchoring, double poisson) {
    if (const Expected<void> check = check_poisson(poisson); !check)
        return check.error();
    switch (anchoring) {
    case PipeAnchoring::OneEnd:
        return 1.0 - poisson / 2.0;
    case PipeAnchoring::Throughout:
        return 1.0 - poisson * poisson;
    case PipeAnchoring::ExpansionJoints:
        break;
    }
    return 1.0;
}

Expected<double> sound_speed_ms(const ElasticWater& water) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.water_density", water.density_kgm3, Quantity::Density),
                          check_positive("power.bulk_modulus", water.bulk_modulus_Pa, Quantity::Pressure));
        !check)
        return check.error();
    return finite(std::sqrt(water.bulk_modulus_Pa / water.density_kgm3), "power.wave_speed");
}

Expected<double> wave_speed_ms(const ElasticPipe& pipe, const ElasticWater& water) {
    if (const Expected<void> check = first_refusal(check_positive("power.bore", pipe.bore_m, Quantity::Bore),
                                                   check_positive("power.pipe_wall", pipe.wall_m, Quantity::Bore),
                                                   check_positive("power.modulus", pipe.modulus_Pa, Quantity::Pressure),
                                                   check_positive("power.anchoring_factor", pipe.anchoring_factor));
        !check)
        return check.error();
    const Expected<double> in_water = sound_speed_ms(water);
    if (!in_water)
        return in_water.error();
    const double give = pipe.anchoring_factor * (water.bulk_modulus_Pa / pipe.modulus_Pa) * (pipe.bore_m / pipe.wall_m);
    return finite(*in_water / std::sqrt(1.0 + give), "power.wave_speed");
}

Expected<double> reflection_time_s(const SurgePipe& pipe) {
    if (const Expected<void> check = check_pipe(pipe); !check)
        return check.error();
    return finite(2.0 * pipe.length_m / pipe.wave_speed_ms, "power.closing_time");
}

Expected<double> sudden_stop_Pa(const SurgePipe& pipe, double speed_change_ms) {
    if (const Expected<void> check = first_refusal(
            check_pipe(pipe), check_not_negative("power.speed_change", speed_change_ms, Quantity::Velocity));
        !check)
        return check.error();
    return finite(pipe.density_kgm3 * pipe.wave_speed_ms * speed_change_ms, "power.surge");
}

Expected<double> closing_Pa(const SurgePipe& pipe, double speed_change_ms, double closing_s) {
    if (const Expected<void> check = check_not_negative("power.closing_time", closing_s, Quantity::Time); !check)
        return check.error();
    const Expected<double> sudden = sudden_stop_Pa(pipe, speed_change_ms);
    if (!sudden || closing_s == 0.0)
        return sudden;
    return std::min(*sudden, 2.0 * pipe.density_kgm3 * pipe.length_m * speed_change_ms / closing_s);
}

Expected<double> full_surge_length_m(const SurgePipe& pipe, double closing_s) {
    if (const Expected<void> check =
            first_refusal(check_pipe(pipe), check_not_negative("power.closing_time", closing_s, Quantity::Time));
        !check)
        return check.error();
    return std::max(0.0, pipe.length_m - pipe.wave_speed_ms * closing_s / 2.0);
}

Expected<double> closing_time_for_limit_s(const SurgePipe& pipe, double speed_change_ms, double limit_Pa) {
    if (const Expected<void> check = check_positive("power.surge_limit", limit_Pa, Quantity::Pressure); !check)
        return check.error();
    const Expected<double> sudden = sudden_stop_Pa(pipe, speed_change_ms);
    if (!sudden)
        return sudden.error();
    if (*sudden <= limit_Pa)
        return 0.0;
    return finite(2.0 * pipe.density_kgm3 * pipe.length_m * speed_change_ms / limit_Pa, "power.closing_time");
}

Expected<Budgeted> closing_estimate_Pa(const SurgeEstimate& surge) {
    const auto rise = [&](double length, double bore, double wall, double modulus, double speed, double closing,
                          double bulk) -> Expected<double> {
        const Expected<double> wave =
            wave_speed_ms({bore, wall, modulus, surge.anchoring_factor}, {surge.density_kgm3, bulk});
        if (!wave)
            return wave.error();
        return closing_Pa({length, *wave, surge.density_kgm3}, speed, closing);
    };
    // Before the model is tried around it, so that a bad value is refused by its name.
    const Expected<double> middle =
        rise(surge.length_m.value, surge.bore_m.value, surge.wall_m.value, surge.modulus_Pa.value,
             surge.speed_change_ms.value, surge.closing_s.value, surge.bulk_modulus_Pa.value);
    if (!middle)
        return middle.error();
    return propagate(
        {{"power.pipe_length", {}, surge.length_m},
         {"power.bore", {}, surge.bore_m},
         {"power.pipe_wall", {}, surge.wall_m},
         {"power.modulus", {}, surge.modulus_Pa},
         {"power.speed_change", {}, surge.speed_change_ms},
         {"power.closing_time", {}, surge.closing_s},
         {"power.bulk_modulus", {}, surge.bulk_modulus_Pa}},
        [&](std::span<const double> x) {
            return rise(x[0], x[1], x[2], x[3], x[4], x[5], x[6]).value_or(std::numeric_limits<double>::quiet_NaN());
        });
}

} // namespace rillmark
