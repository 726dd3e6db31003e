// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/pressure_average.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>
#include <vector>

namespace rillmark {

namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();

std::vector<PressureSample> steady(double pressure_pa, int n, double every_s = 0.2) {
    std::vector<PressureSample> samples;
    for (int i = 0; i < n; ++i)
        samples.push_back({every_s * i, pressure_pa, {}});
    return samples;
}

} // namespace

TEST(PressureAverage, MeanScatterTimeAndTemperature) {
    // worked by hand: 95001 and 94999 in turn
    std::vector<PressureSample> samples = steady(95000.0, 200);
    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i].pressure_pa += i % 2 == 0 ? 1.0 : -1.0;
    samples[0].temperature_c = 21.0;
    samples[1].temperature_c = 24.0;
    const Expected<AveragedPressure> pressure = average_pressure(samples);
    ASSERT_TRUE(pressure.ok());
    EXPECT_NEAR(pressure->pressure_pa.value, 95000.0, 1e-9);
    EXPECT_NEAR(pressure->scatter_pa, std::sqrt(200.0 / 199.0), 1e-9);
    EXPECT_NEAR(pressure->seconds, 39.8, 1e-9);
    EXPECT_EQ(pressure->n, 200u);
    EXPECT_NEAR(*pressure->temperature_c, 22.5, 1e-12);
    EXPECT_TRUE(pressure->findings.empty());
    EXPECT_FALSE(average_pressure(steady(95000.0, 200))->temperature_c);
}

TEST(PressureAverage, NeverBetterThanTheNoiseOfOneReading) {
    EXPECT_EQ(average_pressure(steady(95000.0, 10000))->pressure_pa.standard_uncertainty, kPressureNoise_pa);
    EXPECT_EQ(average_pressure(steady(95000.0, 10000), 0.5)->pressure_pa.standard_uncertainty, 0.5);
    EXPECT_EQ(average_pressure(steady(95000.0, 1))->pressure_pa.standard_uncertainty, kPressureNoise_pa);
}

TEST(PressureAverage, SlowGustsDoNotAverageOutLikeNoise) {
    std::mt19937_64 random(3);
    std::normal_distribution<double> normal(0.0, 1.0);
    std::vector<PressureSample> samples = steady(95000.0, 200);
    double gust_pa = 0.0;
    for (PressureSample& sample : samples) {
        gust_pa = 0.95 * gust_pa + std::sqrt(1.0 - 0.95 * 0.95) * 20.0 * normal(random);
        sample.pressure_pa += gust_pa;
    }
    const Expected<AveragedPressure> pressure = average_pressure(samples);
    ASSERT_TRUE(pressure.ok());
    EXPECT_LT(pressure->effective_n, 30.0);
    EXPECT_GT(pressure->pressure_pa.standard_uncertainty, 2.0 * pressure->scatter_pa / std::sqrt(200.0));
    ASSERT_EQ(pressure->findings.size(), 1u);
    EXPECT_EQ(pressure->findings.front().code, "levels.pressure_unsteady");
}

TEST(PressureAverage, AShortStayIsNoted) {
    const Expected<AveragedPressure> pressure = average_pressure(steady(95000.0, 20));
    ASSERT_EQ(pressure->findings.size(), 1u);
    EXPECT_EQ(pressure->findings.front().code, "levels.pressure_short");
    EXPECT_EQ(pressure->findings.front().severity, Severity::Note);
}

TEST(PressureAverage, BadReadingsAreRefused) {
    EXPECT_EQ(average_pressure({}).error().code, "levels.pressure_too_few");
    for (const double bad_pa : {kNan, kInfinity, -kInfinity, 0.0, -95000.0, 950.0 /* hPa taken for Pa */, 1e9}) {
        std::vector<PressureSample> samples = steady(95000.0, 10);
        samples[4].pressure_pa = bad_pa;
        EXPECT_EQ(average_pressure(samples).error().code, "levels.pressure_out_of_range") << bad_pa;
    }
    for (const double bad_s : {kNan, kInfinity, -kInfinity, 0.1}) {
        std::vector<PressureSample> samples = steady(95000.0, 10);
        samples[4].time_s = bad_s;
        EXPECT_EQ(average_pressure(samples).error().code, "levels.pressure_bad_reading") << bad_s;
    }
    std::vector<PressureSample> samples = steady(95000.0, 10);
    samples[4].temperature_c = kNan;
    EXPECT_EQ(average_pressure(samples).error().code, "levels.pressure_bad_reading");
    for (const double bad_noise : {kNan, kInfinity, 0.0, -1.0, 1001.0})
        EXPECT_EQ(average_pressure(steady(95000.0, 10), bad_noise).error().code, "levels.pressure_bad_noise");
}

} // namespace rillmark
