// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/hose_gauge.h"

#include "heights/input_range.h"
#include "levelling/height_network.h"
#include "levelling/sight_judgement.h"
#include "units/constants.h"
#include "water/water.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

// ISO 2533:1975, Standard atmosphere: sea level, lapse rate below 11 km, specific gas constant of dry air.
constexpr double kSeaLevelPressure_Pa = 101325.0;
constexpr double kSeaLevelTemperature_K = 288.15;
constexpr double kLapse_Kperm = 0.0065;
constexpr double kGasConstant_JkgK = 287.05287;

constexpr double kLargestOffset_m = 100.0;

std::optional<Finding> bad_offset(const Estimate& offset_m, const char* where, const char* where_uncertainty) {
    return first_out_of_range(
        {{where, offset_m.value, -kLargestOffset_m, kLargestOffset_m, Quantity::Length},
         {where_uncertainty, offset_m.standard_uncertainty, 0.0, kLargestOffset_m, Quantity::Length}});
}

std::optional<Finding> bad_gauge(const PressureGauge& gauge) {
    if (const auto bad =
            first_out_of_range({{"levels.gauge_full_scale", gauge.full_scale_Pa, 1e3, 1e8, Quantity::Pressure},
                                {"levels.gauge_class", gauge.class_rel, 1e-5, 0.1, Quantity::Ratio},
                                {"levels.gauge_resolution", gauge.resolution_Pa, 1e-6 * gauge.full_scale_Pa,
                                 0.2 * gauge.full_scale_Pa, Quantity::Pressure}}))
        return bad;
    const double zero_limit_Pa = std::min(1e6, gauge.full_scale_Pa);
    return first_out_of_range(
        {{"levels.gauge_zero", gauge.zero_Pa.value_or(0.0), -zero_limit_Pa, zero_limit_Pa, Quantity::Pressure}});
}

std::optional<Finding> bad_stretch(const HoseStretch& stretch) {
    if (const auto bad = bad_gauge(stretch.gauge))
        return bad;
    if (const auto bad =
            bad_offset(stretch.gauge_above_lower_m, "levels.gauge_height", "levels.gauge_height_uncertainty"))
        return bad;
    if (const auto bad =
            bad_offset(stretch.water_above_upper_m, "levels.hose_surface", "levels.hose_surface_uncertainty"))
        return bad;
    const Estimate gravity = stretch.gravity_ms2.value_or(Estimate{kStandardGravity_ms2, 0.0});
    const Estimate expected = stretch.expected_rise_m.value_or(Estimate{});
    if (const auto bad = first_out_of_range(
            {{"levels.hose_temperature", stretch.water_temperature_C.value, kWaterTemperatureMin_C,
              kWaterTemperatureMax_C, Quantity::Temperature},
             {"levels.hose_temperature_uncertainty", stretch.water_temperature_C.standard_uncertainty, 0.0, 20.0,
              Quantity::Temperature},
             {"levels.gravity", gravity.value, 9.7, 9.9, Quantity::Number},
             {"levels.gravity_uncertainty", gravity.standard_uncertainty, 0.0, 0.1, Quantity::Number},
             {"levels.rise", expected.value, -kLargestRise_m, kLargestRise_m, Quantity::Length},
             {"levels.rise_uncertainty", expected.standard_uncertainty, 0.0, kLargestRise_m, Quantity::Length},
             {"levels.gauge_reading", stretch.pressure_Pa, -1e6, 1e9, Quantity::Pressure}}))
        return bad;
    if (stretch.pressure_Pa > stretch.gauge.full_scale_Pa)
        return refusal("levels.gauge_over_range", "levels.gauge_reading",
                       {{"reading", stretch.pressure_Pa, Quantity::Pressure},
                        {"full_scale", stretch.gauge.full_scale_Pa, Quantity::Pressure}});
    if (stretch.pressure_Pa <= stretch.gauge.zero_Pa.value_or(0.0))
        return refusal("levels.gauge_no_pressure", "levels.gauge_reading",
                       {{"reading", stretch.pressure_Pa, Quantity::Pressure},
                        {"zero", stretch.gauge.zero_Pa.value_or(0.0), Quantity::Pressure}});
    return std::nullopt;
}

Expected<Estimate> gravity_of(const HoseStretch& stretch) {
    const Expected<double> normal_ms2 = normal_gravity_ms2(stretch.place); // also judges the place
    if (!normal_ms2)
        return normal_ms2.error();
    return stretch.gravity_ms2.value_or(Estimate{*normal_ms2, kNormalGravity_u_rel * *normal_ms2});
}

Expected<Estimate> density_of(const Estimate& temperature_C) {
    const Expected<double> density_kgm3 = water_density_kgm3(temperature_C.value);
    // towards the middle of the range, so that the density is always known
    const double moved_C =
        temperature_C.value + (temperature_C.value < 20.0 ? 1.0 : -1.0) * temperature_C.standard_uncertainty;
    const Expected<double> moved_kgm3 = water_density_kgm3(moved_C);
    if (!density_kgm3)
        return density_kgm3.error();
    if (!moved_kgm3)
        return moved_kgm3.error();
    return Estimate{*density_kgm3, std::abs(*moved_kgm3 - *density_kgm3)};
}

bool near_air_pressure(double pressure_Pa, double air_Pa, double allowed_Pa) {
    return std::abs(pressure_Pa - air_Pa) <= kAirPressureMargin_rel * air_Pa + allowed_Pa;
}

