// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/friction.h"

#include "power_checks.h"

#include <limits>

namespace rillmark {
namespace {

using namespace power_checks;

TEST(Friction, ColebrookWhiteAgainstAHighPrecisionTable) {
    for (int i = 1; i <= 17; ++i) {
        const std::string id = (i < 10 ? "CW-0" : "CW-") + std::to_string(i);
        const nlohmann::json check = entry(id);
        const FrictionFactor factor =
            darcy_friction(check["inputs"]["Re"].get<double>(), check["inputs"]["rel_roughness"].get<double>()).value();
        expect(check, "f", factor.darcy);
        EXPECT_EQ(factor.regime, Regime::Turbulent) << id;
    }
}

TEST(Friction, IsARootOfTheEquationTo1em12) {
    for (double reynolds = 4e3; reynolds < 1e9; reynolds *= 1.7) {
        for (const double roughness : {0.0, 1e-7, 1e-5, 1e-3, 0.01, 0.05}) {
            const double x = 1.0 / std::sqrt(darcy_friction(reynolds, roughness).value().darcy);
            EXPECT_NEAR(x, -2.0 * std::log10(roughness / 3.7 + 2.51 * x / reynolds), 1e-12 * x)
                << reynolds << " " << roughness;
        }
    }
}

TEST(Friction, LiesWithinScatterOfMeasuredSmoothPipe) {
    for (const char* id : {"XP-84760", "XP-176000", "XP-298200", "XP-587500", "XP-1050000"}) {
        const nlohmann::json check = entry(id);
        expect(check, "f", darcy_friction(check["inputs"]["Re"].get<double>(), 0.0).value().darcy);
    }
}

double largest_deviation(const nlohmann::json& range, double (*explicit_form)(double, double)) {
    constexpr int kReynoldsSteps = 120;
    constexpr int kRoughnessSteps = 60;
    const auto log_spaced = [](double low, double high, int i, int n) {
        return low * std::pow(high / low, i / (n - 1.0));
    };
    double largest = 0.0;
    for (int i = 0; i < kReynoldsSteps; ++i) {
        for (int j = 0; j < kRoughnessSteps; ++j) {
            const double reynolds =
                std::max(log_spaced(range["Re_min"].get<double>(), range["Re_max"].get<double>(), i, kReynoldsSteps),
                         kTurbulentFrom);
            const double roughness =
                std::min(log_spaced(range["eD_min"].get<double>(), range["eD_max"].get<double>(), j, kRoughnessSteps),
                         kRelativeRoughnessMax);
            const double f = darcy_friction(reynolds, roughness).value().darcy;
            largest = std::max(largest, std::abs(explicit_form(reynolds, roughness) / f - 1.0));
        }
    }
    return largest;
}

TEST(Friction, DeviatesFromExplicitFormsByWhatIsKnownOfThem) {
    const nlohmann::json swamee_jain = entry("EX-01");
    expect(swamee_jain, "max_rel_dev", largest_deviation(swamee_jain["inputs"], [](double re, double e) {
               const double l = std::log10(e / 3.7 + 5.74 / std::pow(re, 0.9));
               return 0.25 / (l * l);
           }));
    const nlohmann::json haaland = entry("EX-02");
    expect(haaland, "max_rel_dev", largest_deviation(haaland["inputs"], [](double re, double e) {
               const double x = -1.8 * std::log10(std::pow(e / 3.7, 1.11) + 6.9 / re);
               return 1.0 / (x * x);
           }));
}

TEST(Friction, LaminarFromATextbook) {
    const nlohmann::json check = entry("FR-02");
    expect(check, "f", darcy_friction(check["expected"]["Re"].get<double>(), 0.0).value().darcy);
}

TEST(Friction, TakesTheLargerInTransition) {
    EXPECT_EQ(darcy_friction(1999.9, 0.0).value().regime, Regime::Laminar);
    for (double reynolds = kLaminarBelow; reynolds < kTurbulentFrom; reynolds += 50.0) {
        const FrictionFactor f = darcy_friction(reynolds, 0.0).value();
        EXPECT_EQ(f.regime, Regime::Transition);
        EXPECT_GE(f.darcy, 64.0 / reynolds);
        EXPECT_GE(f.darcy, darcy_friction(kTurbulentFrom, 0.0).value().darcy);
    }
    EXPECT_EQ(darcy_friction(kTurbulentFrom, 0.0).value().regime, Regime::Turbulent);
}

TEST(Friction, RisesWithRoughnessAndFallsWithReynolds) {
    for (double reynolds = 5e3; reynolds < 1e8; reynolds *= 3.0) {
        EXPECT_LT(darcy_friction(reynolds, 1e-4).value().darcy, darcy_friction(reynolds, 1e-3).value().darcy);
        EXPECT_GT(darcy_friction(reynolds, 1e-4).value().darcy, darcy_friction(3.0 * reynolds, 1e-4).value().darcy);
    }
}

TEST(Friction, IsZeroWithoutFlowAndRefusesNonsense) {
    const FrictionFactor still = darcy_friction(0.0, 0.01).value();
    EXPECT_EQ(still.darcy, 0.0);
    EXPECT_EQ(still.regime, Regime::Still);
    EXPECT_TRUE(std::isfinite(darcy_friction(1e300, 0.0).value().darcy));
    EXPECT_EQ(darcy_friction(std::nan(""), 0.0).error().code, "uncertainty.not_finite");
    EXPECT_EQ(darcy_friction(1e5, std::numeric_limits<double>::infinity()).error().code, "uncertainty.not_finite");
    EXPECT_EQ(darcy_friction(-1.0, 0.0).error().code, "power.negative");
    EXPECT_EQ(darcy_friction(1e5, -1e-9).error().code, "power.negative");
    EXPECT_EQ(darcy_friction(1e5, 0.051).error().code, "power.too_rough_for_formula");
}

TEST(HazenWilliams, AgainstPrintedTables) {
    // Charts in psi per 100 ft; water of 62.4 lb/ft3 (common practice), so that 1 psi is 2.31 ft.
    const double psi_per_m = 1.0 / si(1.0, Quantity::Pressure, "psi") * 9.80665 * si(62.4, Quantity::Density, "lb/ft3");
    for (const char* id : {"HW-01", "HW-02", "HW-03", "HW-04", "HW-06", "HW-07"}) {
        const nlohmann::json check = entry(id);
        const HazenWilliamsPipe pipe{feet(100.0), inches(check["inputs"]["bore_in"].get<double>()),
                                     check["inputs"]["C"].get<double>()};
        const double loss_m = hazen_williams_loss_m(pipe, gpm(check["inputs"]["Q_gpm"].get<double>())).value();
        expect(check, "loss_psi_per_100ft", loss_m * psi_per_m);
    }
}

TEST(HazenWilliams, RefusesNonsense) {
    EXPECT_EQ(hazen_williams_loss_m({0.0, 0.1, 150.0}, 0.01).error().code, "power.not_positive");
    EXPECT_EQ(hazen_williams_loss_m({100.0, -0.1, 150.0}, 0.01).error().code, "power.not_positive");
    EXPECT_EQ(hazen_williams_loss_m({100.0, 0.1, 0.0}, 0.01).error().code, "power.not_positive");
    EXPECT_EQ(hazen_williams_loss_m({100.0, 0.1, 150.0}, -0.01).error().code, "power.negative");
    EXPECT_EQ(hazen_williams_loss_m({100.0, 1e-200, 150.0}, 1e200).error().code, "uncertainty.not_finite");
    EXPECT_EQ(hazen_williams_loss_m({100.0, 0.1, 150.0}, 0.0).value(), 0.0);
}

} // namespace
} // namespace rillmark
