// SPDX-License-Identifier: GPL-3.0-or-later
// Two barometers: one logs at the base, one is carried.
#include "heights/barometer.h"

#include "barometer_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace rillmark {
namespace {

using namespace barometer_fixtures;

/// A log of every `step` minutes from 0 to `end` in which the pressure falls by 1 hPa per hour.
std::vector<BarometerReading> falling_log(double step, double end) {
    std::vector<BarometerReading> log;
    for (double minutes = 0.0; minutes <= end; minutes += step)
        log.push_back(at("base", minutes, 900.0 - minutes / 60.0, 15.0));
    return log;
}

TEST(BarometerPair, TheWeatherCancels) {
    const std::vector<BarometerReading> rover{at("a", 33, 890.0 - 33.0 / 60.0, 15.0)};
    const auto survey = barometer_base_and_rover(falling_log(5, 60), rover);
    const auto still =
        barometer_with_returns({at("base", 0, 900.0 - 33.0 / 60.0, 15.0), at("a", 1, 890.0 - 33.0 / 60.0, 15.0)});
    ASSERT_TRUE(survey.ok() && still.ok());
    EXPECT_EQ(survey->base, "base");
    EXPECT_NEAR(survey->rises[0].rise.rise_m, still->rises[0].rise.rise_m, 1e-6);
    EXPECT_TRUE(survey->drift.empty());
    EXPECT_LT(effect(survey->rises[0].rise, "levels.barometer_drift"), 0.1);
}

TEST(BarometerPair, OffsetIsTakenOff) {
    std::vector<BarometerReading> rover{at("base", 2, 901.5 - 2.0 / 60.0, 15.0), at("a", 30, 891.0, 15.0),
                                        at("base", 58, 901.7 - 58.0 / 60.0, 15.0)};
    const auto survey = barometer_base_and_rover(falling_log(5, 60), rover);
    ASSERT_TRUE(survey.ok());
    ASSERT_TRUE(survey->offset.has_value());
    EXPECT_NEAR(survey->offset->offset_Pa.value, 160.0, 1e-6);
    EXPECT_NEAR(survey->offset->offset_Pa.standard_uncertainty, kBarometerNoise_Pa, 1e-9); // sqrt(2) noise / sqrt(2)
    EXPECT_NEAR(survey->offset->change_Pa, 20.0, 1e-6);
    EXPECT_EQ(survey->offset->readings, 2u);
    ASSERT_EQ(survey->rises.size(), 1u);
    EXPECT_TRUE(survey->findings.empty());
    rover = {at("a", 30, 891.0 - 1.6, 15.0)};
    const auto plain = barometer_base_and_rover(falling_log(5, 60), rover);
    ASSERT_TRUE(plain.ok());
    EXPECT_NEAR(survey->rises[0].rise.rise_m, plain->rises[0].rise.rise_m, 1e-6);
    const Finding* told = find_code(plain->findings, "levels.barometer_offset_unknown");
    ASSERT_NE(told, nullptr);
    EXPECT_NEAR(number(*told, "plus_minus"), 2.0 * std::sqrt(2.0) * kBarometerAbsolute_u_Pa, 1e-9);
    EXPECT_GT(effect(plain->rises[0].rise, "levels.barometer_offset"),
              5.0 * effect(survey->rises[0].rise, "levels.barometer_offset"));
}

TEST(BarometerPair, TellsOfInstrumentsThatDiffer) {
    const auto apart = barometer_base_and_rover(
        falling_log(5, 60), {at("base", 0, 900.0, 15.0), at("a", 30, 890.0, 15.0), at("base", 60, 899.6, 15.0)});
    ASSERT_TRUE(apart.ok());
    ASSERT_NE(find_code(apart->findings, "levels.barometers_apart"), nullptr);
    EXPECT_NEAR(number(*find_code(apart->findings, "levels.barometers_apart"), "change"), 60.0, 1e-6);
    const auto sea_level =
        barometer_base_and_rover(falling_log(5, 60), {at("base", 0, 1013.0, 15.0), at("a", 30, 1003.0, 15.0)});
    ASSERT_TRUE(sea_level.ok());
    EXPECT_NE(find_code(sea_level->findings, "levels.barometer_offset_large"), nullptr);
}

TEST(BarometerPair, NothingIsCarriedFarBeyondTheLog) {
    const std::vector<BarometerReading> rover{at("early", -20, 890.0, 15.0), at("just", -5, 890.0, 15.0),
                                              at("in", 30, 890.0, 15.0), at("late", 71, 890.0, 15.0)};
    const auto survey = barometer_base_and_rover(falling_log(5, 60), rover);
    ASSERT_TRUE(survey.ok());
    ASSERT_EQ(survey->rises.size(), 2u);
    EXPECT_EQ(survey->rises[0].point, "just");
    EXPECT_EQ(survey->rises[1].point, "in");
    const Finding* beyond = find_code(survey->findings, "levels.reading_beyond_base_log");
    ASSERT_NE(beyond, nullptr);
    EXPECT_EQ(number(*beyond, "row"), 1.0);
    EXPECT_EQ(number(*beyond, "count"), 2.0);
    EXPECT_EQ(number(*beyond, "gap"), 1200.0);
    ASSERT_NE(find_code(survey->findings, "levels.base_log_short"), nullptr);
    EXPECT_EQ(number(*find_code(survey->findings, "levels.base_log_short"), "row"), 2.0);
    EXPECT_GT(survey->rises[0].rise.estimate().standard_uncertainty,
              survey->rises[1].rise.estimate().standard_uncertainty);
    EXPECT_EQ(barometer_base_and_rover(falling_log(5, 60), {rover[0]}).error().code, "levels.barometer_no_points");
}

TEST(BarometerPair, GapsAreToldOf) {
    const auto survey =
        barometer_base_and_rover(falling_log(40, 80), {at("a", 20, 890.0, 15.0), at("b", 40, 890.0, 15.0)});
    ASSERT_TRUE(survey.ok());
    const Finding* told = find_code(survey->findings, "levels.base_log_gap");
    ASSERT_NE(told, nullptr);
    EXPECT_EQ(number(*told, "gap"), 2400.0);
    EXPECT_EQ(find_code(barometer_base_and_rover(falling_log(30, 60), {at("a", 20, 890.0, 15.0)})->findings,
                        "levels.base_log_gap"),
              nullptr);
}

TEST(BarometerPair, ComparesTwoInstruments) {
    std::vector<BarometerReading> other;
    for (int i = 0; i < 10; ++i)
        other.push_back(at("here", 6.0 * i, 900.0 - 0.1 * i + (i % 2 == 0 ? 1.0 : 2.0)));
    const auto offset = compare_barometers(falling_log(10, 60), other);
    ASSERT_TRUE(offset.ok());
    EXPECT_NEAR(offset->offset_Pa.value, 150.0, 1e-6);
    EXPECT_NEAR(offset->offset_Pa.standard_uncertainty, 50.0 / 3.0, 1e-6); // scatter 50 sqrt(10/9), over sqrt(10)
    EXPECT_EQ(compare_barometers(falling_log(10, 60), {at("here", 100, 900.0)}).error().code,
              "levels.barometers_nothing_common");
}

TEST(BarometerPair, RefusalsNameTheList) {
    std::vector<BarometerReading> log = falling_log(5, 20);
    log[2].pressure_Pa = kNaN;
    const auto bad_log = barometer_base_and_rover(log, {at("a", 3, 890.0)});
    ASSERT_FALSE(bad_log.ok());
    EXPECT_EQ(bad_log.error().code, "levels.pressure_impossible");
    EXPECT_EQ(bad_log.error().where, "base.pressure_Pa");
    EXPECT_EQ(number(bad_log.error(), "row"), 3.0);
    EXPECT_EQ(barometer_base_and_rover(falling_log(5, 20), {at("a", 3, 89.0)}).error().where, "pressure_Pa");
    EXPECT_EQ(barometer_base_and_rover({}, {at("a", 3, 890.0)}).error().code, "levels.barometer_no_readings");
    EXPECT_EQ(barometer_base_and_rover(falling_log(5, 20), {}).error().code, "levels.barometer_no_readings");
    EXPECT_EQ(barometer_base_and_rover(falling_log(5, 20), {at("a", 3, 890.0), at("b", 2, 890.0)}).error().code,
              "levels.clock_backwards");
}

// The daily tide of the tropics, 1.3 hPa in 12 hours (from memory, unconfirmed), a log of 10 minutes, two noisy sensors
// with an offset: the true rise lies within +/- in 95 % or more, as a tide is steadier than the tendency that is
// allowed.
TEST(BarometerPair, CoverageUnderTheTide) {
    std::mt19937 random(20240512);
    std::normal_distribution<double> normal;
    constexpr int kTrials = 2000;
    int covered = 0;
    BarometerOptions options;
    options.latitude_deg = 45.5425;
    for (int trial = 0; trial < kTrials; ++trial) {
        const double phase = 0.01 * trial;
        const double true_K = 288.15 + kAirTemperature_u_K * normal(random);
        const double offset_hPa = normal(random);
        const auto base_hPa = [&](double minutes) {
            return 900.0 + 1.3 * std::sin(2.0 * std::numbers::pi * minutes / 720.0 + phase);
        };
        const auto noise_hPa = [&] { return 0.01 * kBarometerNoise_Pa * normal(random); };
        std::vector<BarometerReading> log;
        for (int minutes = 0; minutes <= 120; minutes += 10)
            log.push_back(at("base", minutes, base_hPa(minutes) + noise_hPa(), 15.0));
        const double lower = std::exp(-80.0 * 9.8035 / (287.0529 * true_K));
        const auto survey =
            barometer_base_and_rover(log,
                                     {at("base", 5, base_hPa(5) + offset_hPa + noise_hPa(), 15.0),
                                      at("a", 63, base_hPa(63) * lower + offset_hPa + noise_hPa(), 15.0)},
                                     options);
        ASSERT_TRUE(survey.ok());
        const Estimate rise = survey->rises[0].rise.estimate();
        covered += std::abs(rise.value - 80.0) <= rise.expanded();
    }
    EXPECT_GE(covered, 0.93 * kTrials);
    EXPECT_LE(covered, 0.985 * kTrials); // between two of the log the noise is less than that of one reading
}

} // namespace
} // namespace rillmark
