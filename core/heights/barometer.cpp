// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/barometer.h"

#include "heights/barometer_readings.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

/// Rows that one finding speaks of together.
struct Rows {
    std::int64_t first = 0;
    std::int64_t count = 0;
    double worst = 0.0; // the largest of what the finding names

    void add(std::int64_t row, double value) {
        if (count++ == 0)
            first = row;
        worst = std::max(worst, value);
    }
    [[nodiscard]] std::vector<Arg> args(const char* name, Quantity quantity) const {
        return {{"row", first}, {"count", count}, {name, worst, quantity}};
    }
};

struct Computed {
    Rows open;        // worst: plus-minus, m
    Rows temperature; // worst: what one standard uncertainty of the temperature moves, m
};

Expected<void> add_rise(const UsedReading& used, const BarometerColumn& column, const BarometerOptions& options,
                        BarometerSurvey& survey, Computed& computed) {
    Expected<ColumnRise> one = rise_of(column, options);
    if (!one) {
        Finding bad = one.error();
        bad.args.push_back({"row", used.row});
        return bad;
    }
    const Estimate estimate = one->rise.estimate();
    if (column.base.open)
        computed.open.add(used.row, estimate.expanded());
    if (one->temperature_assumed)
        for (const SharedEffect& effect : one->rise.shared)
            if (effect.source == "levels.air_temperature")
                computed.temperature.add(used.row, kCoverageFactor * std::abs(effect.effect_m));
    survey.rises.push_back({used.reading.id, used.reading.point, used.reading.time_s, std::move(one->rise)});
    return {};
}

void tell_temperature(const Computed& computed, BarometerSurvey& survey) {
    if (computed.temperature.count > 0)
        survey.findings.push_back(warning("levels.barometer_no_temperature", "temperature_C",
                                          computed.temperature.args("plus_minus", Quantity::Length)));
}

/// The drift of each loop that has readings in it.
void tell_drift(const std::vector<UsedReading>& base, const std::vector<std::size_t>& stretches,
                const BarometerOptions& options, BarometerSurvey& survey) {
    for (const std::size_t stretch : stretches) {
        const UsedReading& from = base[stretch - 1];
        const UsedReading& to = base[stretch];
        const double seconds = to.reading.time_s - from.reading.time_s;
        const double change_Pa = to.reading.pressure_Pa - from.reading.pressure_Pa;
        survey.drift.push_back({from.reading.time_s, to.reading.time_s, change_Pa});
        const bool beyond_noise = std::abs(change_Pa) > kCoverageFactor * std::sqrt(2.0) * reading_u_Pa(options);
        if (beyond_noise && std::abs(change_Pa) > kLargeDrift_Pa_per_s * seconds)
            survey.findings.push_back(warning("levels.barometer_drift_large", "pressure_Pa",
                                              {{"row", to.row},
                                               {"other", from.row},
                                               {"drift", std::abs(change_Pa), Quantity::Pressure},
                                               {"time", seconds, Quantity::Time}}));
        if (seconds > kLongLoop_s)
            survey.findings.push_back(note("levels.barometer_loop_long", "time_s",
                                           {{"row", to.row},
                                            {"other", from.row},
                                            {"time", seconds, Quantity::Time},
                                            {"limit", kLongLoop_s, Quantity::Time}}));
    }
}

Expected<BarometerOffset> offset_of(const std::vector<UsedReading>& base, const std::vector<UsedReading>& other,
                                    const BarometerOptions& options) {
    std::vector<double> differences_Pa;
    for (const UsedReading& used : other) {
        const BaseAir air = base_air_at(base, used.reading.time_s, options);
        if (!air.open)
            differences_Pa.push_back(used.reading.pressure_Pa - air.pressure_Pa);
    }
    if (differences_Pa.empty())
        return refusal("levels.barometers_nothing_common");
    const double count = static_cast<double>(differences_Pa.size());
    double sum_Pa = 0.0;
    for (const double difference : differences_Pa)
        sum_Pa += difference;
    const double mean_Pa = sum_Pa / count;
    double squares = 0.0;
    for (const double difference : differences_Pa)
        squares += (difference - mean_Pa) * (difference - mean_Pa);
    const double scatter_Pa = count > 1.0 ? std::sqrt(squares / (count - 1.0)) : 0.0;
    const double one_u_Pa = std::max(scatter_Pa, std::sqrt(2.0) * reading_u_Pa(options));
    return BarometerOffset{
        {mean_Pa, one_u_Pa / std::sqrt(count)}, differences_Pa.size(), differences_Pa.back() - differences_Pa.front()};
}

/// What the log says of the time of a rover reading, told once for all readings.
struct LogCover {
    Rows gap;
    Rows beside;
    Rows beyond;

    /// Whether the reading can be used.
    bool covers(const UsedReading& used, const BaseAir& air) {
        if (air.open && air.gap_s > kBeyondLog_s) {
            beyond.add(used.row, air.gap_s);
            return false;
        }
        if (air.open)
            beside.add(used.row, air.gap_s);
        else if (air.shares.size() > 1 && air.gap_s > kLongestLogGap_s)
            gap.add(used.row, air.gap_s);
        return true;
    }
    void tell(Findings& findings) const {
        if (gap.count > 0)
            findings.push_back(warning("levels.base_log_gap", "time_s", gap.args("gap", Quantity::Time)));
        if (beside.count > 0)
            findings.push_back(warning("levels.base_log_short", "time_s", beside.args("gap", Quantity::Time)));
        if (beyond.count > 0) {
            findings.push_back(warning("levels.reading_beyond_base_log", "time_s", beyond.args("gap", Quantity::Time)));
            findings.back().args.push_back({"limit", kBeyondLog_s, Quantity::Time});
        }
    }
};

