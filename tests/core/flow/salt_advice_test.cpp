// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/salt_advice.h"

#include "tracer_fixtures.h"

namespace rillmark {
namespace {

using namespace tracer_fixtures;

double limit_mg_L(const std::string& code) {
    for (const ChlorideLimit& limit : chloride_limits())
        if (limit.name_code == code)
            return limit.chloride_kgm3 / kMilli;
    ADD_FAILURE() << code;
    return 0.0;
}

TEST(SaltAdvice, ChlorideLimits) {
    const auto usa = check("chloride-usa");
    EXPECT_DOUBLE_EQ(limit_mg_L("flow.chloride_usa_acute"), usa["expected"]["acute_mg_L"].get<double>());
    EXPECT_DOUBLE_EQ(limit_mg_L("flow.chloride_usa_chronic"), usa["expected"]["chronic_mg_L"].get<double>());
    for (const char* kind : {"acute", "chronic"}) {
        const double salt = usa["expected"][std::string(kind) + "_nacl_mg_L"];
        EXPECT_NEAR(chloride_of_salt(salt), usa["expected"][std::string(kind) + "_mg_L"].get<double>(),
                    usa["tolerance"]["relative"].get<double>() * salt);
    }
    const auto canada = check("chloride-canada"); // its short-term value is from memory, unconfirmed
    EXPECT_DOUBLE_EQ(limit_mg_L("flow.chloride_canada_short"), canada["expected"]["short_term_mg_L"].get<double>());
    EXPECT_DOUBLE_EQ(limit_mg_L("flow.chloride_canada_long"), canada["expected"]["long_term_mg_L"].get<double>());
    const auto bc = check("chloride-bc");
    EXPECT_DOUBLE_EQ(limit_mg_L("flow.chloride_bc_maximum"), bc["expected"]["short_term_max_mg_L"].get<double>());
    EXPECT_DOUBLE_EQ(limit_mg_L("flow.chloride_bc_mean"), bc["expected"]["long_term_30_day_mean_mg_L"].get<double>());
}

TEST(SaltAdvice, PeakOfARealSlugIsBelowEveryLimit) {
    const auto published = check("salt-peak-check");
    const double salt_kgm3 = published["inputs"]["ec_rise_uS_cm"].get<double>() * kMicro *
                             published["inputs"]["cf_mg_L_per_uS_cm"].get<double>() * kFactor;
    const double tolerance = published["tolerance"]["relative"];
    EXPECT_NEAR(salt_kgm3 / kMilli, published["expected"]["peak_nacl_mg_L"].get<double>(), tolerance * 70.0);
    const double chloride = published["expected"]["peak_cl_mg_L"];
    EXPECT_NEAR(chloride_of_salt(salt_kgm3) / kMilli, chloride, tolerance * chloride);
    EXPECT_TRUE(judge_chloride(salt_kgm3).empty());
}

TEST(SaltAdvice, AStrongPeakIsWarnedOfWithTheLowestLimit) {
    const Findings findings = judge_chloride(0.65 * kSaltPerChloride);
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].where, "flow.chloride_bc_maximum");
    EXPECT_NEAR(number_arg(findings[0], "chloride"), 0.65, 1e-12);
    EXPECT_TRUE(judge_chloride(0.599 * kSaltPerChloride).empty());
}

TEST(SaltAdvice, RuleOfTheField) {
    EXPECT_EQ(kLeastMixing_widths,
              check("salt-quality-rules-eth")["expected"]["min_mixing_length_stream_widths"].get<double>());
}

// Fischer and others, from memory, unconfirmed: worked by hand for 5 m, 0.4 m, 0.5 m/s, 1 %.
TEST(SaltAdvice, MixingLength) {
    MixingReach reach{5.0, 0.4, 0.5, 0.01, false};
    const auto middle = mixing_length_m(reach);
    ASSERT_TRUE(middle.ok());
    EXPECT_NEAR(*middle, 26.3, 0.1);
    reach.from_the_bank = true;
    EXPECT_NEAR(*mixing_length_m(reach), 4.0 * *middle, 1e-9);
    for (const double bad : {kNaN, kInfinity, -1.0, 0.0}) {
        EXPECT_EQ(mixing_length_m({bad, 0.4, 0.5, 0.01, false}).error().where, "width_m");
        EXPECT_EQ(mixing_length_m({5.0, bad, 0.5, 0.01, false}).error().where, "depth_m");
        EXPECT_EQ(mixing_length_m({5.0, 0.4, bad, 0.01, false}).error().where, "velocity_ms");
        EXPECT_EQ(mixing_length_m({5.0, 0.4, 0.5, bad, false}).error().where, "slope");
    }
}

// Rule of thumb from memory, unconfirmed.
TEST(SaltAdvice, Dose) {
    const auto advice = salt_dose(0.3, 240.0, 0.01, 4.86);
    ASSERT_TRUE(advice.ok());
    EXPECT_DOUBLE_EQ(advice->least_kg, 0.3);
    EXPECT_DOUBLE_EQ(advice->usual_kg, 0.6);
    EXPECT_DOUBLE_EQ(advice->long_reach_kg, 1.5);
    EXPECT_NEAR(*advice->for_rise_kg, 0.5 * 0.3 * 4.86 * 0.01 * 240.0, 1e-12);
    EXPECT_FALSE(salt_dose(0.3, {}, 0.01, 4.86)->for_rise_kg.has_value());
    for (const double bad : {kNaN, kInfinity, -1.0, 0.0, 1e300}) {
        EXPECT_EQ(salt_dose(bad, {}, 0.01, 4.86).error().code, "flow.bad_option");
        EXPECT_EQ(salt_dose(0.3, bad, 0.01, 4.86).error().code, "flow.bad_option");
        EXPECT_EQ(salt_dose(0.3, {}, bad, 4.86).error().code, "flow.bad_option");
        EXPECT_EQ(salt_dose(0.3, {}, 0.01, bad).error().code, "flow.bad_option");
    }
}

} // namespace
} // namespace rillmark
