// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pressure_profile.h"

#include "power/pipe_flow.h"
#include "power/pipe_laying.h"
#include "power_checks.h"
#include "water/gravity.h"
#include "water/water.h"

#include <algorithm>
#include <limits>
#include <numbers>
#include <random>

namespace rillmark {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kInf = std::numeric_limits<double>::infinity();

PipeMaterial material(std::string_view id) {
    return pipe_material(id).value();
}

/// 400 m of PE100 SDR 17, 110 mm, falling 60 m evenly; the intake level 1 m above its mouth.
PressureInput even_pipe() {
    PressureInput input;
    input.points = {{0.0, 99.0, 0.0}, {200.0, 69.0, 0.0}, {400.0, 39.0, 0.0}};
    input.sections = {{0.0, 0.0965, 0.0066, 1e-5, material("pe100"), 10e5}};
    input.intake_level_m = 100.0;
    input.flow_m3s = {0.008, 0.0002};
    input.closing_s = 20.0;
    return input;
}

PressureProfile profile_of(const PressureInput& input) {
    const Expected<PressureProfile> profile = pressure_profile(input);
    EXPECT_TRUE(profile.ok()) << (profile ? "" : profile.error().code);
    return profile ? *profile : PressureProfile{};
}

bool says(const PressureProfile& profile, const std::string& code) {
    return std::ranges::find(profile.findings, code, &Finding::code) != profile.findings.end();
}

std::optional<double> argument(const PressureProfile& profile, const std::string& code, const std::string& name) {
    for (const Finding& finding : profile.findings)
        if (finding.code == code)
            for (const Arg& arg : finding.args)
                if (arg.name == name)
                    return std::get<double>(arg.value);
    return {};
}

struct Here {
    double density = water_density_kgm3(10.0).value();
    double gravity = normal_gravity_ms2({45.0, 0.0}).value();
    double viscosity = water_kinematic_viscosity_m2s(10.0).value();
    double weight = density * gravity;
};

TEST(PressureProfile, StandingAndFlowingAgreeWithDepthAndPipeLoss) {
    const PressureInput input = even_pipe();
    const PressureProfile profile = profile_of(input);
    const Here here;
    ASSERT_EQ(profile.points.size(), 3u);
    EXPECT_NEAR(profile.points[0].static_Pa, here.weight * 1.0, 1e-6);
    EXPECT_NEAR(profile.points[2].static_Pa, here.weight * 61.0, 1e-6);
    const PipeLoss loss =
        pipe_loss({400.0, 0.0965, 1e-5, kSquareEntranceK}, {here.viscosity, here.gravity}, 0.008).value();
    const double velocity_head = loss.speed_ms * loss.speed_ms / (2.0 * here.gravity);
    EXPECT_NEAR(profile.points[2].hydraulic_grade_m, 100.0 - loss.total_m() - velocity_head, 1e-9);
    EXPECT_NEAR(profile.points[2].flowing_Pa, here.weight * (61.0 - loss.total_m() - velocity_head), 1e-4);
    EXPECT_TRUE(profile.grade.spots.empty());
    EXPECT_TRUE(profile.grade.not_falling.empty());
    EXPECT_FALSE(says(profile, "power.pipe_rises"));
    EXPECT_FALSE(says(profile, "power.suction_at_flow"));
}

// The slow closing of the textbook does not depend on the wave speed; water of 21 degC has the book's 998 kg/m3.
TEST(PressureProfile, SlowClosingOfTextbook) {
    const nlohmann::json check = checks::entry("pipe_pressure", "SU-04");
    const auto in = [&](const char* key) { return check.at("inputs").at(key).get<double>(); };
    PressureInput input = even_pipe();
    const double length = in("L_m");
    const double bore = in("D_m");
    input.points = {{0.0, 99.0, 0.0}, {length / 4.0, 80.0, 0.0}, {length, 20.0, 0.0}};
    PipeMaterial wall = material("steel");
    wall.modulus_Pa = {in("E_Pa"), 0.0};
    input.sections = {{0.0, bore, in("t_mm") / 1000.0, 1e-5, wall, {}}};
    input.flow_m3s = {in("V_ms") * std::numbers::pi / 4.0 * bore * bore, 0.0};
    input.closing_s = in("closure_s");
    input.water_temperature_C = 21.0;
    const PressureProfile profile = profile_of(input);
    power_checks::expect(check, "dp_slow_MPa", profile.surge_Pa.estimate.value / 1e6);
    // a straight line from the valve to the intake
    EXPECT_EQ(profile.points[0].surge_Pa, 0.0);
    EXPECT_NEAR(profile.points[1].surge_Pa, profile.points[2].surge_Pa / 4.0, 1e-6);
}

TEST(PressureProfile, FastClosingIsFullAsFarUpAsTheTextbookSays) {
    PressureInput input = even_pipe();
    input.flow_m3s.standard_uncertainty = 0.0;
    const PressureProfile sudden = profile_of([&] {
        PressureInput at_once = input;
        at_once.closing_s = 0.0;
        return at_once;
    }());
    EXPECT_EQ(sudden.points[0].surge_Pa, 0.0);
    EXPECT_EQ(sudden.points[1].surge_Pa, sudden.points[2].surge_Pa);
    EXPECT_NEAR(sudden.surge_Pa.estimate.value, sudden.sudden_stop_Pa, 1e-9 * sudden.sudden_stop_Pa);

    const double wave = sudden.sections[0].wave_speed_ms;
    EXPECT_NEAR(sudden.reflection_s, 800.0 / wave, 1e-12);
    input.closing_s = 0.5 * sudden.reflection_s;
    const double full_m = full_surge_length_m({400.0, wave, 999.7}, input.closing_s).value();
    input.points = {
        {0.0, 99.0, 0.0}, {(400.0 - full_m) / 2.0, 84.0, 0.0}, {400.0 - full_m, 69.0, 0.0}, {400.0, 39.0, 0.0}};
    const PressureProfile fast = profile_of(input);
    EXPECT_NEAR(fast.points[2].surge_Pa, fast.points[3].surge_Pa, 1e-9 * fast.points[3].surge_Pa);
    EXPECT_NEAR(fast.points[1].surge_Pa, fast.points[3].surge_Pa / 2.0, 1e-9 * fast.points[3].surge_Pa);
}

TEST(PressureProfile, ASectionCutInTwoIsTheSamePipe) {
    const PressureInput whole = even_pipe();
    PressureInput cut = whole;
    cut.sections.push_back(cut.sections.front());
    cut.sections.back().from_m = 137.0;
    const PressureProfile one = profile_of(whole);
    const PressureProfile two = profile_of(cut);
    ASSERT_EQ(two.points.size(), 4u);
    ASSERT_EQ(two.sections.size(), 2u);
    EXPECT_EQ(two.points[1].point.chainage_m, 137.0);
    EXPECT_EQ(two.points[0].section, 0u);
    EXPECT_EQ(two.points[1].section, 1u);
    EXPECT_NEAR(two.points[3].flowing_Pa, one.points[2].flowing_Pa, 1e-6);
    EXPECT_NEAR(two.points[3].highest_Pa, one.points[2].highest_Pa, 1e-4);
    EXPECT_NEAR(two.surge_Pa.estimate.standard_uncertainty, one.surge_Pa.estimate.standard_uncertainty, 1e-4);
    EXPECT_NEAR(two.reflection_s, one.reflection_s, 1e-12);
}

TEST(PressureProfile, TheHeavierClassBeginsWhereThePressurePassesTheLighter) {
    PressureInput input = even_pipe();
    input.sections[0].rating_Pa = 4e5;
    const PressureProfile profile = profile_of(input);
    ASSERT_TRUE(profile.sections[0].passed_from_m);
    EXPECT_EQ(*profile.sections[0].holds_Pa, 4e5);
    const double chainage = *profile.sections[0].passed_from_m;
    EXPECT_GT(chainage, 0.0);
    EXPECT_LT(chainage, 400.0);
    EXPECT_EQ(class_ends_at_m(profile, 4e5), profile.sections[0].passed_from_m);
    EXPECT_FALSE(class_ends_at_m(profile, 1e7));
    EXPECT_TRUE(says(profile, "power.section_over_static"));

    // with the end of the pipe there, the class just holds
    PressureInput shorter = input;
    shorter.points.insert(shorter.points.begin() + (chainage > 200.0 ? 2 : 1), {chainage, 99.0 - 0.15 * chainage, 0.0});
    const PressureProfile cut = profile_of(shorter);
    const auto at = std::ranges::find(cut.points, chainage, [](const PressurePoint& p) { return p.point.chainage_m; });
    ASSERT_NE(at, cut.points.end());
    EXPECT_NEAR(at->highest_Pa, 4e5, 1e-3);

    // a heavier class from there on
    PressureInput graded = input;
    graded.sections.push_back({chainage, 0.09, 0.01, 1e-5, material("pe100"), 16e5});
    const PressureProfile both = profile_of(graded);
    EXPECT_FALSE(both.sections[1].passed_from_m);
    input.wall_temperature_C = 40.0;
    EXPECT_NEAR(*profile_of(input).sections[0].holds_Pa, 0.74 * 4e5, 1e-6);
}

TEST(PressureProfile, TheClosingThatIsNeededIsEnoughAndNotTooMuch) {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    int needed = 0;
    for (int trial = 0; trial < 100; ++trial) {
        PressureInput input = even_pipe();
        input.flow_m3s = {0.002 + 0.01 * unit(random), 0.0};
        input.sections[0].rating_Pa = 6.2e5 + 6e5 * unit(random);
        if (trial % 2 == 0)
            input.sections.push_back({250.0, 0.08, 0.01, 1e-5, material("pvc"), 6.5e5 + 8e5 * unit(random)});
        input.closing_s = 0.0;
        const PressureProfile sudden = profile_of(input);
        ASSERT_TRUE(sudden.closing_needed_s);
        input.closing_s = *sudden.closing_needed_s * (1.0 + 1e-9);
        const PressureProfile slow = profile_of(input);
        EXPECT_FALSE(says(slow, "power.section_over_class")) << trial;
        EXPECT_FALSE(says(slow, "power.closing_too_fast"));
        if (*sudden.closing_needed_s == 0.0)
            continue;
        ++needed;
        EXPECT_TRUE(says(sudden, "power.closing_too_fast"));
        // the +/- of a sudden stop is allowed for at a slow one too: a fifth less is too fast all the same
        input.closing_s = 0.6 * *sudden.closing_needed_s;
        EXPECT_TRUE(says(profile_of(input), "power.section_over_class")) << trial;
    }
    EXPECT_GT(needed, 30);
}

TEST(PressureProfile, SlowerClosingNeverPressesMore) {
    PressureInput input = even_pipe();
    double before = kInf;
    for (double closing = 0.0; closing < 60.0; closing += 1.5) {
        input.closing_s = closing;
        const PressureProfile profile = profile_of(input);
        EXPECT_LE(profile.surge_Pa.estimate.value, before * (1.0 + 1e-12));
        before = profile.surge_Pa.estimate.value;
        for (const PressurePoint& point : profile.points) {
            EXPECT_GE(point.highest_Pa, point.static_Pa);
            EXPECT_LE(point.lowest_Pa, point.static_Pa);
            EXPECT_LE(point.draining_Pa, 0.0);
        }
    }
}

// Air of the standard atmosphere at sea level, less 1.23 kPa of vapour at 10 degC.
TEST(PressureProfile, DrainingSucksDownToFullVacuum) {
    const PressureProfile profile = profile_of(even_pipe());
    EXPECT_NEAR(profile.points[0].draining_Pa, -(101325.0 - 1228.0), 5.0);
    EXPECT_EQ(profile.points[2].draining_Pa, 0.0);
    PressureInput low = even_pipe();
    low.points = {{0.0, 99.0, 0.0}, {400.0, 95.0, 0.0}};
    EXPECT_NEAR(profile_of(low).points[0].draining_Pa, -Here{}.weight * 4.0, 1e-6);

    // PE100 SDR 17 of modulus 0.712 GPa (k = 2 low): 2E/((1-v2)(DR-1)3)/2 on the wall's own mean diameter
    const double ratio = (0.0965 + 2 * 0.0066) / 0.0066 - 1.0;
    const double stands = (1.0e9 - 2 * 0.144e9) / ((1.0 - 0.45 * 0.45) * ratio * ratio * ratio);
    EXPECT_NEAR(profile.sections[0].short_vacuum_Pa, stands, 1e-6 * stands);
    EXPECT_FALSE(says(profile, "power.draining_collapse"));
    PressureInput thin = even_pipe();
    thin.sections[0].wall_m = 0.0035;
    const PressureProfile thin_profile = profile_of(thin);
    EXPECT_TRUE(says(thin_profile, "power.draining_collapse"));
    EXPECT_NEAR(*argument(thin_profile, "power.draining_collapse", "stands"), thin_profile.sections[0].short_vacuum_Pa,
                1e-9);
}

TEST(PressureProfile, SuctionAtFlowAndItsLimits) {
    PressureInput input = even_pipe();
    // a crest 0.5 m below the intake level, half way down
    input.points = {{0.0, 99.0, 0.0}, {100.0, 98.0, 0.0}, {200.0, 99.5, 0.0}, {400.0, 39.0, 0.0}};
    const PressureProfile mild = profile_of(input);
    EXPECT_TRUE(says(mild, "power.suction_at_flow"));
    EXPECT_FALSE(says(mild, "power.above_static_line"));
    EXPECT_TRUE(says(mild, "power.air_valve_needed"));
    EXPECT_TRUE(says(mild, "power.drain_needed"));
    EXPECT_NEAR(*argument(mild, "power.suction_at_flow", "chainage"), 200.0, 1e-12);
    EXPECT_NEAR(*argument(mild, "power.air_valve_needed", "chainage"), 200.0, 1e-12);
    EXPECT_NEAR(*argument(mild, "power.drain_needed", "chainage"), 100.0, 1e-12);

    input.points[2].level_m = 103.0;
    const PressureProfile siphon = profile_of(input);
    EXPECT_TRUE(says(siphon, "power.above_static_line"));
    EXPECT_NEAR(*argument(siphon, "power.above_static_line", "above"), 3.0, 1e-9);
    EXPECT_TRUE(says(siphon, "power.suction_deep"));
    input.points[2].level_m = 112.0;
    EXPECT_TRUE(says(profile_of(input), "power.water_parts"));

    PressureInput much = even_pipe();
    much.flow_m3s = {0.04, 0.0};
    EXPECT_TRUE(says(profile_of(much), "power.flow_over_capacity"));
    EXPECT_FALSE(says(mild, "power.flow_over_capacity"));
}

TEST(PressureProfile, ThrustOfBendsAndOfTheShutValve) {
    PressureInput input = even_pipe();
    input.points[1].bend_rad = std::numbers::pi / 4.0;
    input.soil_bearing_Pa = 7e4;
    const PressureProfile profile = profile_of(input);
    ASSERT_EQ(profile.bends.size(), 1u);
    const PipeBend& bend = profile.bends.front();
    const double outside = 0.0965 + 2 * 0.0066;
    EXPECT_NEAR(bend.thrust_N, bend_thrust_N(profile.points[1].highest_Pa, outside, bend.angle_rad).value(), 1e-9);
    EXPECT_NEAR(*bend.block_area_m2, 1.5 * bend.thrust_N / 7e4, 1e-12);
    EXPECT_NEAR(profile.end_thrust_N, profile.points[2].highest_Pa * std::numbers::pi / 4.0 * outside * outside, 1e-6);
    EXPECT_TRUE(says(profile, "power.thrust_blocks"));
    EXPECT_TRUE(profile_of(even_pipe()).bends.empty());
}

// Draws of flow, bulk modulus and wall modulus, for a sudden stop and for a slow closing.
TEST(PressureProfile, UncertaintyOfTheSurgeCoversDraws) {
    for (const double closing : {0.0, 20.0}) {
        PressureInput input = even_pipe();
        input.closing_s = closing;
        const Budgeted surge = profile_of(input).surge_Pa;
        std::mt19937 random(5);
        std::normal_distribution<double> normal;
        const auto draw = [&](Estimate e) { return e.value + e.standard_uncertainty * normal(random); };
        int inside = 0;
        constexpr int kDraws = 3000;
        for (int i = 0; i < kDraws; ++i) {
            const double speed = draw(input.flow_m3s) / (std::numbers::pi / 4.0 * 0.0965 * 0.0965);
            const double density = Here{}.density;
            const double wave = wave_speed_ms({0.0965, 0.0066, draw(input.sections[0].material.modulus_Pa)},
                                              {density, draw(kWaterBulkModulus_Pa)})
                                    .value();
            const double rise = closing_Pa({400.0, wave, density}, speed, closing).value();
            inside += std::abs(rise - surge.estimate.value) <= surge.estimate.expanded();
        }
        EXPECT_NEAR(inside / static_cast<double>(kDraws), 0.954, 0.014) << closing;
        EXPECT_EQ(surge.budget.front().input, closing == 0.0 ? "power.modulus" : "power.flow");
    }
}

TEST(PressureProfile, StillWaterHasNoSurge) {
    PressureInput input = even_pipe();
    input.flow_m3s = {0.0, 0.0};
    input.closing_s = 0.0;
    const PressureProfile profile = profile_of(input);
    for (const PressurePoint& point : profile.points) {
        EXPECT_EQ(point.highest_Pa, point.static_Pa);
        EXPECT_NEAR(point.flowing_Pa, point.static_Pa, 1e-9);
    }
    EXPECT_FALSE(says(profile, "power.surge_simplified"));
}

void expect_refused(const PressureInput& input, const std::string& code, const std::string& where) {
    const Expected<PressureProfile> profile = pressure_profile(input);
    ASSERT_FALSE(profile.ok()) << code << " " << where;
    EXPECT_EQ(profile.error().code, code);
    EXPECT_EQ(profile.error().where, where);
}

TEST(PressureProfile, RefusesBadInput) {
    const auto with = [](auto change) {
        PressureInput input = even_pipe();
        change(input);
        return input;
    };
    for (const double bad : {kNaN, kInf, -kInf}) {
        expect_refused(with([&](auto& i) { i.points[1].level_m = bad; }), "uncertainty.not_finite", "power.pipe_level");
        expect_refused(with([&](auto& i) { i.points[1].chainage_m = bad; }), "uncertainty.not_finite",
                       "power.chainage");
        expect_refused(with([&](auto& i) { i.points[1].bend_rad = bad; }), "uncertainty.not_finite",
                       "power.bend_angle");
        expect_refused(with([&](auto& i) { i.intake_level_m = bad; }), "uncertainty.not_finite", "power.intake_level");
        expect_refused(with([&](auto& i) { i.flow_m3s.value = bad; }), "uncertainty.not_finite", "power.flow");
        expect_refused(with([&](auto& i) { i.closing_s = bad; }), "uncertainty.not_finite", "power.closing_time");
        expect_refused(with([&](auto& i) { i.sections[0].bore_m = bad; }), "uncertainty.not_finite", "power.bore");
        expect_refused(with([&](auto& i) { i.wall_temperature_C = bad; }), "uncertainty.not_finite",
                       "power.wall_temperature");
        EXPECT_FALSE(pressure_profile(with([&](auto& i) { i.water_temperature_C = bad; })).ok());
        EXPECT_FALSE(pressure_profile(with([&](auto& i) { i.altitude_m = bad; })).ok());
        EXPECT_FALSE(pressure_profile(with([&](auto& i) { i.sections[0].material.modulus_Pa.value = bad; })).ok());
    }
    expect_refused({}, "power.too_few_points", "power.chainage");
    expect_refused(with([](auto& i) { i.sections.clear(); }), "power.no_section", "power.bore");
    expect_refused(with([](auto& i) { i.sections[0].from_m = 1.0; }), "power.section_misplaced", "power.chainage");
    expect_refused(with([](auto& i) { i.sections[0].from_m = kNaN; }), "power.section_misplaced", "power.chainage");
    expect_refused(with([](auto& i) { i.sections.push_back(i.sections[0]); }), "power.section_misplaced",
                   "power.chainage");
    expect_refused(with([](auto& i) { i.points[1].chainage_m = 400.0; }), "power.chainage_not_growing",
                   "power.chainage");
    expect_refused(with([](auto& i) { i.points[1].chainage_m = 20.0; }), "power.rise_longer_than_pipe",
                   "power.pipe_level");
    expect_refused(with([](auto& i) { i.intake_level_m = 98.0; }), "power.intake_below_pipe", "power.intake_level");
    expect_refused(with([](auto& i) {
                       i.points = {{0.0, 39.0, 0.0}, {200.0, 100.0, 0.0}};
                   }),
                   "power.outlet_not_below_intake", "power.intake_level");
    expect_refused(with([](auto& i) { i.sections[0].wall_m = 0.0; }), "power.not_positive", "power.pipe_wall");
    expect_refused(with([](auto& i) { i.sections[0].rating_Pa = -1.0; }), "power.not_positive",
                   "power.pressure_rating");
    expect_refused(with([](auto& i) { i.flow_m3s.value = -0.1; }), "power.negative", "power.flow");
    expect_refused(with([](auto& i) { i.soil_bearing_Pa = 0.0; }), "power.not_positive", "power.soil_bearing");
    EXPECT_FALSE(pressure_profile(with([](auto& i) { i.flow_m3s.value = 1e300; })).ok());
}

} // namespace
} // namespace rillmark
