// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/barometer_readings.h"

#include "heights/atmosphere.h"
#include "units/constants.h"
#include "units/in_range.h"
#include "water/gravity.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr double kLargestTime_s = 1e11; // some three thousand years since 1970
constexpr double kAssumedLatitude_deg = 45.0;

Expected<void> check_reading(const BarometerReading& reading, std::int64_t row, const std::string& prefix) {
    if (reading.point.empty())
        return refusal("levels.point_unnamed", prefix + "point", {{"row", row}});
    if (!in_range(reading.time_s, -kLargestTime_s, kLargestTime_s))
        return refusal("levels.time_impossible", prefix + "time_s", {{"row", row}});
    if (!in_range(reading.pressure_Pa, kLowestLandPressure_Pa, kHighestLandPressure_Pa))
        return refusal("levels.pressure_impossible", prefix + "pressure_Pa",
                       {{"row", row},
                        {"value", reading.pressure_Pa, Quantity::Pressure},
                        {"lowest", kLowestLandPressure_Pa, Quantity::Pressure},
                        {"highest", kHighestLandPressure_Pa, Quantity::Pressure}});
    if (!in_range(reading.temperature_C.value_or(0.0), kColdestAir_C, kWarmestAir_C))
        return refusal("levels.air_temperature_impossible", prefix + "temperature_C",
                       {{"row", row}, {"value", *reading.temperature_C, Quantity::Temperature}});
    if (!in_range(reading.relative_humidity.value_or(0.0), 0.0, 1.0))
        return refusal("levels.humidity_impossible", prefix + "relative_humidity",
                       {{"row", row}, {"value", *reading.relative_humidity, Quantity::Ratio}});
    return {};
}

Expected<void> check_clock(const UsedReading& before, const UsedReading& after, const std::string& prefix) {
    const double step_s = after.reading.time_s - before.reading.time_s;
    if (step_s >= 0.0)
        return {};
    // a clock of the day that starts again goes back by more than half a day
    const bool midnight = step_s < -0.5 * kSecondsPerDay && in_range(before.reading.time_s, 0.0, kSecondsPerDay) &&
                          in_range(after.reading.time_s, 0.0, kSecondsPerDay);
    return refusal(midnight ? "levels.clock_midnight" : "levels.clock_backwards", prefix + "time_s",
                   {{"row", after.row}, {"other", before.row}, {"step", -step_s, Quantity::Time}});
}

/// Weighted mean where both are known, else the one that is.
std::optional<double> shared_out(const std::optional<double>& a, const std::optional<double>& b, double weight_of_b) {
    if (a && b)
        return std::lerp(*a, *b, weight_of_b);
    return a ? a : b;
}

/// A temperature that stands for the air at one end.
struct EndAir {
    std::optional<double> virtual_K;
    double humidity_u_K = 0.0; // of a humidity that nobody read
};

EndAir end_air(const std::optional<double>& temperature_C, const std::optional<double>& humidity, double pressure_Pa) {
    if (!temperature_C)
        return {};
    const double kelvin = *temperature_C + kZeroCelsius_K;
    const Expected<double> moist =
        virtual_temperature_K({*temperature_C, pressure_Pa, humidity.value_or(kAssumedHumidity)});
    if (!moist)
        return {}; // a base pressure carried on from beyond the ends of its log may leave the limits
    return {*moist, humidity ? 0.0 : (*moist - kelvin) * kAssumedHumidity_u / kAssumedHumidity};
}

struct ColumnAir {
    double virtual_K = 0.0;
    double u_K = 0.0;
    bool assumed = false;
};

Expected<ColumnAir> column_air(const BarometerColumn& column, const BarometerOptions& options) {
    const EndAir base = end_air(column.base.temperature_C, column.base.relative_humidity, column.base.pressure_Pa);
    const EndAir point = end_air(column.point.temperature_C, column.point.relative_humidity, column.point.pressure_Pa);
    if (const std::optional<double> mean_K = shared_out(base.virtual_K, point.virtual_K, 0.5)) {
        const bool both = base.virtual_K && point.virtual_K;
        const double humidity_u_K = (base.humidity_u_K + point.humidity_u_K) * (both ? 0.5 : 1.0);
        return ColumnAir{*mean_K, std::hypot(options.temperature_u_K, humidity_u_K), false};
    }
    const Expected<double> middle_m = standard_height_m(std::sqrt(column.base.pressure_Pa * column.point.pressure_Pa));
    if (!middle_m)
        return middle_m.error();
    return ColumnAir{standard_temperature_K(*middle_m), kAssumedTemperature_u_K, true};
}

} // namespace

Expected<void> check_options(const BarometerOptions& options) {
    struct Limit {
        const char* field;
        double value;
        double low;
        double high;
    };
    for (const Limit& limit :
         {Limit{"noise_Pa", options.noise_Pa, 0.1, 1000.0}, Limit{"resolution_Pa", options.resolution_Pa, 0.0, 1000.0},
          Limit{"temperature_u_K", options.temperature_u_K, 0.0, 30.0},
          Limit{"steady_tendency_Pa_per_s", options.steady_tendency_Pa_per_s, 0.0, 1.0},
          Limit{"open_tendency_Pa_per_s", options.open_tendency_Pa_per_s, 0.0, 1.0},
          Limit{"latitude_deg", options.latitude_deg.value_or(0.0), -90.0, 90.0}})
        if (!in_range(limit.value, limit.low, limit.high))
            return refusal("levels.barometer_option_impossible", limit.field,
                           {{"value", limit.value}, {"lowest", limit.low}, {"highest", limit.high}});
    return {};
}

