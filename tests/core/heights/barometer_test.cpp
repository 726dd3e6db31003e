// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/barometer.h"

#include "barometer_fixtures.h"
#include "checks/checks.h"
#include "heights/atmosphere.h"
#include "water/gravity.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace rillmark {
namespace {

using namespace barometer_fixtures;

// The published heights take standard gravity, which at this latitude is that of the sea level.
constexpr double kStandardGravityLatitude_deg = 45.5425;

TEST(Barometer, RiseOfACreekWithMeasuredTemperature) {
    const auto check = checks::entry("barometer", "baro-vs-isa");
    const auto& in = check["inputs"];
    BarometerOptions options;
    options.latitude_deg = kStandardGravityLatitude_deg;
    for (std::size_t i = 0; i < in["lower_p_hpa"].size(); ++i) {
        const auto survey = barometer_with_returns({at("intake", 0, in["upper_p_hpa"][i], in["upper_t_c"][i]),
                                                    at("house", 20, in["lower_p_hpa"][i], in["lower_t_c"][i]),
                                                    at("intake", 40, in["upper_p_hpa"][i], in["upper_t_c"][i])},
                                                   options);
        ASSERT_TRUE(survey.ok());
        ASSERT_EQ(survey->rises.size(), 1u);
        const double base_Pa = 100.0 * in["upper_p_hpa"][i].get<double>();
        const double gravity_ms2 = *normal_gravity_ms2({kStandardGravityLatitude_deg, *standard_height_m(base_Pa)});
        const double expected_m = check["expected"]["dz_hypsometric_m"][i];
        EXPECT_NEAR(-survey->rises[0].rise.rise_m, expected_m * kStandardGravity_ms2 / gravity_ms2,
                    check["tolerance"]["abs_m"].get<double>());
        EXPECT_TRUE(survey->findings.empty());
    }
}

TEST(Barometer, DriftIsSharedByTime) {
    // the weather falls by 0.4 hPa in 40 minutes: after 10 minutes 0.1 hPa
    const auto survey = barometer_with_returns(
        {at("base", 0, 900.0, 15.0), at("a", 10, 893.9, 15.0), at("b", 30, 899.7, 15.0), at("base", 40, 899.6, 15.0)});
    ASSERT_TRUE(survey.ok());
    const double expected_m = kGasConstantOfDryAir_J_per_kg_K * 288.15 / 9.8031 * std::log(899.9 / 893.9);
    EXPECT_NEAR(survey->rises[0].rise.rise_m, expected_m, 0.01); // gravity to 1e-4
    EXPECT_NEAR(survey->rises[1].rise.rise_m, 0.0, 1e-9);
    ASSERT_EQ(survey->drift.size(), 1u);
    EXPECT_NEAR(survey->drift[0].change_Pa, -40.0, 1e-9);
    ASSERT_EQ(survey->rises[1].rise.findings.size(), 1u);
    EXPECT_EQ(survey->rises[1].rise.findings[0].code, "levels.barometer_rise_unsure");
    EXPECT_TRUE(survey->rises[0].rise.findings.empty());
}

TEST(Barometer, WhatTheUncertaintyIsMadeOf) {
    BarometerOptions options;
    options.series = "s";
    options.noise_Pa = 10.0;
    options.steady_tendency_Pa_per_s = 0.01;
    const auto survey = barometer_with_returns(
        {at("base", 0, 900.0, 15.0), at("a", 10, 890.0, 15.0), at("base", 40, 900.0, 15.0)}, options);
    ASSERT_TRUE(survey.ok());
    const MeasuredRise& rise = survey->rises[0].rise;
    const double metres_per_Pa = kGasConstantOfDryAir_J_per_kg_K * 288.15 / 9.8031 / 90000.0;
    EXPECT_NEAR(metres_per_Pa, 0.0938, 0.0002); // 0.1 hPa = 0.94 m near 900 hPa and 15 C
    EXPECT_NEAR(rise.random_m, 10.0 * metres_per_Pa * 900.0 / 890.0, 1e-3);
    EXPECT_NEAR(effect(rise, "levels.barometer_drift"), metres_per_Pa * 0.01 * 600.0 * 1800.0 / 2400.0, 1e-3);
    EXPECT_NEAR(effect(rise, "levels.barometer_base_reading"), metres_per_Pa * 10.0, 1e-3); // 3/4 and 1/4
    EXPECT_NEAR(effect(rise, "levels.air_temperature"), rise.rise_m * 2.0 / 288.15, 1e-9);
    EXPECT_NEAR(effect(rise, "levels.gravity"), rise.rise_m * kAssumedGravity_u_rel, 1e-9);
    EXPECT_EQ(rise.shared[0].key, "barometer-base:s:0");
    EXPECT_EQ(rise.shared[1].key, "barometer-base:s:1");
    EXPECT_EQ(rise.shared[2].key, "barometer-drift:s:1");
    EXPECT_EQ(rise.shared[3].key, "air-temperature:s");
}

TEST(Barometer, WithoutReturnTheDriftCounts) {
    const std::vector<BarometerReading> open{at("base", 0, 900.0, 15.0), at("a", 60, 890.0, 15.0)};
    const auto survey = barometer_with_returns(open);
    ASSERT_TRUE(survey.ok());
    EXPECT_NEAR(effect(survey->rises[0].rise, "levels.barometer_drift"), 9.4, 0.1); // 1 hPa
    const Finding* told = find_code(survey->findings, "levels.barometer_no_return");
    ASSERT_NE(told, nullptr);
    EXPECT_EQ(number(*told, "row"), 2.0);
    EXPECT_EQ(number(*told, "count"), 1.0);
    EXPECT_NEAR(number(*told, "plus_minus"), survey->rises[0].rise.estimate().expanded(), 1e-12);

    const auto closed = barometer_with_returns({open[0], open[1], at("base", 120, 900.0, 15.0)});
    ASSERT_TRUE(closed.ok());
    EXPECT_EQ(find_code(closed->findings, "levels.barometer_no_return"), nullptr);
    EXPECT_LT(closed->rises[0].rise.estimate().standard_uncertainty,
              0.4 * survey->rises[0].rise.estimate().standard_uncertainty);
}

TEST(Barometer, MissingTemperatureCosts) {
    const auto survey = barometer_with_returns({at("base", 0, 893.4), at("a", 10, 887.1), at("base", 20, 893.4)});
    ASSERT_TRUE(survey.ok());
    // the standard heights of the same pressures
    EXPECT_NEAR(survey->rises[0].rise.rise_m, *standard_height_m(88710.0) - *standard_height_m(89340.0), 0.05);
    const Finding* told = find_code(survey->findings, "levels.barometer_no_temperature");
    ASSERT_NE(told, nullptr);
    EXPECT_NEAR(number(*told, "plus_minus"), 2.0 * 58.24 * 10.0 / 281.6, 0.05);

    // one end is enough
    const auto one = barometer_with_returns({at("base", 0, 893.4), at("a", 10, 887.1, 17.8), at("base", 20, 893.4)});
    const auto both =
        barometer_with_returns({at("base", 0, 893.4, 17.8), at("a", 10, 887.1, 17.8), at("base", 20, 893.4)});
    ASSERT_TRUE(one.ok() && both.ok());
    EXPECT_EQ(find_code(one->findings, "levels.barometer_no_temperature"), nullptr);
    EXPECT_NEAR(one->rises[0].rise.rise_m, both->rises[0].rise.rise_m, 1e-9);
}

TEST(Barometer, MoistureIsReadOrAssumed) {
    std::vector<BarometerReading> readings{at("base", 0, 950.0, 30.0), at("a", 10, 940.0, 30.0),
                                           at("base", 20, 950.0, 30.0)};
    const double dry_m = barometer_with_returns(readings)->rises[0].rise.rise_m;
    for (BarometerReading& reading : readings)
        reading.relative_humidity = 1.0;
    const double wet_m = barometer_with_returns(readings)->rises[0].rise.rise_m;
    for (BarometerReading& reading : readings)
        reading.relative_humidity.reset();
    const auto unknown = barometer_with_returns(readings);
    const double between_m = unknown->rises[0].rise.rise_m;
    EXPECT_NEAR(wet_m / dry_m, 1.0175, 0.0005);
    EXPECT_NEAR((between_m - dry_m) / (wet_m - dry_m), kAssumedHumidity, 0.01);
    EXPECT_GT(effect(unknown->rises[0].rise, "levels.air_temperature"), between_m * 2.0 / 303.15 * 1.05);
}

TEST(Barometer, TimeShiftAndTimeReversalChangeNothing) {
    std::mt19937 random(20240510);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (int trial = 0; trial < 200; ++trial) {
        std::vector<BarometerReading> there;
        for (int i = 0; i < 12; ++i)
            there.push_back(at(i % 4 == 0 ? "base" : "p" + std::to_string(i), 7.0 * i + 5.0 * unit(random),
                               900.0 + unit(random), 10.0 + unit(random)));
        std::vector<BarometerReading> later = there;
        std::vector<BarometerReading> back(there.rbegin(), there.rend());
        for (BarometerReading& reading : later)
            reading.time_s += 1e6;
        for (BarometerReading& reading : back)
            reading.time_s = -reading.time_s;
        BarometerOptions options;
        options.base = "base";
        const auto a = barometer_with_returns(there, options);
        const auto b = barometer_with_returns(later, options);
        const auto c = barometer_with_returns(back, options);
        ASSERT_TRUE(a.ok() && b.ok() && c.ok());
        const std::size_t n = a->rises.size();
        ASSERT_EQ(n, 9u);
        for (std::size_t i = 0; i < n; ++i) {
            const Estimate expected = a->rises[i].rise.estimate();
            for (const Estimate& other : {b->rises[i].rise.estimate(), c->rises[n - 1 - i].rise.estimate()}) {
                EXPECT_NEAR(other.value, expected.value, 1e-6);
                EXPECT_NEAR(other.standard_uncertainty, expected.standard_uncertainty, 1e-6);
            }
        }
    }
}

TEST(Barometer, TurningTheSurveyRoundTurnsTheSign) {
    const auto up =
        barometer_with_returns({at("a", 0, 900.0, 15.0), at("b", 10, 890.0, 12.0), at("a", 20, 900.0, 15.0)});
    const auto down =
        barometer_with_returns({at("b", 0, 890.0, 12.0), at("a", 10, 900.0, 15.0), at("b", 20, 890.0, 12.0)});
    ASSERT_TRUE(up.ok() && down.ok());
    EXPECT_NEAR(up->rises[0].rise.rise_m, -down->rises[0].rise.rise_m, 0.005); // gravity of the base's own height
}

TEST(Barometer, TellsOfWeatherAndLongLoops) {
    const auto survey = barometer_with_returns({at("base", 0, 900.0, 15.0), at("a", 30, 893.9, 15.0),
                                                at("base", 60, 898.5, 15.0), at("base", 300, 898.4, 15.0)});
    ASSERT_TRUE(survey.ok());
    const Finding* told = find_code(survey->findings, "levels.barometer_drift_large");
    ASSERT_NE(told, nullptr);
    EXPECT_EQ(number(*told, "row"), 3.0);
    EXPECT_NEAR(number(*told, "drift"), 150.0, 1e-9);
    EXPECT_EQ(find_code(survey->findings, "levels.barometer_loop_long"), nullptr); // nothing was read in it
    const auto longer =
        barometer_with_returns({at("base", 0, 900.0, 15.0), at("a", 30, 893.9, 15.0), at("base", 150, 900.0, 15.0)});
    ASSERT_TRUE(longer.ok());
    ASSERT_NE(find_code(longer->findings, "levels.barometer_loop_long"), nullptr);
    // 0.2 hPa of noise in a minute is not weather
    const auto brief =
        barometer_with_returns({at("base", 0, 900.0, 15.0), at("a", 1, 893.9, 15.0), at("base", 2, 900.2, 15.0)});
    EXPECT_TRUE(brief->findings.empty());
}

TEST(Barometer, StruckReadingsAreLeftOut) {
    std::vector<BarometerReading> readings{at("base", 0, 900.0, 15.0), at("a", 10, 890.0, 15.0),
                                           at("base", 40, 900.0, 15.0)};
    const auto without = barometer_with_returns(readings);
    BarometerReading bad = at("", kNaN, -5.0);
    bad.struck = true;
    readings.insert(readings.begin() + 1, bad);
    const auto with = barometer_with_returns(readings);
    ASSERT_TRUE(without.ok() && with.ok());
    EXPECT_EQ(with->rises[0].rise.rise_m, without->rises[0].rise.rise_m);
}

// Tendency, noise and temperature drawn as the model has them: what is stated as +/- holds the true rise in 95 %.
TEST(Barometer, CoverageOfOneInstrument) {
    std::mt19937 random(20240511);
    std::normal_distribution<double> normal;
    constexpr int kTrials = 2000;
    int covered = 0;
    const double true_rise_m = 120.0;
    BarometerOptions options;
    options.latitude_deg = kStandardGravityLatitude_deg;
    for (int trial = 0; trial < kTrials; ++trial) {
        const double base_Pa = 90000.0;
        const double true_K = 288.15 + kAirTemperature_u_K * normal(random);
        const double even = 10.0 / 3600.0 * normal(random);
        const double uneven = kSteadyTendency_Pa_per_s * normal(random);
        const double loop_s = 3600.0;
        const double time_s = 600.0 + 40.0 * (trial % 60);
        const auto noisy = [&](double pressure_Pa) {
            return (pressure_Pa + kBarometerNoise_Pa * normal(random)) / 100.0;
        };
        const double here_Pa = base_Pa + even * time_s + uneven * time_s * (loop_s - time_s) / loop_s;
        const double point_Pa = here_Pa * std::exp(-true_rise_m * 9.8035 / (kGasConstantOfDryAir_J_per_kg_K * true_K));
        const auto survey = barometer_with_returns(
            {at("base", 0, noisy(base_Pa), 15.0), at("a", time_s / kMinute_s, noisy(point_Pa), 15.0),
             at("base", loop_s / kMinute_s, noisy(base_Pa + even * loop_s), 15.0)},
            options);
        ASSERT_TRUE(survey.ok());
        const Estimate rise = survey->rises[0].rise.estimate();
        covered += std::abs(rise.value - true_rise_m) <= rise.expanded();
    }
    EXPECT_GE(covered, 0.93 * kTrials);
    EXPECT_LE(covered, 0.97 * kTrials);
}

TEST(Barometer, RefusesBadReadings) {
    const BarometerReading base = at("base", 0, 900.0, 15.0);
    const auto refused = [&](const BarometerReading& second) {
        const auto survey = barometer_with_returns({base, second, at("base", 100, 900.0)});
        EXPECT_FALSE(survey.ok());
        const Finding finding = survey.ok() ? note("none") : survey.error();
        EXPECT_EQ(number(finding, "row"), 2.0) << finding.code;
        return finding.code;
    };
    for (const double bad : {kNaN, kInfinity, -900.0, 0.0, 9.0, 299.0, 1101.0, 90000.0})
        EXPECT_EQ(refused(at("a", 10, bad)), "levels.pressure_impossible") << bad;
    for (const double bad : {kNaN, -kInfinity, -61.0, 288.0})
        EXPECT_EQ(refused(at("a", 10, 890.0, bad)), "levels.air_temperature_impossible") << bad;
    BarometerReading damp = at("a", 10, 890.0, 15.0);
    for (const double bad : {kNaN, -0.01, 1.01, 60.0}) {
        damp.relative_humidity = bad;
        EXPECT_EQ(refused(damp), "levels.humidity_impossible") << bad;
    }
    for (const double bad : {kNaN, kInfinity, 1e300})
        EXPECT_EQ(refused(at("a", bad, 890.0)), "levels.time_impossible") << bad;
    EXPECT_EQ(refused(at("", 10, 890.0)), "levels.point_unnamed");
    EXPECT_EQ(refused(at("a", -10, 890.0)), "levels.clock_backwards");
    const auto midnight = barometer_with_returns({at("base", 23 * 60 + 50, 900.0), at("a", 5, 890.0)});
    ASSERT_FALSE(midnight.ok());
    EXPECT_EQ(midnight.error().code, "levels.clock_midnight");
    EXPECT_EQ(number(midnight.error(), "row"), 2.0);
}

TEST(Barometer, RefusesWhatIsNoSurvey) {
    EXPECT_EQ(barometer_with_returns({}).error().code, "levels.barometer_no_readings");
    EXPECT_EQ(barometer_with_returns({at("base", 0, 900.0), at("base", 9, 900.0)}).error().code,
              "levels.barometer_no_points");
    BarometerOptions options;
    options.base = "elsewhere";
    EXPECT_EQ(barometer_with_returns({at("base", 0, 900.0), at("a", 9, 900.0)}, options).error().code,
              "levels.barometer_base_missing");
    struct Field {
        const char* name;
        double BarometerOptions::*member;
    };
    const std::vector<BarometerReading> good{at("base", 0, 900.0), at("a", 9, 900.0)};
    for (const Field& field :
         {Field{"noise_Pa", &BarometerOptions::noise_Pa}, Field{"resolution_Pa", &BarometerOptions::resolution_Pa},
          Field{"temperature_u_K", &BarometerOptions::temperature_u_K},
          Field{"steady_tendency_Pa_per_s", &BarometerOptions::steady_tendency_Pa_per_s},
          Field{"open_tendency_Pa_per_s", &BarometerOptions::open_tendency_Pa_per_s}})
        for (const double bad : {kNaN, -1.0, 1e9}) {
            BarometerOptions wrong;
            wrong.*field.member = bad;
            const auto survey = barometer_with_returns(good, wrong);
            ASSERT_FALSE(survey.ok()) << field.name << bad;
            EXPECT_EQ(survey.error().code, "levels.barometer_option_impossible");
            EXPECT_EQ(survey.error().where, field.name);
        }
    BarometerOptions wrong;
    wrong.latitude_deg = 91.0;
    EXPECT_EQ(barometer_with_returns(good, wrong).error().where, "latitude_deg");
}

} // namespace
} // namespace rillmark
