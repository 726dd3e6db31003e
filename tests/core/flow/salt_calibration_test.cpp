// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/salt_calibration.h"

#include "tracer_fixtures.h"

namespace rillmark {
namespace {

using namespace tracer_fixtures;

/// Readings of a vessel whose salt has exactly this factor; the solution made with stream water.
SaltCalibrationInput exact_calibration(double factor, double background_Sm, int steps) {
    SaltCalibrationInput input;
    input.sample_m3 = 0.001;
    input.solution_kgm3 = 10.0;
    for (int i = 0; i <= steps; ++i) {
        const double added_m3 = 1e-6 * i;
        const double c = input.solution_kgm3 * added_m3 / (input.sample_m3 + added_m3);
        input.additions.push_back({i, added_m3, background_Sm + c / factor, false});
    }
    return input;
}

TEST(SaltCalibration, UbcCalibration) {
    const auto published = check("salt-slug-ubc-2012-A");
    SaltCalibrationInput input;
    input.sample_m3 = published["inputs"]["sample_volume_mL"].get<double>() * kMilli * kMilli;
    input.solution_kgm3 = published["inputs"]["cal_solution_g_L"];
    for (const auto& [mL, uScm] : file_columns("salt_ubc_2012_A_cal.csv"))
        input.additions.push_back({1, mL * kMilli * kMilli, uScm * kMicro, false});
    const auto calibration = salt_calibration(input);
    ASSERT_TRUE(calibration.ok());
    const double expected = published["expected"]["slope_mg_L_per_uS_cm"];
    EXPECT_NEAR(calibration->factor.estimate.value / kFactor, expected,
                published["tolerance"]["relative"].get<double>() * expected);
    EXPECT_TRUE(calibration->findings.empty());
    EXPECT_LT(calibration->factor.estimate.expanded() / calibration->factor.estimate.value, 0.03);
}

// The source lets the volume stand and draws the line through the origin of the change.
TEST(SaltCalibration, PooledLinesThroughTheOrigin) {
    for (const char* id : {"salt-cal-eth-309", "salt-cal-eth-145"}) {
        const auto published = check(id);
        const auto& in = published["inputs"];
        std::vector<CalibrationPoint> points;
        for (const auto& one : in["calibrations_added_mL_ec_uS_cm"])
            for (const auto& row : one)
                points.push_back({(row[1].get<double>() - one[0][1].get<double>()) * kMicro,
                                  row[0].get<double>() * kMilli * in["solution_g_L"].get<double>() /
                                      in["bucket_volume_L"].get<double>()});
        const auto line = fit_calibration(points, CalibrationFit::ThroughOrigin);
        ASSERT_TRUE(line.ok());
        const double expected = published["expected"]["slope_mg_L_per_uS_cm"];
        EXPECT_NEAR(line->slope / kFactor, expected, published["tolerance"]["relative"].get<double>() * expected);
    }
}

TEST(SaltCalibration, DistilledWaterCheck) {
    const auto published = check("salt-cal-richardson-a1-10");
    const auto& in = published["inputs"];
    const double corrected = correct_for_solvent(
        in["cf_est"].get<double>() * kFactor, in["ec_background_uS_cm"].get<double>() * kMicro,
        in["ec_distilled_uS_cm"].get<double>() * kMicro, in["secondary_mg_L"].get<double>() * kMilli);
    const double expected = published["expected"]["cf_corrected"];
    EXPECT_NEAR(corrected / kFactor, expected, published["tolerance"]["relative"].get<double>() * expected);
}

TEST(SaltCalibration, GenericFactorAndItsDoubt) {
    const auto generic = check("salt-cf-default");
    EXPECT_DOUBLE_EQ(kGenericSaltFactor.value / kFactor, generic["expected"]["cf_mg_L_per_uS_cm"].get<double>());
    EXPECT_DOUBLE_EQ(kGenericFactorBackground_Sm, generic["inputs"]["ec_background_max_uS_cm"].get<double>() * kMicro);
    const double half_width = generic["expected"]["half_width_95_pct"];
    EXPECT_NEAR(100.0 * kGenericSaltFactor.expanded() / kGenericSaltFactor.value, half_width,
                generic["tolerance"]["relative"].get<double>() * half_width);
    for (const auto& [id, u] : {std::pair{"salt-cf-unc-good-calibration", kGoodCalibration_u},
                                std::pair{"salt-cf-unc-poor-calibration", kPoorCalibration_u},
                                std::pair{"salt-cf-unc-generic-value", kGenericSaltFactor.standard_uncertainty}}) {
        const auto published = check(id);
        EXPECT_DOUBLE_EQ(u / kFactor, published["inputs"]["sd_mg_L_per_uS_cm"].get<double>()) << id;
        const double expected = published["expected"]["delta_cf_pct"];
        EXPECT_NEAR(100.0 * 2.0 * u / kGenericSaltFactor.value, expected,
                    published["tolerance"]["relative"].get<double>() * expected)
            << id;
    }
}

TEST(SaltCalibration, ExactReadingsGiveTheFactorBack) {
    for (const double factor : {4.86, 7.0, 10.0}) {
        const auto calibration = salt_calibration(exact_calibration(factor, 0.02, 6));
        ASSERT_TRUE(calibration.ok());
        EXPECT_NEAR(calibration->factor.estimate.value, factor, 1e-9);
        EXPECT_NEAR(calibration->line.scatter_kgm3, 0.0, 1e-12);
    }
}

TEST(SaltCalibration, TheThinningByDistilledWaterIsTakenOut) {
    // the balance of salt in the vessel, worked out here step by step
    SaltCalibrationInput input = exact_calibration(4.86, 0.0, 6);
    input.solution_kgm3 = 2.0;
    const double stream_Sm = 0.0085;
    const double solvent_Sm = 0.0002;
    for (SaltAddition& addition : input.additions) {
        addition.added_m3 *= 5.0;
        const double part = addition.added_m3 / (input.sample_m3 + addition.added_m3);
        addition.ec_Sm = (1.0 - part) * stream_Sm + part * (solvent_Sm + input.solution_kgm3 / 4.86);
    }
    EXPECT_GT(salt_calibration(input)->factor.estimate.value, 4.86 * 1.015);
    input.solvent_ec_Sm = solvent_Sm;
    EXPECT_NEAR(salt_calibration(input)->factor.estimate.value, 4.86, 1e-9);
}

TEST(SaltCalibration, StruckReadingsAreLeftOut) {
    SaltCalibrationInput input = exact_calibration(5.0, 0.02, 5);
    input.additions.insert(input.additions.begin() + 2, {9, -1.0, kNaN, true});
    ASSERT_TRUE(salt_calibration(input).ok());
    EXPECT_NEAR(salt_calibration(input)->factor.estimate.value, 5.0, 1e-9);
}

TEST(SaltCalibration, ScatterAndResolutionMakeDoubt) {
    SaltCalibrationInput input = exact_calibration(5.0, 0.02, 6);
    input.sample_u_rel = input.solution_u_rel = input.added_u_rel = input.resolution_Sm = 0.0;
    EXPECT_NEAR(salt_calibration(input)->factor.estimate.standard_uncertainty, 0.0, 1e-9);
    input.resolution_Sm = 0.0001;
    const double by_resolution = salt_calibration(input)->factor.estimate.standard_uncertainty;
    EXPECT_GT(by_resolution, 0.001);
    input.additions[3].ec_Sm += 0.001;
    const auto scattered = salt_calibration(input);
    EXPECT_GT(scattered->factor.estimate.standard_uncertainty, 2.0 * by_resolution);
    EXPECT_TRUE(has_code(scattered->findings, "flow.calibration_scatters"));
}

TEST(SaltCalibration, Findings) {
    EXPECT_TRUE(has_code(salt_calibration(exact_calibration(5.0, 0.02, 3))->findings, "flow.few_additions"));
    EXPECT_TRUE(
        has_code(salt_calibration(exact_calibration(50.0, 0.02, 6))->findings, "flow.calibration_factor_unusual"));
}

TEST(SaltCalibration, RefusesBadInput) {
    const auto good = exact_calibration(5.0, 0.02, 5);
    const auto code = [](const SaltCalibrationInput& input) {
        const auto result = salt_calibration(input);
        return result.ok() ? std::string("accepted") : result.error().code;
    };
    EXPECT_EQ(code(exact_calibration(5.0, 0.02, 1)), "flow.few_calibration_points");
    for (const double bad : {kNaN, kInfinity, -kInfinity, -1.0, 1e300}) {
        auto input = good;
        input.sample_m3 = bad;
        EXPECT_EQ(code(input), "flow.bad_sample_volume") << bad;
        input = good;
        input.solution_kgm3 = bad;
        EXPECT_EQ(code(input), "flow.bad_solution") << bad;
        input = good;
        input.additions[2].added_m3 = bad;
        EXPECT_EQ(code(input), "flow.bad_addition") << bad;
        input = good;
        input.additions[2].ec_Sm = bad;
        EXPECT_EQ(code(input), "flow.bad_conductivity") << bad;
        input = good;
        input.added_u_rel = bad;
        EXPECT_EQ(code(input), "flow.bad_option") << bad;
    }
    auto input = good;
    std::swap(input.additions[1], input.additions[3]);
    EXPECT_EQ(code(input), "flow.additions_fall");
    input = good;
    for (SaltAddition& addition : input.additions)
        addition.ec_Sm = 0.02;
    EXPECT_EQ(code(input), "flow.calibration_does_not_rise");
    const std::vector<CalibrationPoint> unknown{{kNaN, 1.0}, {1.0, 1.0}, {2.0, 2.0}};
    EXPECT_EQ(fit_calibration(unknown, CalibrationFit::FreeIntercept).error().code, "uncertainty.not_finite");
}

} // namespace
} // namespace rillmark
