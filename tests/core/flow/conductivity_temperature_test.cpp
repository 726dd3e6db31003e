// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/conductivity_temperature.h"

#include "tracer_fixtures.h"

namespace rillmark {
namespace {

using namespace tracer_fixtures;

TEST(ConductivityTemperature, LinearCheck) {
    const auto published = check("ec25-linear");
    const auto& in = published["inputs"];
    for (const auto& [alpha, expected] : published["expected"]["ec25_uS_cm"].items())
        for (std::size_t i = 0; i < in["temp_C"].size(); ++i) {
            const auto ec = conductivity_at_25(in["ec_uS_cm"].get<double>() * kMicro, in["temp_C"][i],
                                               ConductivityCorrection::Linear, std::stod(alpha));
            ASSERT_TRUE(ec.ok());
            EXPECT_NEAR(*ec / kMicro, expected[i].get<double>(),
                        published["tolerance"]["relative"].get<double>() * expected[i].get<double>());
        }
}

TEST(ConductivityTemperature, TableOfTheStandard) {
    const auto published = check("ec25-iso7888-table");
    const auto& temperatures = published["inputs"]["temp_C"];
    for (std::size_t i = 0; i < temperatures.size(); ++i) {
        const double expected = published["expected"]["f25"][i];
        const auto f25 = natural_water_f25(temperatures[i]);
        ASSERT_TRUE(f25.ok());
        EXPECT_NEAR(*f25, expected, published["tolerance"]["relative"].get<double>() * expected);
        EXPECT_NEAR(*conductivity_at_25(0.01, temperatures[i], ConductivityCorrection::NonLinear), 0.01 * *f25, 1e-15);
    }
}

TEST(ConductivityTemperature, BetweenWholeDegreesItFallsSteadily) {
    double last = *natural_water_f25(0.0);
    for (double t = 0.05; t <= 35.0; t += 0.05) {
        const double f25 = *natural_water_f25(t);
        EXPECT_LT(f25, last) << t;
        last = f25;
    }
}

TEST(ConductivityTemperature, AsReadLooksAtNoTemperature) {
    EXPECT_EQ(*conductivity_at_25(0.0252, -3259.2, ConductivityCorrection::AsRead), 0.0252);
}

TEST(ConductivityTemperature, RefusesBadInput) {
    using enum ConductivityCorrection;
    for (const double bad : {kNaN, kInfinity, -kInfinity, -0.1, 77.3, -3259.2}) {
        EXPECT_EQ(natural_water_f25(bad).error().code, "flow.bad_water_temperature") << bad;
        EXPECT_EQ(conductivity_at_25(0.01, bad, Linear).error().code, "flow.bad_water_temperature") << bad;
        EXPECT_EQ(conductivity_at_25(bad, 10.0, AsRead).error().code, "flow.bad_conductivity") << bad;
        EXPECT_EQ(conductivity_at_25(0.01, 10.0, Linear, bad).error().code, "flow.bad_option") << bad;
    }
}

} // namespace
} // namespace rillmark