std::optional<Finding> judge_zero(const HoseStretch& stretch, double air_Pa) {
    const PressureGauge& gauge = stretch.gauge;
    if (!gauge.zero_Pa)
        return warning("levels.gauge_zero_missing", "levels.gauge_zero");
    if (near_air_pressure(*gauge.zero_Pa, air_Pa, 0.0))
        return warning("levels.gauge_reads_absolute", "levels.gauge_zero",
                       {{"zero", *gauge.zero_Pa, Quantity::Pressure}});
    const double class_Pa = gauge.class_rel * gauge.full_scale_Pa;
    if (std::abs(*gauge.zero_Pa) > class_Pa)
        return warning("levels.gauge_zero_large", "levels.gauge_zero",
                       {{"zero", *gauge.zero_Pa, Quantity::Pressure}, {"limit", class_Pa, Quantity::Pressure}});
    return std::nullopt;
}

/// `up` is the rise from lower to upper point.
std::optional<Finding> judge_absolute(const HoseStretch& stretch, const Estimate& up_m, double pascal_per_metre) {
    if (!stretch.expected_rise_m)
        return std::nullopt;
    const double excess_m = up_m.value - stretch.expected_rise_m->value;
    const double allowed_m =
        kOutlierLimit * std::hypot(up_m.standard_uncertainty, stretch.expected_rise_m->standard_uncertainty);
    const double air_Pa = standard_air(stretch.place.height_m).pressure_Pa;
    if (excess_m <= allowed_m || !near_air_pressure(excess_m * pascal_per_metre, air_Pa, allowed_m * pascal_per_metre))
        return std::nullopt;
    return warning("levels.gauge_maybe_absolute", "levels.gauge_reading",
                   {{"off_by", excess_m, Quantity::Length},
                    {"expected", stretch.expected_rise_m->value, Quantity::Length},
                    {"air", air_Pa, Quantity::Pressure}});
}

Findings findings_of(const HoseStretch& stretch, const Estimate& up_m, double pascal_per_metre) {
    Findings findings;
    if (const auto zero = judge_zero(stretch, standard_air(stretch.place.height_m).pressure_Pa))
        findings.push_back(*zero);
    if (const auto absolute = judge_absolute(stretch, up_m, pascal_per_metre))
        findings.push_back(*absolute);
    if (stretch.pressure_Pa < kLeastOfRange * stretch.gauge.full_scale_Pa)
        findings.push_back(warning("levels.gauge_below_half_range", "levels.gauge_reading",
                                   {{"reading", stretch.pressure_Pa, Quantity::Pressure},
                                    {"full_scale", stretch.gauge.full_scale_Pa, Quantity::Pressure},
                                    {"plus_minus", up_m.expanded(), Quantity::Length}}));
    if (stretch.water_temperature_C.value >= kWarmHose_C)
        findings.push_back(note("levels.hose_warm", "levels.hose_temperature",
                                {{"temperature", stretch.water_temperature_C.value, Quantity::Temperature}}));
    return findings;
}

} // namespace

StandardAir standard_air(double height_m) {
    const double temperature_K = kSeaLevelTemperature_K - kLapse_Kperm * height_m;
    const double exponent = kStandardGravity_ms2 / (kGasConstant_JkgK * kLapse_Kperm);
    const double pressure_Pa = kSeaLevelPressure_Pa * std::pow(temperature_K / kSeaLevelTemperature_K, exponent);
    return {pressure_Pa, pressure_Pa / (kGasConstant_JkgK * temperature_K)};
}

double head_of(const HosePressure& pressure) {
    return pressure.pressure_Pa / ((pressure.water_kgm3 - pressure.air_kgm3) * pressure.gravity_ms2);
}

Expected<MeasuredRise> hose_gauge(const HoseStretch& stretch) {
    if (const auto bad = bad_stretch(stretch))
        return *bad;
    const Expected<Estimate> gravity_ms2 = gravity_of(stretch);
    if (!gravity_ms2)
        return gravity_ms2.error();
    const Expected<Estimate> water_kgm3 = density_of(stretch.water_temperature_C);
    if (!water_kgm3)
        return water_kgm3.error();
    const PressureGauge& gauge = stretch.gauge;
    const double air_kgm3 = standard_air(stretch.place.height_m).density_kgm3;
    const double net_Pa = stretch.pressure_Pa - gauge.zero_Pa.value_or(0.0);
    const double head_m = head_of({net_Pa, water_kgm3->value, air_kgm3, gravity_ms2->value});
    const double metre_per_pascal = head_m / net_Pa;

    const double resolution_m = gauge.resolution_Pa / std::sqrt(12.0) * metre_per_pascal;
    const double class_m = gauge.class_rel * gauge.full_scale_Pa / std::sqrt(3.0) * metre_per_pascal;
    const double sign = stretch.downwards ? -1.0 : 1.0;
    MeasuredRise result;
    result.rise_m = sign * (head_m + stretch.gauge_above_lower_m.value - stretch.water_above_upper_m.value);
    result.random_m = std::hypot(resolution_m, stretch.gauge_above_lower_m.standard_uncertainty,
                                 stretch.water_above_upper_m.standard_uncertainty);
    result.shared = {
        {"gauge-class:" + gauge.name, "levels.gauge_class", sign * class_m},
        {"gauge-zero:" + gauge.name, "levels.gauge_zero", -sign * (gauge.zero_Pa ? resolution_m : class_m)},
        {"hose-temperature:" + stretch.run, "levels.hose_temperature",
         sign * head_m * water_kgm3->standard_uncertainty / (water_kgm3->value - air_kgm3)},
        {"gravity", "levels.gravity", -sign * head_m * gravity_ms2->standard_uncertainty / gravity_ms2->value}};
    const Estimate up_m{sign * result.rise_m, result.estimate().standard_uncertainty};
    result.findings = findings_of(stretch, up_m, 1.0 / metre_per_pascal);
    return result;
}

} // namespace rillmark