/// The offset to take off and its uncertainty.
Estimate offset_for(const std::vector<UsedReading>& base, const std::vector<UsedReading>& at_base,
                    const BarometerOptions& options, BarometerSurvey& survey) {
    const Expected<BarometerOffset> offset = offset_of(base, at_base, options);
    if (!offset) {
        const double u_Pa = std::sqrt(2.0) * kBarometerAbsolute_u_Pa;
        survey.findings.push_back(
            warning("levels.barometer_offset_unknown", "point",
                    {{"point", survey.base}, {"plus_minus", kCoverageFactor * u_Pa, Quantity::Pressure}}));
        return {0.0, u_Pa};
    }
    survey.offset = *offset;
    // a difference of two differences, each of two readings
    const double limit_Pa = kCoverageFactor * 2.0 * reading_u_Pa(options);
    if (std::abs(offset->change_Pa) > limit_Pa)
        survey.findings.push_back(warning(
            "levels.barometers_apart", "pressure_Pa",
            {{"change", std::abs(offset->change_Pa), Quantity::Pressure}, {"limit", limit_Pa, Quantity::Pressure}}));
    if (std::abs(offset->offset_Pa.value) > kLargestOffset_Pa)
        survey.findings.push_back(warning("levels.barometer_offset_large", "pressure_Pa",
                                          {{"offset", offset->offset_Pa.value, Quantity::Pressure},
                                           {"limit", kLargestOffset_Pa, Quantity::Pressure}}));
    return offset->offset_Pa;
}

} // namespace

Expected<BarometerSurvey> barometer_with_returns(const std::vector<BarometerReading>& readings,
                                                 const BarometerOptions& options) {
    if (const Expected<void> good = check_options(options); !good)
        return good.error();
    const Expected<std::vector<UsedReading>> used = used_readings(readings, {});
    if (!used)
        return used.error();
    BarometerSurvey survey;
    survey.base = options.base.value_or(used->front().reading.point);
    std::vector<UsedReading> base;
    for (const UsedReading& one : *used)
        if (one.reading.point == survey.base)
            base.push_back(one);
    if (base.empty())
        return refusal("levels.barometer_base_missing", "point", {{"point", survey.base}});

    Computed computed;
    std::vector<std::size_t> stretches; // loops with readings in them
    for (const UsedReading& one : *used) {
        if (one.reading.point == survey.base)
            continue;
        const BaseAir air = base_air_at(base, one.reading.time_s, options);
        if (air.shares.size() > 1 && (stretches.empty() || stretches.back() != air.stretch))
            stretches.push_back(air.stretch);
        if (const Expected<void> done = add_rise(one, {one.reading, air}, options, survey, computed); !done)
            return done.error();
    }
    if (survey.rises.empty())
        return refusal("levels.barometer_no_points", "point", {{"point", survey.base}});
    tell_drift(base, stretches, options, survey);
    if (computed.open.count > 0)
        survey.findings.push_back(
            warning("levels.barometer_no_return", "time_s", computed.open.args("plus_minus", Quantity::Length)));
    tell_temperature(computed, survey);
    return survey;
}

Expected<BarometerSurvey> barometer_base_and_rover(const std::vector<BarometerReading>& base_log,
                                                   const std::vector<BarometerReading>& rover,
                                                   const BarometerOptions& options) {
    if (const Expected<void> good = check_options(options); !good)
        return good.error();
    const Expected<std::vector<UsedReading>> base = used_readings(base_log, "base.");
    if (!base)
        return base.error();
    const Expected<std::vector<UsedReading>> carried = used_readings(rover, {});
    if (!carried)
        return carried.error();
    BarometerSurvey survey;
    survey.base = options.base.value_or(base->front().reading.point);
    std::vector<UsedReading> at_base;
    for (const UsedReading& one : *carried)
        if (one.reading.point == survey.base)
            at_base.push_back(one);
    const Estimate offset_Pa = offset_for(*base, at_base, options, survey);

    Computed computed;
    LogCover cover;
    for (const UsedReading& one : *carried) {
        if (one.reading.point == survey.base)
            continue;
        const BaseAir air = base_air_at(*base, one.reading.time_s, options);
        if (!cover.covers(one, air))
            continue;
        BarometerReading corrected = one.reading;
        corrected.pressure_Pa -= offset_Pa.value;
        const BarometerColumn column{corrected, air, offset_Pa.standard_uncertainty};
        if (const Expected<void> done = add_rise(one, column, options, survey, computed); !done)
            return done.error();
    }
    if (survey.rises.empty())
        return refusal("levels.barometer_no_points", "point", {{"point", survey.base}});
    cover.tell(survey.findings);
    tell_temperature(computed, survey);
    return survey;
}

Expected<BarometerOffset> compare_barometers(const std::vector<BarometerReading>& base_log,
                                             const std::vector<BarometerReading>& other,
                                             const BarometerOptions& options) {
    if (const Expected<void> good = check_options(options); !good)
        return good.error();
    const Expected<std::vector<UsedReading>> base = used_readings(base_log, "base.");
    if (!base)
        return base.error();
    const Expected<std::vector<UsedReading>> carried = used_readings(other, {});
    if (!carried)
        return carried.error();
    return offset_of(*base, *carried, options);
}

} // namespace rillmark
