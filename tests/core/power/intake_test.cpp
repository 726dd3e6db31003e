// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/intake.h"

#include "power_checks.h"

#include <limits>
#include <numbers>

namespace rillmark {
namespace {

using power_checks::expect;
using power_checks::feet;

constexpr double kGravity_ms2 = 9.81;

nlohmann::json entry(const std::string& id) {
    return checks::entry("turbine", id);
}
double in(const nlohmann::json& check, const char* key) {
    return check.at("inputs").at(key);
}
Crest broad(double width_m, double breadth_m, double coefficient = kRoughBroadCrest) {
    Crest crest;
    crest.width_m = width_m;
    crest.breadth_m = breadth_m;
    crest.broad_coefficient = coefficient;
    return crest;
}
Crest sharp(double width_m, double height_m) {
    Crest crest;
    crest.kind = CrestKind::Sharp;
    crest.width_m = width_m;
    crest.height_m = height_m;
    return crest;
}

TEST(Intake, BroadCrestFromATextbook) {
    const auto check = entry("WE-01");
    const double gravity = feet(in(check, "g_fts2"));
    const double one_cfs = power_checks::cfs(1.0);
    const Crest crest = broad(feet(in(check, "b_ft")), feet(10.0), 1.0);
    const double still = overflow_at_head(crest, feet(in(check, "H_ft")), gravity).value().discharge_m3s / one_cfs;
    expect(check, "Q_ft3s", still);
    const double approach_fps = still / (in(check, "approach_width_ft") * in(check, "approach_depth_ft"));
    const double energy_ft = in(check, "H_ft") + approach_fps * approach_fps / (2.0 * in(check, "g_fts2"));
    expect(check, "Q_with_approach_ft3s",
           overflow_at_head(crest, feet(energy_ft), gravity).value().discharge_m3s / one_cfs);
}

TEST(Intake, IdealBroadCrestCoefficient) {
    const auto check = entry("WE-02");
    const double gravity = in(check, "g_ms2");
    expect(check, "C_SI", overflow_at_head(broad(1.0, 5.0, 1.0), 1.0, gravity).value().discharge_m3s);
    expect(check, "C_US",
           overflow_at_head(broad(feet(1.0), feet(5.0), 1.0), feet(1.0), gravity).value().discharge_m3s /
               power_checks::cfs(1.0));
}

TEST(Intake, SharpCrestsFromTextbooks) {
    const auto check = entry("WE-03");
    Crest crest = sharp(in(check, "b_m"), in(check, "crest_height_m"));
    crest.sharp_base = 0.598; // as that book prints them
    crest.sharp_rise = 0.0897;
    const double head_m = in(check, "depth_m") - in(check, "crest_height_m");
    expect(check, "Q_m3s", overflow_at_head(crest, head_m, in(check, "g_ms2")).value().discharge_m3s);

    const auto test = entry("WE-05"); // the coefficient that the flow of a test gives
    Crest plain = sharp(in(test, "L_m"), 1.0);
    plain.sharp_base = 1.0;
    plain.sharp_rise = 0.0;
    expect(test, "Cd",
           in(test, "Q_Ls") / 1000.0 /
               overflow_at_head(plain, in(test, "H_m"), in(test, "g_ms2")).value().discharge_m3s);
}

TEST(Intake, HeadAndFlowAreInverse) {
    for (const Crest& crest : {broad(3.0, 0.5), sharp(3.0, 0.8), [] {
             Crest c = sharp(3.0, 0.8);
             c.contractions = 2;
             return c;
         }()}) {
        double before = 0.0;
        for (const double head_m : {0.01, 0.1, 0.5, 2.0}) {
            const double flow = overflow_at_head(crest, head_m, kGravity_ms2).value().discharge_m3s;
            EXPECT_GT(flow, before);
            EXPECT_NEAR(overflow_of_flow(crest, flow, kGravity_ms2).value().head_m, head_m, 2e-9);
            before = flow;
        }
    }
    EXPECT_EQ(overflow_of_flow(broad(3.0, 0.5), 0.0, kGravity_ms2).value().head_m, 0.0);
}

TEST(Intake, CrestsSayWhereTheirFormulaEnds) {
    const auto code = [](const Crest& crest, double head_m) {
        const Findings findings = overflow_at_head(crest, head_m, kGravity_ms2).value().findings;
        return findings.empty() ? std::string() : findings[0].code;
    };
    EXPECT_EQ(code(broad(3.0, 1.0), 0.2), "");
    EXPECT_EQ(code(broad(3.0, 1.0), 0.05), "power.crest_out_of_range");
    EXPECT_EQ(code(broad(3.0, 1.0), 0.4), "power.crest_out_of_range");
    EXPECT_EQ(code(broad(3.0, 1.0), 2.1), "power.crest_acts_sharp");
    EXPECT_EQ(code(sharp(3.0, 1.0), 1.9), "");
    EXPECT_EQ(code(sharp(3.0, 1.0), 2.1), "power.rehbock_out_of_range");
}

TEST(Intake, WallLevelsAndFreeboard) {
    Wall wall{broad(4.0, 1.0), 100.0, 101.0, 0.2, 3.0};
    const WallLevels levels = wall_levels(wall, kGravity_ms2).value();
    // 3 m3/s over 4 m by C = 0.85 (2/3)^1.5 sqrt(9.81): H = (3/(4 x 1.4492))^(2/3)
    EXPECT_NEAR(levels.flood_level_m, 100.0 + std::pow(3.0 / (4.0 * 1.44920), 2.0 / 3.0), 1e-4);
    EXPECT_NEAR(levels.freeboard_m, 101.0 - levels.flood_level_m, 1e-12);
    EXPECT_LT(levels.design_level_m, levels.flood_level_m);
    const auto has = [](const WallLevels& found, const char* code) {
        return std::ranges::find(found.findings, code, &Finding::code) != found.findings.end();
    };
    EXPECT_FALSE(has(levels, "power.freeboard_small"));
    wall.top_level_m = levels.flood_level_m + 0.29;
    EXPECT_TRUE(has(wall_levels(wall, kGravity_ms2).value(), "power.freeboard_small"));
    wall.top_level_m = levels.flood_level_m - 0.01;
    EXPECT_TRUE(has(wall_levels(wall, kGravity_ms2).value(), "power.flood_overtops"));
    wall.top_level_m = 100.0;
    EXPECT_EQ(wall_levels(wall, kGravity_ms2).error().code, "power.wall_contradiction");
    wall.top_level_m = 101.0;
    wall.flood_m3s = 0.1;
    EXPECT_EQ(wall_levels(wall, kGravity_ms2).error().code, "power.wall_contradiction");
    wall.flood_m3s = 1e6;
    EXPECT_EQ(wall_levels(wall, kGravity_ms2).error().code, "power.overflow_too_large");
}

TEST(Intake, RackLossByKirschmer) {
    const auto check = entry("ML-06"); // its shape factor is from memory
    Rack rack{in(check, "V_approach_ms"), 1.0, in(check, "bar_mm") / 1000.0, in(check, "clear_gap_mm") / 1000.0,
              in(check, "angle_deg") * std::numbers::pi / 180.0, in(check, "K_shape")};
    const RackLoss loss = rack_loss(rack, in(check, "g_ms2")).value();
    expect(check, "h_loss_m", loss.clean_m);
    // half the area closed is the speed of a rack of half the area
    rack.wetted_area_m2 = 0.5;
    EXPECT_NEAR(loss.clogged_m, rack_loss(rack, in(check, "g_ms2")).value().clean_m, 1e-12);
    EXPECT_EQ(loss.findings.at(0).code, "power.rack_approach_fast");
    rack.flow_m3s = 0.3;
    EXPECT_TRUE(rack_loss(rack, kGravity_ms2).value().findings.empty());
    rack.slope_rad = 1.6;
    EXPECT_EQ(rack_loss(rack, kGravity_ms2).error().code, "power.slope_out_of_range");
}

TEST(Intake, SubmergenceTakesTheLargestRule) {
    const auto gordon = entry("SB-01"); // coefficients from memory
    PipeMouth mouth{in(gordon, "V_ms"), in(gordon, "D_m"), false};
    expect(gordon, "S_sym_m", submergence(mouth, kGravity_ms2).value().gordon_m);
    mouth.lateral = true;
    expect(gordon, "S_lat_m", submergence(mouth, kGravity_ms2).value().gordon_m);
    const auto institute = entry("SB-02");
    const Submergence fast = submergence(mouth, in(institute, "g_ms2")).value();
    expect(institute, "S_m", fast.hydraulic_institute_m);
    EXPECT_EQ(fast.needed_m, std::max({fast.gordon_m, fast.hydraulic_institute_m, fast.knauss_m}));
    EXPECT_EQ(fast.governs, SubmergenceRule::HydraulicInstitute);
    // Fr = 1 by hand: 2 Fr + 1/2 to the centre line, so 2 D above the top
    const double bore_m = 0.4;
    const PipeMouth critical{std::sqrt(kGravity_ms2 * bore_m), bore_m, false};
    EXPECT_NEAR(submergence(critical, kGravity_ms2).value().knauss_m, 2.0 * bore_m, 1e-12);
    EXPECT_NEAR(submergence({0.0, bore_m, false}, kGravity_ms2).value().knauss_m, bore_m, 1e-12);
}

TEST(Intake, SettlingByGrain) {
    for (const char* id : {"ST-FC-0_1", "ST-FC-0_2", "ST-FC-0_3", "ST-FC-0_5", "ST-FC-1_0"}) {
        const auto check = entry(id);
        expect(check, "w_mms",
               1000.0 * settling_velocity_ms({in(check, "d_mm") / 1000.0, in(check, "R"), in(check, "nu_m2s")},
                                             in(check, "g_ms2"))
                            .value());
    }
    const auto check = entry("ST-02");
    const Basin basin = settling_basin(in(check, "Q_m3s"), in(check, "w_ms"), in(check, "width_m")).value();
    expect(check, "area_m2", basin.area_m2);
    expect(check, "length_m", basin.length_m);
    EXPECT_NEAR(basin.depth_m * in(check, "width_m") * kBasinSpeedMax_ms, in(check, "Q_m3s"), 1e-12);
    EXPECT_EQ(settling_velocity_ms({0.02, 1.65, 1e-6}, kGravity_ms2).error().code, "power.grain_too_large");
}

TEST(Intake, ScreenHasHalfOfItsCapacity) {
    EXPECT_NEAR(screen_width_m(0.1, 0.1).value(), 2.0, 1e-12);
    EXPECT_EQ(screen_width_m(0.1, 0.0).error().code, "power.not_positive");
}

TEST(Intake, RefusesNonsense) {
    for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity(), -1.0}) {
        EXPECT_FALSE(overflow_at_head(broad(3.0, 1.0), bad, kGravity_ms2));
        EXPECT_FALSE(overflow_at_head(broad(bad, 1.0), 0.2, kGravity_ms2));
        EXPECT_FALSE(overflow_at_head(sharp(3.0, bad), 0.2, kGravity_ms2));
        EXPECT_FALSE(overflow_of_flow(broad(3.0, 1.0), bad, kGravity_ms2));
        EXPECT_FALSE(overflow_of_flow(broad(3.0, 1.0), 1.0, bad));
        EXPECT_FALSE(rack_loss({bad, 1.0, 0.01, 0.02, 1.0}, kGravity_ms2));
        EXPECT_FALSE(rack_loss({0.1, bad, 0.01, 0.02, 1.0}, kGravity_ms2));
        EXPECT_FALSE(submergence({bad, 0.3, false}, kGravity_ms2));
        EXPECT_FALSE(settling_velocity_ms({bad, 1.65, 1e-6}, kGravity_ms2));
        EXPECT_FALSE(settling_basin(bad, 0.02, 1.0));
        EXPECT_FALSE(screen_width_m(bad, 0.1));
    }
    Crest crest = sharp(1.0, 1.0);
    crest.contractions = 3;
    EXPECT_EQ(overflow_at_head(crest, 0.1, kGravity_ms2).error().code, "power.bad_contractions");
    crest.contractions = 2;
    EXPECT_EQ(overflow_at_head(crest, 6.0, kGravity_ms2).error().code, "power.bad_contractions");
    EXPECT_EQ(overflow_at_head(broad(1e300, 1.0), 1e300, kGravity_ms2).error().code, "uncertainty.not_finite");
}

} // namespace
} // namespace rillmark
