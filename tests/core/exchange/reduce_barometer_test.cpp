// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/clock_time.h"
#include "exchange/reduce.h"

#include "checks/checks.h"
#include "exchange_fixtures.h"
#include "heights/atmosphere.h"
#include "heights/barometer.h"

#include <fmt/format.h>

namespace rillmark {
namespace {

using namespace exchange_fixtures;

TEST(ClockTime, AsLoggersWriteIt) {
    EXPECT_EQ(clock_time_s("12.5"), 12.5);
    EXPECT_EQ(clock_time_s("-3"), -3.0);
    EXPECT_EQ(clock_time_s("7:05"), 25500.0);
    EXPECT_EQ(clock_time_s("07:05:09.5"), 25509.5);
    EXPECT_EQ(clock_time_s("1970-01-02 00:00:01"), 86401.0);
    EXPECT_EQ(clock_time_s("2026-03-01T07:05:09Z"), 1772348709.0);
    EXPECT_EQ(clock_time_s("2024-02-29 00:00"), clock_time_s("2024-02-28 23:59:00").value() + 60.0);
}

TEST(ClockTime, NothingForOtherText) {
    for (const char* text : {"",
                             ":",
                             "::",
                             "24:00",
                             "7:60",
                             "7:5",
                             "7:05:",
                             "7:05:60",
                             "7:05:9",
                             "-1:00",
                             "noon",
                             "1e5",
                             "inf",
                             "nan",
                             "2026-02-30 07:00",
                             "2026-13-01 07:00",
                             "2026-03-01",
                             "2026/03/01 07:00",
                             "2026-03-01 ",
                             "2026-03-01T:",
                             "07:05 pm",
                             "+7:05",
                             "7:-5",
                             "26-03-01 07:05:00"})
        EXPECT_FALSE(clock_time_s(text).has_value()) << text;
}

TEST(ReduceBarometer, CreekWithReturn) {
    const auto check = checks::entry("barometer", "baro-vs-isa");
    const auto& in = check["inputs"];
    for (std::size_t i = 0; i < in["lower_p_hpa"].size(); ++i) {
        const double lower_hPa = in["lower_p_hpa"][i];
        const double upper_hPa = in["upper_p_hpa"][i];
        const double lower_C = in["lower_t_c"][i];
        const double upper_C = in["upper_t_c"][i];
        const std::string csv = fmt::format("point,time,pressure_hPa,temperature,humidity\n"
                                            "house,9:00,{0},{1},0\nintake,9:20,{2},{3},0\nhouse,9:40,{0},{1},0\n",
                                            lower_hPa, lower_C, upper_hPa, upper_C);
        const Reduction r = reduced("barometer", csv, {{"latitude", "45.54"}});
        const double expected_m = check["expected"]["dz_hypsometric_m"][i];
        // the source takes gravity at the sea; it is less by 3.086e-6 m/s2 a metre
        const double gravity = 1.0 - 3.086e-6 / kStandardGravity_ms2 * *standard_height_m(100.0 * lower_hPa);
        EXPECT_NEAR(result(r, "rise_above_base").value, expected_m / gravity,
                    check["tolerance"]["abs_m"].get<double>());
        EXPECT_EQ(r.results[0].subject, "intake");
        EXPECT_EQ(result(r, "drift").value, 0.0);
        EXPECT_TRUE(r.findings.empty());
    }
}

TEST(ReduceBarometer, AsTheComputation) {
    const Reduction r = reduced(
        "barometer", "point;time;pressure_hPa;temperature_degF\nhaus;0;900,0;59\nbach;600;890,0;\nhaus;1200;900,2;59\n",
        {{"noise", "20 Pa"}, {"resolution_hPa", "0.1"}});
    std::vector<BarometerReading> readings(3);
    readings[0] = {2, "haus", 0.0, 90000.0, 15.0, {}, false};
    readings[1] = {3, "bach", 600.0, 89000.0, {}, {}, false};
    readings[2] = {4, "haus", 1200.0, 90020.0, 15.0, {}, false};
    BarometerOptions options;
    options.noise_Pa = 20.0;
    options.resolution_Pa = 10.0;
    const Estimate expected = barometer_with_returns(readings, options)->rises[0].rise.estimate();
    EXPECT_NEAR(result(r, "rise_above_base").value, expected.value, 1e-6);
    EXPECT_NEAR(result(r, "rise_above_base").standard_uncertainty, expected.standard_uncertainty, 1e-6);
    EXPECT_NEAR(result(r, "drift").value, 20.0, 1e-6);
    ASSERT_EQ(r.tables.size(), 1u);
    EXPECT_EQ(r.tables[0].rows.size(), 1u);
}

TEST(ReduceBarometer, FindingsHaveTheirPlace) {
    expect_refused(reduce("barometer", "point,time,pressure_hPa\na,9:00,900\nb,8:59,890\n"), "levels.clock_backwards",
                   3, "time");
    expect_refused(reduce("barometer", "point,time,pressure_hPa\na,23:50,900\nb,0:10,890\n"), "levels.clock_midnight",
                   3, "time");
    expect_refused(reduce("barometer", "point,time,pressure_hPa\na,0,900\nb,1,89\n"), "levels.pressure_impossible", 3,
                   "pressure");
    expect_refused(reduce("barometer", "point,time,pressure_hPa\na,0,900\nb,soon,890\n"), "exchange.time_unreadable", 3,
                   "time");
    expect_refused(reduce("barometer", "point,time,pressure_hPa,humidity\na,0,900,50 %\nb,1,890,120 %\n"),
                   "levels.humidity_impossible", 3, "humidity");
    EXPECT_EQ(reduce("barometer", "point,time,pressure_hPa\na,0,900\n").error().code, "levels.barometer_no_points");
    EXPECT_EQ(reduce("barometer", "point,time,pressure_hPa\na,0,900\nb,1,890\n", {{"noise", "-1"}}).error().code,
              "levels.barometer_option_impossible");
    const Reduction open = reduced("barometer", "point,time,pressure_hPa\na,0,900\n\nb,60,890\n");
    ASSERT_EQ(open.findings.size(), 2u);
    EXPECT_EQ(open.findings[0].code, "levels.barometer_no_return");
    EXPECT_EQ(argument(open.findings[0], "line"), "4");
    EXPECT_EQ(argument(open.findings[0], "row"), "4");
}

TEST(ReduceBarometerPair, OneFileTwoRoles) {
    const std::string csv = "role,point,time,pressure_hPa,temperature\n"
                            "base,,0,900,15\nrover,base,0,901,15\nrover,intake,300,891.5,15\nbase,,600,901,15\n";
    const Reduction r = reduced("barometer-base", csv);
    EXPECT_NEAR(result(r, "offset").value, 100.0, 1e-6);
    const Reduction still =
        reduced("barometer", "point,time,pressure_hPa,temperature\nbase,0,900.5,15\nintake,1,890.5,15\n");
    EXPECT_NEAR(result(r, "rise_above_base").value, result(still, "rise_above_base").value, 1e-3);
    EXPECT_TRUE(r.findings.empty());
}

TEST(ReduceBarometerPair, FindingsHaveTheirPlace) {
    const std::string header = "role,point,time,pressure_hPa\n";
    expect_refused(reduce("barometer-base", header + "base,,0,900\nrover,a,5,890\nbase,,10,90\n"),
                   "levels.pressure_impossible", 4, "pressure");
    expect_refused(reduce("barometer-base", header + "base,,0,900\nbase,,9,900\nrover,a,5,890\nrover,b,4,890\n"),
                   "levels.clock_backwards", 5, "time");
    expect_refused(reduce("barometer-base", header + "base,,0,900\nrover,,5,890\n"), "levels.point_unnamed", 3,
                   "point");
    expect_refused(reduce("barometer-base", header + "base,,0,900\nwalker,a,5,890\n"), "exchange.role_unknown", 3,
                   "role");
    EXPECT_EQ(reduce("barometer-base", header + "base,,0,900\n").error().code, "levels.barometer_no_readings");
    const Reduction late =
        reduced("barometer-base", header + "base,,0,900\nbase,,60,900\nrover,a,30,890\nrover,b,5000,890\n");
    const auto hit = std::ranges::find(late.findings, "levels.reading_beyond_base_log", &Finding::code);
    ASSERT_NE(hit, late.findings.end());
    EXPECT_EQ(argument(*hit, "line"), "5");
}

} // namespace
} // namespace rillmark
