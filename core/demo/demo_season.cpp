// SPDX-License-Identifier: GPL-3.0-or-later
#include "demo/demo_season.h"

#include "site/series_values.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numbers>
#include <random>

namespace rillmark::demo {

namespace {

using std::chrono::days;
using std::chrono::sys_days;
using std::chrono::year;

constexpr sys_days kFirstDay{year(2020) / 1 / 1};
constexpr sys_days kLastDay{year(2026) / 9 / 30};
constexpr std::size_t kGapStarts = 1200; // the logger's battery
constexpr std::size_t kGapDays = 9;
constexpr double kDayOfThaw = 125.0; // early in May

/// Water that the catchment holds back, by the day of the year: full after the thaw, spent in September [m3/s].
double slow_flow_m3s(double day_of_year) {
    const double thaw = std::exp(-std::pow((day_of_year - kDayOfThaw) / 32.0, 2));
    const double winter = 0.5 + 0.5 * std::cos(2.0 * std::numbers::pi * (day_of_year - 15.0) / 365.0);
    return 0.050 + 0.13 * thaw + 0.055 * winter;
}

/// One visit by floats: a channel of one width, its depth, and the time over ten metres.
struct FloatVisit {
    const char* name;
    const char* at;
    double stage_m;
    double depth_m;
    std::array<double, 5> times_s;
};
constexpr double kReach_m = 10.0;
constexpr double kWidth_m = 2.4;
constexpr std::array<FloatVisit, 3> kVisits{
    {{"Thaw, by floats", "2026-05-02T16:30:00.000Z", 0.51, 0.30, {32.4, 34.6, 31.9, 35.3, 33.0}},
     {"After rain, by floats", "2026-06-11T15:10:00.000Z", 0.465, 0.26, {37.0, 39.8, 35.9, 38.4, 40.1}},
     {"Early summer, by floats", "2026-07-03T18:20:00.000Z", 0.37, 0.19, {61.5, 58.2, 66.4, 63.8, 60.1}}}};

Expected<void> book_visit(Project::Batch& batch, const FloatVisit& visit) {
    FlowTestRow test;
    test.method = "float";
    test.name = visit.name;
    test.note = "Straight reach above the gauging reach; calm.";
    test.stage_m = visit.stage_m;
    test.length_m = kReach_m;
    test.width_m = kWidth_m;
    test.created_at = visit.at;
    const Expected<Id> id = batch.book(test);
    if (!id)
        return id.error();
    std::int64_t position = 0;
    const auto reading = [&](const char* role) {
        FlowReadingRow row;
        row.test_id = *id;
        row.position = position++;
        row.role = role;
        row.observed_at = visit.at;
        return row;
    };
    for (const double part : {0.0, 0.15, 0.5, 0.85, 1.0}) {
        FlowReadingRow sounding = reading("sounding");
        sounding.distance_m = part * kWidth_m;
        sounding.depth_m = part == 0.0 || part == 1.0 ? 0.0 : visit.depth_m;
        sounding.typed = fmt::format("{:.2f} m, {:.2f} m", *sounding.distance_m, *sounding.depth_m);
        if (const Expected<Id> booked = batch.book(sounding); !booked)
            return booked.error();
    }
    for (const double time_s : visit.times_s) {
        FlowReadingRow run = reading("run");
        run.time_s = time_s;
        run.typed = fmt::format("{:.1f} s", time_s);
        if (const Expected<Id> booked = batch.book(run); !booked)
            return booked.error();
    }
    return {};
}

} // namespace

DailyFlow neighbour_flows() {
    DailyFlow series;
    series.first = kFirstDay;
    std::minstd_rand random(20260924); // its numbers are the same everywhere, as those of a distribution are not
    const auto chance = [&random] {
        return static_cast<double>(random() - std::minstd_rand::min()) /
               static_cast<double>(std::minstd_rand::max() - std::minstd_rand::min());
    };
    double storm_m3s = 0.0;
    double year_factor = 1.0;
    int last_year = 0;
    for (sys_days day = kFirstDay; day <= kLastDay; day += days(1)) {
        const std::chrono::year_month_day date(day);
        if (static_cast<int>(date.year()) != last_year) { // dry years and wet ones
            last_year = static_cast<int>(date.year());
            year_factor = 0.75 + 0.5 * chance();
        }
        const double day_of_year = static_cast<double>((day - sys_days(date.year() / 1 / 1)).count());
        const double wet = day_of_year > 180.0 && day_of_year < 265.0 ? 0.05 : 0.14; // chance of rain that runs off
        storm_m3s *= 0.72;
        if (chance() < wet)
            storm_m3s += 0.02 + 0.25 * std::pow(chance(), 3);
        const std::size_t place = series.flow_m3s.size();
        if (place >= kGapStarts && place < kGapStarts + kGapDays)
            series.flow_m3s.emplace_back();
        else
            series.flow_m3s.emplace_back(std::round((year_factor * slow_flow_m3s(day_of_year) + storm_m3s) * 1e4) /
                                         1e4);
    }
    return series;
}

Expected<void> book_season(Project& project) {
    FlowSeriesRow series;
    series.kind = kDailyFlowSeries;
    series.name = "Tamsel Brook at the old bridge";
    series.note = "Invented: a neighbour two valleys east, gauged since 2020.";
    series.unit = "m3/s";
    series.catchment_m2 = 4.1e6;
    series.created_at = "2026-09-23T19:00:00.000Z";
    std::vector<FlowSeriesBlockRow> blocks = daily_blocks(neighbour_flows());
    for (FlowSeriesBlockRow& block : blocks)
        block.observed_at = series.created_at;
    if (const Expected<Id> booked = book_series(project, series, std::move(blocks)); !booked)
        return booked.error();
    if (Expected<void> visits = project.together([](Project::Batch& batch) -> Expected<void> {
            for (const FloatVisit& visit : kVisits)
                if (Expected<void> done = book_visit(batch, visit); !done)
                    return done;
            return {};
        });
        !visits)
        return visits;
    Expected<SiteRow> site = project.site();
    if (!site)
        return site.error();
    site->transfer = "area";
    site->catchment_m2 = 2.6e6;
    site->zero_flow_stage_m = 0.2;
    site->year_begins = 3;
    return project.change(*site);
}

} // namespace rillmark::demo
