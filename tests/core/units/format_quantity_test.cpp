// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/format_quantity.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <limits>
#include <random>

namespace rillmark {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kFoot = 0.3048;
constexpr DisplayOptions kMetric{UnitSystem::Metric, {}};
constexpr DisplayOptions kUs{UnitSystem::UsCustomary, {}};

/// In metres, with the +/- given as shown (k = 2).
std::string length(double value, double plus_minus) {
    return format_estimate({value, plus_minus / 2}, Quantity::Length, kMetric);
}

TEST(FormatEstimate, ShowsNoMoreDigitsThanTheUncertaintyAllows) {
    EXPECT_EQ(format_estimate({36.2 * kFoot, 0.2 * kFoot}, Quantity::Length, kUs), "36.2 ± 0.4 ft");
    EXPECT_EQ(length(11.03456, 0.4), "11.0 ± 0.4 m");
    EXPECT_EQ(length(11.03456, 0.3), "11.0 ± 0.3 m");
    EXPECT_EQ(length(11.03456, 0.14), "11.03 ± 0.14 m");
    EXPECT_EQ(length(11.03456, 0.28), "11.03 ± 0.28 m");
    EXPECT_EQ(length(11.03456, 0.296), "11.0 ± 0.3 m");
    EXPECT_EQ(length(11.03456, 0.0034), "11.035 ± 0.003 m");
    EXPECT_EQ(length(11.03456, 0.1), "11.03 ± 0.10 m");
    EXPECT_EQ(length(11.03456, 0.96), "11.0 ± 1.0 m");
    EXPECT_EQ(length(11.03456, 9.96), "11 ± 10 m");
    EXPECT_EQ(length(11.03456, 4.2), "11 ± 4 m");
    EXPECT_EQ(length(0.2, 4.2), "0 ± 4 m");
    EXPECT_EQ(length(1234.5, 34.0), "1230 ± 30 m");
    EXPECT_EQ(length(1234.5, 134.0), "1230 ± 130 m");
    EXPECT_EQ(length(1234.5, 5000.0), "1000 ± 5000 m");
    EXPECT_EQ(length(-11.03456, 0.4), "−11.0 ± 0.4 m");
    EXPECT_EQ(length(-0.01, 0.4), "0.0 ± 0.4 m") << "no minus before zero";
}

TEST(FormatEstimate, UnitOfTheQuantity) {
    EXPECT_EQ(format_estimate({0.085, 0.002}, Quantity::Discharge, kMetric), "85 ± 4 L/s");
    EXPECT_EQ(format_estimate({3.0 * kFoot * kFoot * kFoot, 0.05 * kFoot * kFoot * kFoot}, Quantity::Discharge, kUs),
              "3.00 ± 0.10 cfs");
    EXPECT_EQ(format_estimate({9128.0, 320.0}, Quantity::Power, kMetric), "9100 ± 600 W");
    EXPECT_EQ(format_estimate({13244.0, 842.1}, Quantity::Power, kMetric), "13.2 ± 1.7 kW");
    EXPECT_EQ(format_estimate({0.55, 0.02}, Quantity::Ratio, kMetric), "55 ± 4 %");
    EXPECT_EQ(format_estimate({20.0, 0.25}, Quantity::Temperature, kUs), "68.0 ± 0.9 °F") << "no offset on the +/-";
    EXPECT_EQ(format_estimate({0.5235987755982988, 0.0017}, Quantity::Angle, kMetric), "30.00 ± 0.19°");
    EXPECT_EQ(format_estimate({1.04, 0.02}, Quantity::Number, kMetric), "1.04 ± 0.04");
}

TEST(FormatEstimate, ExactTinyHugeAndNotFinite) {
    EXPECT_EQ(length(11.0346, 0.0), "11.035 ± 0 m");
    EXPECT_EQ(length(11.0346, 1e-12), "11.035 ± 0 m");
    EXPECT_EQ(length(kNan, 0.4), "– ± 0.4 m");
    EXPECT_EQ(length(kInfinity, 0.4), "– ± 0.4 m");
    EXPECT_EQ(length(11.0346, kNan), "11.035 ± – m");
    EXPECT_EQ(length(11.0346, kInfinity), "11.035 ± – m");
    EXPECT_EQ(length(11.0346, -0.1), "11.035 ± – m");
    EXPECT_EQ(length(1e300, 1e298), "1.000e+300 ± 1.000e+298 m");
    EXPECT_EQ(length(1.0, 1e300), "0 ± 1.000e+300 m");
    EXPECT_EQ(length(0.0, std::numeric_limits<double>::denorm_min()), "0.000 ± 0 m");
}

TEST(FormatEstimate, PartsForTheScreen) {
    const Shown shown = show_estimate({11.03456, 0.2}, Quantity::Length, kMetric);
    EXPECT_EQ(shown.value, "11.0");
    EXPECT_EQ(shown.plus_minus, "0.4");
    EXPECT_EQ(shown.unit, "m");
    EXPECT_EQ(show_estimate_in({0.085, 0.002}, *find_unit(Quantity::Discharge, "m3/s"), {}).text(),
              "0.085 ± 0.004 m³/s");
}

TEST(FormatEstimate, MarksOfTheLocale) {
    EXPECT_EQ(format_estimate({11.03456, 0.2}, Quantity::Length, {UnitSystem::Metric, {',', {}}}), "11,0 ± 0,4 m");
    EXPECT_EQ(format_estimate({12345.26, 0.2}, Quantity::Length, {UnitSystem::Metric, {'.', ','}}), "12,345.3 ± 0.4 m");
    EXPECT_EQ(format_estimate({123456.0, 2000.0}, Quantity::Length, {UnitSystem::Metric, {',', '.'}}),
              "123.000 ± 4.000 m");
    EXPECT_EQ(format_value(1234567.0, Quantity::Length, {UnitSystem::Metric, {',', ' '}}, 0), "1\u00A0234\u00A0567 m");
    EXPECT_EQ(format_value(123.0, Quantity::Length, {UnitSystem::Metric, {'.', ','}}, 0), "123 m");
}

TEST(FormatValue, DigitsOfAPlainReading) {
    EXPECT_EQ(format_value(1.525, Quantity::Length, kMetric), "1.525 m");
    EXPECT_EQ(format_value(0.005, Quantity::Length, kMetric), "0.005 m");
    EXPECT_EQ(format_value(1.5, Quantity::Length, kUs), "4.921 ft");
    EXPECT_EQ(format_value(1.5, Quantity::Length, kUs, 2), "4.92 ft");
    EXPECT_EQ(format_value(12.34, Quantity::Time, kMetric), "12.3 s");
    EXPECT_EQ(format_value(0.3048, Quantity::Bore, kUs), "12.000 in");
    EXPECT_EQ(format_value(0.1, Quantity::Bore, kMetric), "100.0 mm");
    EXPECT_EQ(format_value(1.5e-6, Quantity::Bore, kMetric), "0.0015 mm") << "a roughness keeps two digits";
    EXPECT_EQ(format_value(0.0, Quantity::Bore, kMetric), "0.0 mm");
    EXPECT_EQ(format_value(-1e-12, Quantity::Bore, kMetric), "0.0 mm");
    EXPECT_EQ(format_value(30.0 * 3.14159265358979323846 / 180.0, Quantity::Angle, kMetric), "30.00°");
    EXPECT_EQ(format_value(kNan, Quantity::Length, kMetric), "– m");
    EXPECT_EQ(format_value(-kInfinity, Quantity::Length, kMetric), "– m");
    EXPECT_EQ(format_value(1.5, Quantity::Length, kMetric, -7), "2 m");
    EXPECT_EQ(format_value(1.5, Quantity::Length, kMetric, 1000), "1.500000000000000 m");
}

TEST(FormatEstimate, ShownPairStaysTrueForRandomValues) {
    const unsigned seed = std::random_device{}();
    std::cout << "seed " << seed << "\n";
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> exponent(-5.0, 5.0);
    for (int trial = 0; trial < 5000; ++trial) {
        const Estimate estimate{std::pow(10.0, exponent(random)) * (trial % 2 ? 1.0 : -1.0),
                                std::pow(10.0, exponent(random))};
        const Shown shown = show_estimate(estimate, Quantity::Length, kMetric);
        const auto value = parse_quantity(shown.value, Quantity::Length, UnitSystem::Metric);
        const auto plus_minus = parse_quantity(shown.plus_minus, Quantity::Length, UnitSystem::Metric);
        ASSERT_TRUE(value && plus_minus) << shown.text();
        // The coarsest rounding keeps one digit of 2.95 (shown 3) .. 9.99: half a unit in 2.95, some 17 %.
        EXPECT_NEAR(plus_minus->si, estimate.expanded(), 0.17 * estimate.expanded()) << shown.text();
        EXPECT_NEAR(value->si, estimate.value, 0.17 * estimate.expanded()) << shown.text();
        EXPECT_LE(
            std::count_if(shown.plus_minus.begin(), shown.plus_minus.end(), [](char c) { return c > '0' && c <= '9'; }),
            2)
            << shown.text();
    }
}

} // namespace
} // namespace rillmark
