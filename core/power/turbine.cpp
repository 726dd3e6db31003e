// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/turbine.h"

#include "heights/atmosphere.h"
#include "power/input_checks.h"
#include "units/constants.h"
#include "water/water.h"

#include <cmath>
#include <numbers>

namespace rillmark {

namespace {

// US Department of the Interior (1976), quoted in Hydropower Engineering course, chapter 6b.
constexpr double kRunawayFactor = 0.85;
constexpr double kRunawayExponent = 0.2;
// K. R. Sharma 1985 and A. J. Stepanoff 1957; from memory, unconfirmed.
constexpr double kSharmaHead = 1.2;
constexpr double kSharmaFlow = 0.8;
constexpr double kStepanoffHead = 1.0;
constexpr double kStepanoffFlow = 0.5;

Expected<void> check_share_above_zero(const char* where, double value) {
    if (const Expected<void> check = check_positive(where, value); !check)
        return check;
    if (value > 1.0)
        return refusal("power.ratio_above_one", where, {{"value", value}});
    return {};
}

double spouting_ms(double head_m, double gravity_ms2) {
    return std::sqrt(2.0 * gravity_ms2 * head_m);
}

/// What all kinds have in common at a site.
struct SiteWater {
    double density_kgm3 = 0.0;
    double air_pressure_Pa = 0.0;
    double vapour_pressure_Pa = 0.0;
};

Expected<SiteWater> site_water(const TurbineSite& site) {
    if (const Expected<void> check = first_refusal(check_positive("power.net_head", site.net_head_m, Quantity::Length),
                                                   check_positive("power.flow", site.flow_m3s, Quantity::Discharge),
                                                   check_positive("power.frequency", site.frequency_Hz),
                                                   check_positive("power.gravity", site.gravity_ms2));
        !check)
        return check.error();
    const Expected<double> density = water_density_kgm3(site.water_temperature_C);
    if (!density)
        return density.error();
    const Expected<double> pressure = standard_pressure_Pa(geopotential_height_m(site.altitude_m));
    if (!pressure)
        return pressure.error();
    return SiteWater{*density, *pressure, saturation_vapour_pressure_Pa(site.water_temperature_C)};
}

/// Cavitation number and greatest height above tailwater of a reaction runner, where the table reaches.
void add_setting(TurbineOption& option, const TurbineSite& site, const SiteWater& water, const TurbineTables& tables) {
    option.sigma = tables.critical_sigma(option.kind, option.specific->ns_kW);
    if (!option.sigma)
        return;
    const Expected<double> setting =
        greatest_setting_m({water.air_pressure_Pa, water.vapour_pressure_Pa, site.net_head_m, *option.sigma,
                            water.density_kgm3, site.gravity_ms2});
    if (setting)
        option.setting_m = *setting;
}

/// The option with that number of jets and that speed, or nothing where it is outside what its kind can do.
std::optional<TurbineOption> option_at(TurbineOption option, const TurbineSite& site, int jets, double speed_rpm) {
    const Expected<SpecificSpeed> specific =
        specific_speed({speed_rpm, site.net_head_m, site.flow_m3s / jets, option.shaft_W / jets, site.gravity_ms2});
    if (!specific || specific->ns_kW < *option.kind.ns_min || specific->ns_kW > *option.kind.ns_max)
        return std::nullopt;
    if (!option.kind.reaction) {
        const Expected<ImpulseWheel> wheel =
            impulse_wheel({site.net_head_m, site.flow_m3s, jets, speed_rpm, site.gravity_ms2});
        if (!wheel || !wheel->findings.empty())
            return std::nullopt;
        option.wheel = *wheel;
        option.jets = jets;
    }
    option.fit = TurbineFit::Fits;
    option.speed_rpm = speed_rpm;
    option.specific = *specific;
    option.runaway_min_rpm = speed_rpm * option.kind.runaway_min;
    option.runaway_max_rpm = speed_rpm * option.kind.runaway_max;
    return option;
}

TurbineOption option_of(const TurbineKind& kind, const TurbineSite& site, const SiteWater& water,
                        const TurbineTables& tables) {
    TurbineOption option;
    option.kind = kind;
    option.shaft_W = water.density_kgm3 * site.gravity_ms2 * site.flow_m3s * site.net_head_m * kind.efficiency_at(1.0);
    if (site.net_head_m < kind.head_min_m || site.net_head_m > kind.head_max_m) {
        option.fit = site.net_head_m < kind.head_min_m ? TurbineFit::HeadTooLow : TurbineFit::HeadTooHigh;
        return option;
    }
    if (!kind.ns_min || !kind.ns_max)
        return option;
    std::optional<TurbineOption> best;
    for (int jets = 1; jets <= (kind.reaction ? 1 : kMostJets); ++jets) {
        for (int poles = kFewestPoles; poles <= kMostPoles; poles += 2) {
            std::optional<TurbineOption> found =
                option_at(option, site, jets, synchronous_rpm(site.frequency_Hz, poles).value_or(0.0));
            if (!found)
                continue;
            add_setting(*found, site, water, tables);
            if (!kind.reaction || found->setting_m.value_or(-1.0) >= 0.0)
                return *found;
            if (!best)
                best = found;
        }
    }
    option.fit = TurbineFit::NoDirectSpeed;
    return best.value_or(option);
}

} // namespace

Expected<ImpulseWheel> impulse_wheel(const Jets& jets) {
    if (const Expected<void> check = first_refusal(
            check_positive("power.net_head", jets.net_head_m, Quantity::Length),
            check_positive("power.flow", jets.flow_m3s, Quantity::Discharge),
            check_positive("power.turbine_speed", jets.speed_rpm), check_positive("power.gravity", jets.gravity_ms2),
            check_share_above_zero("power.jet_coefficient", jets.jet_coefficient),
            check_share_above_zero("power.bucket_ratio", jets.bucket_ratio));
        !check)
        return check.error();
    if (jets.count < 1 || jets.count > kMostJets)
        return refusal("power.bad_jets", "power.jets", {{"most", std::int64_t{kMostJets}}});
    const double spouting = spouting_ms(jets.net_head_m, jets.gravity_ms2);
    ImpulseWheel wheel;
    wheel.jet_speed_ms = jets.jet_coefficient * spouting;
    wheel.jet_m = std::sqrt(4.0 * jets.flow_m3s / (jets.count * std::numbers::pi * wheel.jet_speed_ms));
    wheel.wheel_m = kSecondsPerMinute * jets.bucket_ratio * spouting / (std::numbers::pi * jets.speed_rpm);
    if (!std::isfinite(wheel.jet_m) || !std::isfinite(wheel.wheel_m))
        return refusal("uncertainty.not_finite", "power.turbine_speed");
    if (wheel.wheel_m < kWheelToJetMin * wheel.jet_m)
        wheel.findings.push_back(warning("power.wheel_small_for_jet", "power.jets",
                                         {{"ratio", wheel.wheel_m / wheel.jet_m}, {"limit", kWheelToJetMin}}));
    return wheel;
}

Expected<AxialSize> axial_runner(const AxialRunner& runner) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.net_head", runner.net_head_m, Quantity::Length),
                          check_positive("power.flow", runner.flow_m3s, Quantity::Discharge),
                          check_positive("power.runner_speed_ratio", runner.speed_ratio),
                          check_positive("power.runner_flow_ratio", runner.flow_ratio),
                          check_positive("power.gravity", runner.gravity_ms2),
                          check_not_negative("power.hub_ratio", runner.hub_ratio));
        !check)
        return check.error();
    if (runner.hub_ratio >= 1.0)
        return refusal("power.ratio_above_one", "power.hub_ratio", {{"value", runner.hub_ratio}});
    const double spouting = spouting_ms(runner.net_head_m, runner.gravity_ms2);
    const double area_m2 = runner.flow_m3s / (runner.flow_ratio * spouting);
    const double open = 1.0 - runner.hub_ratio * runner.hub_ratio;
    AxialSize size;
    size.diameter_m = std::sqrt(4.0 * area_m2 / (std::numbers::pi * open));
    size.speed_rpm = kSecondsPerMinute * runner.speed_ratio * spouting / (std::numbers::pi * size.diameter_m);
    if (!std::isfinite(size.diameter_m) || !std::isfinite(size.speed_rpm))
        return refusal("uncertainty.not_finite", "power.flow");
    return size;
}

