// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/clock_time.h"
#include "exchange/reduce_methods.h"
#include "exchange/row_places.h"
#include "heights/barometer.h"

namespace rillmark {

namespace {

constexpr ReduceField kPointColumn{"point", {}, true, false, "exchange.barometer.point"};
constexpr ReduceField kTimeColumn{"time", {}, true, false, "exchange.barometer.time"};
constexpr ReduceField kPressureColumn{"pressure", Quantity::Pressure, true, false, "exchange.barometer.pressure"};
constexpr ReduceField kTemperatureColumn{"temperature", Quantity::Temperature, false, false,
                                         "exchange.barometer.temperature"};
constexpr ReduceField kHumidityColumn{"humidity", Quantity::Ratio, false, false, "exchange.barometer.humidity"};
constexpr ReduceField kColumns[] = {kPointColumn, kTimeColumn, kPressureColumn, kTemperatureColumn, kHumidityColumn};
constexpr ReduceField kPairColumns[] = {
    {"role", {}, true, false, "exchange.barometer.role"},
    {"point", {}, false, false, "exchange.barometer.point_of_rover"},
    kTimeColumn,
    kPressureColumn,
    kTemperatureColumn,
    kHumidityColumn,
};
constexpr ReduceField kParameters[] = {
    {"base", {}, false, false, "exchange.barometer.base"},
    {"noise", Quantity::Pressure, false, false, "exchange.barometer.noise", "12"},
    {"resolution", Quantity::Pressure, false, false, "exchange.barometer.resolution", "0"},
    {"temperature_uncertainty", Quantity::Temperature, false, true, "exchange.barometer.temperature_uncertainty", "2"},
    {"latitude", Quantity::Coordinate, false, false, "exchange.barometer.latitude"},
};
constexpr PlacedField kPlaces[] = {
    {"point", "point"},
    {"time_s", "time"},
    {"pressure_Pa", "pressure"},
    {"temperature_C", "temperature"},
    {"relative_humidity", "humidity"},
};
constexpr PlacedField kBasePlaces[] = {
    {"base.point", "point"},
    {"base.time_s", "time"},
    {"base.pressure_Pa", "pressure"},
    {"base.temperature_C", "temperature"},
    {"base.relative_humidity", "humidity"},
};
constexpr const char* kBase = "base";

/// Readings and the row of the file that each came from.
struct List {
    std::vector<BarometerReading> readings;
    std::vector<std::size_t> rows;
};

Expected<void> add_reading(const ReduceTable& table, std::size_t row, const std::string& point, List& list) {
    const std::optional<double> time_s = clock_time_s(table.text(row, "time"));
    if (!time_s)
        return table.at(refusal("exchange.time_unreadable", {}, {{"cell", table.text(row, "time")}}), row, "time");
    BarometerReading reading;
    reading.id = table.line(row);
    reading.point = point;
    reading.time_s = *time_s;
    reading.pressure_Pa = *table.number(row, "pressure");
    reading.temperature_C = table.number(row, "temperature");
    reading.relative_humidity = table.number(row, "humidity");
    list.readings.push_back(std::move(reading));
    list.rows.push_back(row);
    return {};
}

BarometerOptions options_of(const ReduceTable& table) {
    BarometerOptions options;
    if (!table.text_parameter("base").empty())
        options.base = table.text_parameter("base");
    options.noise_Pa = *table.parameter("noise");
    options.resolution_Pa = *table.parameter("resolution");
    options.temperature_u_K = *table.parameter("temperature_uncertainty");
    options.latitude_deg = table.parameter("latitude");
    return options;
}

Reduction reduction_of(const BarometerSurvey& survey, const RowPlaces& places) {
    Reduction reduction;
    ResultTable each{"exchange.table.rises",
                     {{"exchange.result.point", {}},
                      {"exchange.result.time", Quantity::Time},
                      {"exchange.result.rise_above_base", Quantity::Length}},
                     {}};
    const double start_s = survey.rises.front().time_s;
    for (const BarometerRise& one : survey.rises) {
        reduction.results.push_back(
            {"exchange.result.rise_above_base", one.point, one.rise.estimate(), Quantity::Length});
        each.rows.push_back({one.point, Estimate{one.time_s - start_s, 0.0}, one.rise.estimate()});
        reduction.findings.insert(reduction.findings.end(), one.rise.findings.begin(), one.rise.findings.end());
    }
    for (const BarometerDrift& drift : survey.drift)
        reduction.results.push_back({"exchange.result.drift", {}, {drift.change_Pa, 0.0}, Quantity::Pressure});
    if (survey.offset)
        reduction.results.push_back({"exchange.result.offset", {}, survey.offset->offset_Pa, Quantity::Pressure});
    reduction.tables.push_back(std::move(each));
    for (const Finding& finding : survey.findings)
        reduction.findings.push_back(places.put(finding));
    return reduction;
}

Expected<Reduction> reduce_barometer(const ReduceTable& table) {
    List list;
    for (std::size_t row = 0; row < table.size(); ++row)
        if (const Expected<void> added = add_reading(table, row, table.text(row, "point"), list); !added)
            return added.error();
    const RowPlaces places{table, list.rows, kPlaces};
    const Expected<BarometerSurvey> survey = barometer_with_returns(list.readings, options_of(table));
    if (!survey)
        return places.put(survey.error());
    return reduction_of(*survey, places);
}

Expected<Reduction> reduce_barometer_pair(const ReduceTable& table) {
    const BarometerOptions options = options_of(table);
    List base;
    List rover;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const std::string& role = table.text(row, "role");
        if (role != kBase && role != "rover")
            return table.at(refusal("exchange.role_unknown", {}, {{"cell", role}, {"accepted", "base, rover"}}), row,
                            "role");
        std::string point = table.text(row, "point");
        if (point.empty() && role == kBase)
            point = options.base.value_or(kBase);
        if (const Expected<void> added = add_reading(table, row, point, role == kBase ? base : rover); !added)
            return added.error();
    }
    const RowPlaces places{table, rover.rows, kPlaces};
    const Expected<BarometerSurvey> survey = barometer_base_and_rover(base.readings, rover.readings, options);
    if (!survey) {
        const bool of_base = survey.error().where.starts_with("base.");
        return of_base ? RowPlaces{table, base.rows, kBasePlaces}.put(survey.error()) : places.put(survey.error());
    }
    return reduction_of(*survey, places);
}

} // namespace

const ReduceMethod& barometer_method() {
    static constexpr ReduceMethod method{"barometer", "exchange.method.barometer", kColumns, kParameters,
                                         reduce_barometer};
    return method;
}

const ReduceMethod& barometer_base_method() {
    static constexpr ReduceMethod method{"barometer-base", "exchange.method.barometer_base", kPairColumns, kParameters,
                                         reduce_barometer_pair};
    return method;
}

} // namespace rillmark
