// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pipe_strength.h"

#include "power/pipe_laying.h"
#include "power_checks.h"

#include <limits>
#include <numbers>

namespace rillmark {
namespace {

using power_checks::expect;
using power_checks::inches;
using power_checks::si;

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kInf = std::numeric_limits<double>::infinity();

nlohmann::json entry(const char* id) {
    return checks::entry("pipe_pressure", id);
}
double in(const nlohmann::json& check, const char* key) {
    return check.at("inputs").at(key).get<double>();
}
double psi(double number) {
    return si(number, Quantity::Pressure, "psi");
}
double fahrenheit(double number) {
    return si(number, Quantity::Temperature, "degF");
}
PipeMaterial material(std::string_view id) {
    return pipe_material(id).value();
}

TEST(PipeStrength, PvcRatingBySdr) {
    for (const char* id : {"PR-SDR17", "PR-SDR21", "PR-SDR26", "PR-SDR32_5", "PR-SDR41"}) {
        const nlohmann::json check = entry(id);
        EXPECT_NEAR(psi(in(check, "S_psi")), pvc_design_stress_Pa(), 1e-6);
        expect(check, "rating_psi", rating_Pa(pvc_design_stress_Pa(), in(check, "SDR")).value() / psi(1.0));
    }
}

TEST(PipeStrength, PvcScheduleRatingColdAndWarm) {
    for (const char* id : {"PR-S80-2", "PR-S80-3", "PR-S80-4", "PR-S80-6", "PR-S80-8"}) {
        const nlohmann::json check = entry(id);
        const double cold = rating_Pa(psi(in(check, "S_psi")), in(check, "OD_in") / in(check, "wall_in")).value();
        const double factor = temperature_factor(material("pvc"), fahrenheit(100.0)).value();
        EXPECT_NEAR(factor, in(check, "derating_100F"), 1e-9);
        expect(check, "rating73_psi", cold / psi(1.0));
        expect(check, "rating100_psi", cold * factor / psi(1.0));
    }
    const nlohmann::json hot = entry("PR-09");
    const double factor = temperature_factor(material("pvc"), fahrenheit(120.0)).value();
    EXPECT_NEAR(factor, in(hot, "factor_120F"), 1e-9);
    expect(hot, "rating_psi", in(hot, "rating73_psi") * factor);
}

TEST(PipeStrength, Pe100NominalPressure) {
    for (const char* id : {"PE-SDR11", "PE-SDR13_6", "PE-SDR17", "PE-SDR21", "PE-SDR26", "PE-SDR33"}) {
        const nlohmann::json check = entry(id);
        EXPECT_NEAR(in(check, "MRS_MPa") * 1e6 / in(check, "C"), kPe100DesignStress_Pa, 1e-6);
        expect(check, "PN_bar", rating_Pa(kPe100DesignStress_Pa, in(check, "SDR")).value() / 1e5);
    }
}

TEST(PipeStrength, CollapseOfPvc) {
    for (const char* id : {"CO-14", "CO-17", "CO-21", "CO-25", "CO-26"}) {
        const nlohmann::json check = entry(id);
        expect(check, "p_collapse_psi",
               collapse_Pa({in(check, "DR"), 1.0, psi(in(check, "E_psi")), in(check, "poisson")}).value() / psi(1.0));
    }
}

TEST(PipeStrength, CollapseOfThinSteelAgainstAFormWithItsFactor) {
    const nlohmann::json check = entry("CO-STEEL");
    // The form has the wall over the diameter, ours over the mean diameter.
    const double wall = in(check, "T_in");
    const double ours =
        collapse_Pa({in(check, "D_in") + wall, wall, psi(in(check, "E_psi")), in(check, "poisson")}).value() / psi(1.0);
    // The factor of the form, 16 250 000 psi with E and v inside it, is 4.05748. The entry holds it rounded to four
    // figures, 4.057, which is 1.2e-4 off: more than the entry's own 1e-4. So the pressure is held to 1e-4 by the whole
    // factor, and the printed factor to half of its last figure.
    const double factor = 2.0 * in(check, "E_psi") / (1.0 - in(check, "poisson") * in(check, "poisson")) / 16'250'000.0;
    const double printed = check.at("expected").at("P_psi").get<double>();
    EXPECT_NEAR(ours / factor, printed, 1e-4 * printed);
    EXPECT_NEAR(ours / printed, check.at("expected").at("implied_factor_vs_2E_form").get<double>(), 0.0005);
    EXPECT_EQ(material("steel").collapse_factor, 4.0);
}

// The factors of PE100 are from memory, unconfirmed; a maker's seen table is less strict and never below them.
TEST(PipeStrength, TemperatureFactors) {
    const PipeMaterial pe = material("pe100");
    EXPECT_EQ(temperature_factor(pe, 4.0).value(), 1.0);
    EXPECT_NEAR(temperature_factor(pe, 25.0).value(), 0.935, 1e-12);
    const double seen[][2] = {{20, 1.0}, {25, 1.0}, {30, 0.938}, {35, 0.894}, {40, 0.844}};
    for (const auto& [temperature, factor] : seen)
        EXPECT_LE(temperature_factor(pe, temperature).value(), factor);
    EXPECT_NEAR(temperature_factor(material("pvc"), fahrenheit(140.0)).value(), 0.22, 1e-9);
    EXPECT_EQ(temperature_factor(material("steel"), 50.0).value(), 1.0);
    for (const PipeMaterial& m : pipe_materials()) {
        double before = 1.0;
        for (double t = 0.0; t <= 40.0; t += 0.25) {
            const double factor = temperature_factor(m, t).value();
            EXPECT_LE(factor, before) << m.id << " " << t;
            EXPECT_GT(factor, 0.0);
            before = factor;
        }
        EXPECT_EQ(temperature_factor(m, -0.1).error().code, "power.wall_temperature_out_of_range");
        EXPECT_EQ(temperature_factor(m, 61.0).error().code, "power.wall_temperature_out_of_range");
        EXPECT_EQ(temperature_factor(m, kNaN).error().code, "uncertainty.not_finite");
    }
}

TEST(PipeStrength, ThrustAndBlockOfTheHandbook) {
    const nlohmann::json check = entry("TB-01");
    const double pound_force_N = psi(1.0) * inches(1.0) * inches(1.0);
    const double square_foot = power_checks::square_feet(1.0);
    const double thrust = bend_thrust_N(psi(in(check, "p_psi")), inches(in(check, "OD_in")),
                                        si(in(check, "bend_deg"), Quantity::Angle, "deg"))
                              .value();
    expect(check, "thrust_lb", thrust / pound_force_N);
    EXPECT_EQ(in(check, "safety_factor"), kThrustSafetyFactor);
    const double bearing_Pa = in(check, "soil_bearing_lbft2") * pound_force_N / square_foot;
    expect(check, "area_ft2", block_area_m2(thrust, bearing_Pa).value() / square_foot);

    const nlohmann::json right = entry("TB-02");
    expect(right, "thrust_kN",
           bend_thrust_N(in(right, "p_kPa") * 1e3, in(right, "D_m"), std::numbers::pi / 2.0).value() / 1e3);
    EXPECT_NEAR(end_thrust_N(1e5, 0.2).value(), 1e5 * std::numbers::pi * 0.01, 1e-6);
}

TEST(PipeStrength, AirOfADrainingPipe) {
    const nlohmann::json check = entry("AV-01");
    EXPECT_EQ(in(check, "C"), 110.0);
    expect(check, "Q_cfs",
           draining_air_m3s(in(check, "S"), inches(in(check, "D_in"))).value() / power_checks::cfs(1.0));
}

// From memory of the standard, unconfirmed.
TEST(PipeStrength, LeastCoverGrowsWithThePipe) {
    EXPECT_NEAR(least_cover_m(inches(2.5)).value(), inches(18.0), 1e-12);
    EXPECT_NEAR(least_cover_m(inches(4.0)).value(), inches(24.0), 1e-12);
    EXPECT_NEAR(least_cover_m(inches(6.0)).value(), inches(30.0), 1e-12);
    EXPECT_EQ(least_cover_m(0.0).error().code, "power.not_positive");
}

TEST(PipeStrength, RefusesBadInput) {
    for (const double bad : {kNaN, kInf, 0.0, -3.0}) {
        EXPECT_FALSE(rating_Pa(bad, 17.0).ok());
        EXPECT_FALSE(rating_Pa(8e6, bad).ok());
        EXPECT_FALSE(collapse_Pa({bad, 0.01, 1e9, 0.4}).ok());
        EXPECT_FALSE(collapse_Pa({0.2, bad, 1e9, 0.4}).ok());
        EXPECT_FALSE(collapse_Pa({0.2, 0.01, bad, 0.4}).ok());
        EXPECT_FALSE(block_area_m2(1.0, bad).ok());
        EXPECT_FALSE(draining_air_m3s(bad, 0.1).ok());
        EXPECT_FALSE(draining_air_m3s(0.1, bad).ok());
        EXPECT_FALSE(end_thrust_N(1e5, bad).ok());
    }
    EXPECT_EQ(rating_Pa(8e6, 2.0).error().code, "power.dimension_ratio_too_small");
    EXPECT_EQ(collapse_Pa({0.2, 0.1, 1e9, 0.4}).error().code, "power.dimension_ratio_too_small");
    EXPECT_EQ(collapse_Pa({0.2, 0.01, 1e9, 0.6}).error().code, "power.poisson_out_of_range");
    EXPECT_EQ(bend_thrust_N(1e5, 0.2, -0.1).error().code, "power.bend_out_of_range");
    EXPECT_EQ(bend_thrust_N(1e5, 0.2, 3.2).error().code, "power.bend_out_of_range");
    EXPECT_EQ(bend_thrust_N(1e5, 0.2, kNaN).error().code, "uncertainty.not_finite");
    EXPECT_EQ(bend_thrust_N(-1.0, 0.2, 0.1).error().code, "power.negative");
    EXPECT_EQ(draining_air_m3s(1.01, 0.2).error().code, "power.pipe_slope_out_of_range");
    const Finding unknown = pipe_material("wood").error();
    EXPECT_EQ(unknown.code, "power.unknown_material");
    EXPECT_EQ(std::get<std::string>(unknown.args.front().value), "wood");
}

} // namespace
} // namespace rillmark