double reading_u_Pa(const BarometerOptions& options) {
    return std::hypot(options.noise_Pa, options.resolution_Pa / std::sqrt(12.0)); // rectangular: GUM 4.3.7
}

Expected<std::vector<UsedReading>> used_readings(const std::vector<BarometerReading>& readings,
                                                 const std::string& prefix) {
    std::vector<UsedReading> used;
    std::int64_t row = 0;
    for (const BarometerReading& reading : readings) {
        ++row;
        if (reading.struck)
            continue;
        if (const Expected<void> good = check_reading(reading, row, prefix); !good)
            return good.error();
        UsedReading next{row, reading};
        if (!used.empty())
            if (const Expected<void> rising = check_clock(used.back(), next, prefix); !rising)
                return rising.error();
        used.push_back(std::move(next));
    }
    if (used.empty())
        return refusal("levels.barometer_no_readings", prefix.empty() ? "" : prefix + "point");
    return used;
}

BaseAir base_air_at(const std::vector<UsedReading>& base, double time_s, const BarometerOptions& options) {
    const auto after =
        std::ranges::upper_bound(base, time_s, {}, [](const UsedReading& r) { return r.reading.time_s; });
    BaseAir air;
    air.stretch = static_cast<std::size_t>(after - base.begin());
    if (air.stretch == 0 || air.stretch == base.size()) {
        const std::size_t only = air.stretch == 0 ? 0 : base.size() - 1;
        const BarometerReading& reading = base[only].reading;
        air.pressure_Pa = reading.pressure_Pa;
        air.temperature_C = reading.temperature_C;
        air.relative_humidity = reading.relative_humidity;
        air.shares = {{only, 1.0}};
        air.gap_s = std::abs(time_s - reading.time_s);
        air.open = air.gap_s > 0.0;
        air.drift_u_Pa = options.open_tendency_Pa_per_s * air.gap_s;
        return air;
    }
    const BarometerReading& first = base[air.stretch - 1].reading;
    const BarometerReading& second = after->reading;
    air.gap_s = second.time_s - first.time_s;
    const double before_s = time_s - first.time_s;
    const double weight = before_s / air.gap_s;
    const double change_Pa = second.pressure_Pa - first.pressure_Pa;
    air.pressure_Pa = first.pressure_Pa + weight * change_Pa;
    air.temperature_C = shared_out(first.temperature_C, second.temperature_C, weight);
    air.relative_humidity = shared_out(first.relative_humidity, second.relative_humidity, weight);
    air.shares = {{air.stretch - 1, 1.0 - weight}, {air.stretch, weight}};
    const double noise_Pa = kCoverageFactor * std::sqrt(2.0) * reading_u_Pa(options);
    const double seen = std::max(0.0, std::abs(change_Pa) - noise_Pa) / air.gap_s;
    air.drift_u_Pa = std::max(options.steady_tendency_Pa_per_s, seen) * before_s * (1.0 - weight);
    return air;
}

Expected<ColumnRise> rise_of(const BarometerColumn& column, const BarometerOptions& options) {
    const Expected<ColumnAir> air = column_air(column, options);
    if (!air)
        return air.error();
    const Expected<double> height_m = standard_height_m(column.base.pressure_Pa);
    if (!height_m)
        return height_m.error();
    const Expected<double> gravity =
        normal_gravity_ms2({options.latitude_deg.value_or(kAssumedLatitude_deg), *height_m});
    if (!gravity)
        return gravity.error();
    const Expected<double> rise_m =
        column_height_m({column.base.pressure_Pa, column.point.pressure_Pa, air->virtual_K, *gravity});
    if (!rise_m)
        return rise_m.error();

    const double scale_m = kGasConstantOfDryAir_J_per_kg_K * air->virtual_K / *gravity; // rise per unit of ln p
    const double per_base_Pa = scale_m / column.base.pressure_Pa;
    const double per_point_Pa = scale_m / column.point.pressure_Pa;
    ColumnRise result{{*rise_m, per_point_Pa * reading_u_Pa(options), {}, {}}, air->assumed};
    const auto share = [&](const std::string& key, const char* source, double effect_m) {
        if (effect_m != 0.0)
            result.rise.shared.push_back({key, source, effect_m});
    };
    const std::string& series = options.series;
    for (const BaseShare& base : column.base.shares)
        share("barometer-base:" + series + ":" + std::to_string(base.reading), "levels.barometer_base_reading",
              per_base_Pa * base.weight * reading_u_Pa(options));
    share("barometer-drift:" + series + ":" + std::to_string(column.base.stretch), "levels.barometer_drift",
          per_base_Pa * column.base.drift_u_Pa);
    share("barometer-offset:" + series, "levels.barometer_offset", per_point_Pa * column.offset_u_Pa);
    share("air-temperature:" + series, "levels.air_temperature", *rise_m * air->u_K / air->virtual_K);
    if (!options.latitude_deg)
        share("gravity", "levels.gravity", *rise_m * kAssumedGravity_u_rel);
    const Estimate estimate = result.rise.estimate();
    if (std::abs(estimate.value) < estimate.expanded())
        result.rise.findings.push_back(warning(
            "levels.barometer_rise_unsure", column.point.point,
            {{"rise", estimate.value, Quantity::Length}, {"plus_minus", estimate.expanded(), Quantity::Length}}));
    return result;
}

} // namespace rillmark