Expected<double> runaway_ratio(double ns_us) {
    if (const Expected<void> check = check_positive("power.specific_speed", ns_us); !check)
        return check.error();
    return kRunawayFactor * std::pow(ns_us, kRunawayExponent);
}

Expected<double> greatest_setting_m(const RunnerSetting& setting) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.air_pressure", setting.air_pressure_Pa, Quantity::Pressure),
                          check_not_negative("power.vapour_pressure", setting.vapour_pressure_Pa, Quantity::Pressure),
                          check_positive("power.net_head", setting.net_head_m, Quantity::Length),
                          check_not_negative("power.sigma", setting.sigma),
                          check_positive("power.density", setting.density_kgm3, Quantity::Density),
                          check_positive("power.gravity", setting.gravity_ms2));
        !check)
        return check.error();
    if (setting.vapour_pressure_Pa >= setting.air_pressure_Pa)
        return refusal("power.water_boils", "power.vapour_pressure");
    return (setting.air_pressure_Pa - setting.vapour_pressure_Pa) / (setting.density_kgm3 * setting.gravity_ms2) -
           setting.sigma * setting.net_head_m;
}

Expected<PumpChoice> pump_as_turbine(double net_head_m, double flow_m3s, double efficiency) {
    if (const Expected<void> check = first_refusal(check_positive("power.net_head", net_head_m, Quantity::Length),
                                                   check_positive("power.flow", flow_m3s, Quantity::Discharge),
                                                   check_share_above_zero("power.pump_efficiency", efficiency));
        !check)
        return check.error();
    const auto pump = [&](double head_exponent, double flow_exponent) {
        return PumpPoint{net_head_m * std::pow(efficiency, head_exponent),
                         flow_m3s * std::pow(efficiency, flow_exponent)};
    };
    return PumpChoice{pump(kSharmaHead, kSharmaFlow), pump(kStepanoffHead, kStepanoffFlow)};
}

Expected<std::vector<TurbineOption>> turbine_options(const TurbineSite& site, const TurbineTables& tables) {
    const Expected<SiteWater> water = site_water(site);
    if (!water)
        return water.error();
    std::vector<TurbineOption> options;
    for (const TurbineKind& kind : tables.kinds)
        options.push_back(option_of(kind, site, *water, tables));
    return options;
}

} // namespace rillmark
