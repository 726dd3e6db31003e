// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/surge.h"

#include "power_checks.h"

#include <limits>
#include <numbers>
#include <random>

namespace rillmark {
namespace {

using power_checks::expect;
using power_checks::feet;
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
double to_psi(double pressure_Pa) {
    return pressure_Pa / psi(1.0);
}
double area_m2(double bore_m) {
    return std::numbers::pi / 4.0 * bore_m * bore_m;
}
/// Density of water in the US problems, 62.4 lb/ft3.
double us_density() {
    return si(62.4, Quantity::Density, "lb/ft3");
}

TEST(Surge, SoundInWaterOfTextbook) {
    const nlohmann::json check = entry("SU-01");
    expect(check, "c_ms", sound_speed_ms({in(check, "rho_kgm3"), in(check, "K_Pa")}).value());
}

TEST(Surge, SuddenStopInMetalPipesOfTextbook) {
    const nlohmann::json thin = entry("SU-02");
    const ElasticWater water{in(thin, "rho_kgm3"), in(thin, "K_Pa")};
    const double wave = wave_speed_ms({in(thin, "D_m"), in(thin, "t_mm") / 1000.0, in(thin, "E_Pa")}, water).value();
    const double rise = sudden_stop_Pa({1.0, wave, water.density_kgm3}, in(thin, "V_ms")).value();
    expect(thin, "h_m", rise / (water.density_kgm3 * in(thin, "g_ms2")));

    const nlohmann::json steel = entry("SU-03");
    const ElasticWater second{in(steel, "rho_kgm3"), in(steel, "K_Pa")};
    const double rigid = sound_speed_ms(second).value();
    const double elastic =
        wave_speed_ms({in(steel, "D_m"), in(steel, "t_mm") / 1000.0, in(steel, "E_Pa")}, second).value();
    const double speed = in(steel, "V_ms");
    expect(steel, "dp_rigid_MPa", sudden_stop_Pa({1.0, rigid, second.density_kgm3}, speed).value() / 1e6);
    expect(steel, "dp_elastic_MPa", sudden_stop_Pa({1.0, elastic, second.density_kgm3}, speed).value() / 1e6);
}

TEST(Surge, SlowClosingOfTextbook) {
    const nlohmann::json check = entry("SU-04");
    const ElasticWater water{in(check, "rho_kgm3"), in(check, "K_Pa")};
    const double wave = wave_speed_ms({in(check, "D_m"), in(check, "t_mm") / 1000.0, in(check, "E_Pa")}, water).value();
    const SurgePipe pipe{in(check, "L_m"), wave, water.density_kgm3};
    expect(check, "c_ms", wave);
    expect(check, "dp_fast_MPa", closing_Pa(pipe, in(check, "V_ms"), 0.0).value() / 1e6);
    expect(check, "T0_s", reflection_time_s(pipe).value());
    expect(check, "dp_slow_MPa", closing_Pa(pipe, in(check, "V_ms"), in(check, "closure_s")).value() / 1e6);
}

TEST(Surge, LengthThatFeelsTheWholeOfASuddenStop) {
    const nlohmann::json check = entry("SU-06");
    const ElasticWater water{in(check, "rho_kgm3"), in(check, "K_Pa")};
    const SurgePipe pipe{in(check, "L_m"), sound_speed_ms(water).value(), water.density_kgm3};
    expect(check, "dp_MPa", closing_Pa(pipe, in(check, "V_ms"), in(check, "closure_s")).value() / 1e6);
    expect(check, "X0_m", full_surge_length_m(pipe, in(check, "closure_s")).value());
    EXPECT_EQ(full_surge_length_m(pipe, 1e4).value(), 0.0);
}

TEST(Surge, ClosingsInUsUnits) {
    const nlohmann::json check = entry("SU-07");
    const double bore = feet(in(check, "D_ft"));
    const double flow = power_checks::cfs(in(check, "Q_ft3s"));
    const double cut = flow - power_checks::cfs(in(check, "Q_partial_ft3s"));
    // 1.94 slug/ft3 of the book is 62.4 lb/ft3
    const SurgePipe pipe{feet(in(check, "L_ft")), feet(in(check, "cp_fts")), us_density()};
    expect(check, "dp_full_psi", to_psi(closing_Pa(pipe, flow / area_m2(bore), 0.0).value()));
    expect(check, "dp_slow_psi", to_psi(closing_Pa(pipe, flow / area_m2(bore), in(check, "closure_s")).value()));
    expect(check, "dp_partial_psi", to_psi(closing_Pa(pipe, cut / area_m2(bore), 0.0).value()));

    const nlohmann::json rigid = entry("SU-09");
    const double density = si(in(rigid, "gamma_lbft3"), Quantity::Density, "lb/ft3");
    const double wave = sound_speed_ms({density, psi(in(rigid, "K_psi"))}).value();
    const double speed = power_checks::cfs(in(rigid, "Q_ft3s")) / area_m2(inches(in(rigid, "D_in")));
    expect(rigid, "dp_psi", to_psi(sudden_stop_Pa({1.0, wave, density}, speed).value()));
}

// The table is from memory, unconfirmed; so is its sound speed of 4660 ft/s, put in here as a density.
TEST(Surge, PvcTableFromMemory) {
    for (const char* id : {"SU-PVC-18", "SU-PVC-21", "SU-PVC-25", "SU-PVC-26", "SU-PVC-41"}) {
        const nlohmann::json check = entry(id);
        const double bulk = psi(in(check, "K_psi"));
        const ElasticWater water{bulk / std::pow(feet(4660.0), 2.0), bulk};
        const double wave = wave_speed_ms({in(check, "DR") - 2.0, 1.0, psi(in(check, "E_psi"))}, water).value();
        expect(check, "surge_psi",
               to_psi(sudden_stop_Pa({1.0, wave, us_density()}, feet(in(check, "dV_fts"))).value()));
    }
}

// The note takes 4720 ft/s and the whole outside diameter over the wall.
TEST(Surge, PipelineOfTheNrcsNote) {
    const nlohmann::json check = entry("SU-11");
    const double outside = inches(in(check, "OD_in"));
    const double wall = inches(in(check, "wall_in"));
    const double bulk = psi(in(check, "K_psi"));
    const ElasticWater water{bulk / std::pow(feet(4720.0), 2.0), bulk};
    const double wave = wave_speed_ms({outside, wall, psi(in(check, "E_psi"))}, water).value();
    const double speed = power_checks::cfs(in(check, "Q_cfs")) / area_m2(outside - 2.0 * wall);
    const SurgePipe pipe{feet(in(check, "L_ft")), wave, us_density()};
    expect(check, "V_fps", speed / feet(1.0));
    expect(check, "wave_speed_fps", wave / feet(1.0));
    expect(check, "critical_time_s", reflection_time_s(pipe).value());
    const double surge = to_psi(closing_Pa(pipe, speed, 4.9).value());
    expect(check, "surge_psi", surge);
    expect(check, "total_psi", surge + in(check, "operating_psi"));
}

TEST(Surge, AnchoringFactors) {
    const nlohmann::json check = entry("SU-10");
    const double poisson = in(check, "poisson");
    expect(check, "zeta_joints", anchoring_factor(PipeAnchoring::ExpansionJoints, poisson).value());
    expect(check, "zeta_one_end", anchoring_factor(PipeAnchoring::OneEnd, poisson).value());
    expect(check, "zeta_both_ends", anchoring_factor(PipeAnchoring::Throughout, poisson).value());
    for (const double bad : {-0.01, 0.51, 1e9})
        EXPECT_EQ(anchoring_factor(PipeAnchoring::OneEnd, bad).error().code, "power.poisson_out_of_range");
    EXPECT_EQ(anchoring_factor(PipeAnchoring::OneEnd, kNaN).error().code, "uncertainty.not_finite");
}

TEST(Surge, ClosingTimeIsTheInverseOfTheClosing) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (int trial = 0; trial < 500; ++trial) {
        const SurgePipe pipe{20.0 + 2000.0 * unit(random), 200.0 + 1200.0 * unit(random), 999.7};
        const double speed = 0.1 + 4.0 * unit(random);
        const double sudden = sudden_stop_Pa(pipe, speed).value();
        const double limit = sudden * (0.02 + 1.2 * unit(random));
        const double time = closing_time_for_limit_s(pipe, speed, limit).value();
        EXPECT_LE(closing_Pa(pipe, speed, time).value(), limit * (1.0 + 1e-12));
        if (limit < sudden) {
            EXPECT_NEAR(closing_Pa(pipe, speed, time).value(), limit, 1e-9 * limit);
            EXPECT_GT(time, reflection_time_s(pipe).value() * (1.0 - 1e-12));
        } else {
            EXPECT_EQ(time, 0.0);
        }
        // slower is never worse, and within the reflection time it makes no difference
        EXPECT_GE(closing_Pa(pipe, speed, time).value(), closing_Pa(pipe, speed, 1.5 * time).value());
        EXPECT_EQ(closing_Pa(pipe, speed, 0.99 * reflection_time_s(pipe).value()).value(), sudden);
    }
}

TEST(Surge, WaveIsSlowerThanSoundAndFasterInAStifferWall) {
    const ElasticWater water{999.7};
    double before = 0.0;
    for (double modulus = 1e8; modulus < 1e13; modulus *= 2.0) {
        const double wave = wave_speed_ms({0.2, 0.01, modulus}, water).value();
        EXPECT_GT(wave, before);
        EXPECT_LT(wave, sound_speed_ms(water).value());
        before = wave;
    }
    constexpr double kRigid_Pa = 1e30;
    EXPECT_NEAR(wave_speed_ms({0.2, 0.01, kRigid_Pa}, water).value(), sound_speed_ms(water).value(), 1e-6);
}

SurgeEstimate pe_pipe() {
    return {{300.0, 0.5},         {0.1, 0.0005}, {0.0066, 0.0002},
            {1.0e9, 0.144e9},     {2.0, 0.06},   {0.0, 0.0},
            kWaterBulkModulus_Pa, 1.0,           999.7};
}

// The uncertainty against many draws of the same model, at a sudden and at a slow closing.
TEST(Surge, UncertaintyCoversDraws) {
    for (const double closing : {0.0, 12.0}) {
        SurgeEstimate surge = pe_pipe();
        surge.closing_s = {closing, 0.05 * closing};
        const Budgeted result = closing_estimate_Pa(surge).value();
        std::mt19937 random(11);
        std::normal_distribution<double> normal;
        const auto draw = [&](Estimate e) { return e.value + e.standard_uncertainty * normal(random); };
        int inside = 0;
        constexpr int kDraws = 4000;
        for (int i = 0; i < kDraws; ++i) {
            const double wave = wave_speed_ms({draw(surge.bore_m), draw(surge.wall_m), draw(surge.modulus_Pa)},
                                              {surge.density_kgm3, draw(surge.bulk_modulus_Pa)})
                                    .value();
            const double length = draw(surge.length_m);
            const double speed = draw(surge.speed_change_ms);
            const double rise =
                closing_Pa({length, wave, surge.density_kgm3}, speed, std::max(0.0, draw(surge.closing_s))).value();
            inside += std::abs(rise - result.estimate.value) <= result.estimate.expanded();
        }
        EXPECT_NEAR(inside / static_cast<double>(kDraws), 0.954, 0.012) << closing;
        EXPECT_EQ(result.budget.front().input, closing == 0.0 ? "power.modulus" : "power.closing_time");
    }
}

TEST(Surge, RefusesBadInput) {
    const SurgePipe good{100.0, 400.0, 1000.0};
    for (const double bad : {0.0, -1.0})
        for (const SurgePipe& pipe :
             {SurgePipe{bad, 400.0, 1000.0}, SurgePipe{100.0, bad, 1000.0}, SurgePipe{100.0, 400.0, bad}}) {
            EXPECT_EQ(closing_Pa(pipe, 1.0, 1.0).error().code, "power.not_positive");
            EXPECT_EQ(reflection_time_s(pipe).error().code, "power.not_positive");
        }
    for (const double bad : {kNaN, kInf}) {
        EXPECT_EQ(closing_Pa(good, bad, 1.0).error().code, "uncertainty.not_finite");
        EXPECT_EQ(closing_Pa(good, 1.0, bad).error().code, "uncertainty.not_finite");
        EXPECT_EQ(wave_speed_ms({0.1, bad, 1e9}, {1000.0}).error().where, "power.pipe_wall");
        EXPECT_EQ(closing_time_for_limit_s(good, 1.0, bad).error().code, "uncertainty.not_finite");
    }
    EXPECT_EQ(closing_Pa(good, -1.0, 1.0).error().where, "power.speed_change");
    EXPECT_EQ(closing_Pa(good, 1.0, -1.0).error().where, "power.closing_time");
    EXPECT_EQ(closing_time_for_limit_s(good, 1.0, 0.0).error().code, "power.not_positive");
    EXPECT_EQ(sudden_stop_Pa({1.0, 1e300, 1e300}, 1e300).error().code, "uncertainty.not_finite");
    SurgeEstimate surge = pe_pipe();
    surge.wall_m = {0.0, 0.0};
    EXPECT_EQ(closing_estimate_Pa(surge).error().where, "power.pipe_wall");
    surge = pe_pipe();
    surge.modulus_Pa.standard_uncertainty = -1.0;
    EXPECT_EQ(closing_estimate_Pa(surge).error().code, "uncertainty.negative");
}

} // namespace
} // namespace rillmark
