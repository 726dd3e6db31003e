// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/turbine.h"

#include "power_checks.h"

#include <limits>

namespace rillmark {
namespace {

using power_checks::expect;
using power_checks::feet;

constexpr double kGravity_ms2 = 9.81;
constexpr double kDensity_kgm3 = 1000.0;

nlohmann::json entry(const std::string& id) {
    return checks::entry("turbine", id);
}
double in(const nlohmann::json& check, const char* key) {
    return check.at("inputs").at(key);
}
double horsepower(double number) {
    return power_checks::si(number, Quantity::Power, "hp");
}
/// A point of which only speed, power and head matter.
SpecificSpeed specific(double speed_rpm, double power_W, double head_m) {
    return specific_speed({speed_rpm, head_m, 1.0, power_W, kGravity_ms2}).value();
}

TEST(SpecificSpeed, SystemsAgree) {
    const auto check = entry("TU-14");
    const SpecificSpeed s =
        specific_speed({in(check, "N_rpm"), in(check, "H_m"), in(check, "Q_m3s"), in(check, "P_kW") * 1e3, kGravity_ms2}).value();
    expect(check, "ns_kW", s.ns_kW);
    expect(check, "nq", s.nq);
    expect(check, "ns_metric_hp", s.ns_hp);
    expect(check, "ns_us_hp_ft", s.ns_us);
    EXPECT_NEAR(s.nqe, in(check, "N_rpm") / 60.0 * 0.2 / std::pow(9.81 * in(check, "H_m"), 0.75), 1e-12);
}

TEST(SpecificSpeed, TextbookMachines) {
    const auto kw = entry("TU-17");
    expect(kw, "Ns", specific(in(kw, "N_rpm"), in(kw, "P_kW") * 1e3, in(kw, "H1_m")).ns_kW);
    const auto us = entry("TU-12");
    const double power_hp = in(us, "Q_ft3s") * in(us, "H_ft") * in(us, "gamma_lbft3") * in(us, "eta") / 550.0;
    const double each_W = horsepower(power_hp / in(us, "n_units"));
    expect(us, "ns_impulse", specific(in(us, "N_impulse_rpm"), each_W, feet(in(us, "H_ft"))).ns_us);
    expect(us, "ns_francis", specific(in(us, "N_francis_rpm"), each_W, feet(in(us, "H_ft"))).ns_us);
    const auto model = entry("TU-18"); // the prototype's speed from the model's specific speed
    const double ns_model = specific(in(model, "N_rpm"), in(model, "P_kW") * 1e3, in(model, "H_m")).ns_kW;
    const double prototype_W = model["expected"]["P_proto_kW"].get<double>() * 1e3;
    expect(model, "N_proto_rpm", speed_for_specific_rpm(ns_model, prototype_W, in(model, "H_proto_m")).value());
    const auto units = entry("TU-19"); // the fewest units within the limit
    const double all_W = units["expected"]["P_kW"].get<double>() * 1e3;
    const auto fewest = [&](const char* limit) {
        int count = 1;
        while (specific(in(units, "N_rpm"), all_W / count, in(units, "H_m")).ns_kW > in(units, limit))
            ++count;
        return count;
    };
    expect(units, "n_francis", fewest("Ns_francis"));
    expect(units, "n_kaplan", fewest("Ns_kaplan"));
}

TEST(SpecificSpeed, SameMachineAtAnotherHead) {
    for (const char* id : {"TU-15", "TU-17"}) {
        const auto check = entry(id);
        const double speed = check["inputs"].contains("N1_rpm") ? in(check, "N1_rpm") : in(check, "N_rpm");
        const double power_kW = check["inputs"].contains("P1_kW") ? in(check, "P1_kW") : in(check, "P_kW");
        const TurbinePoint other =
            at_another_head({speed, in(check, "H1_m"), 1.0, power_kW * 1e3, kGravity_ms2}, in(check, "H2_m")).value();
        expect(check, "N2_rpm", other.speed_rpm);
        expect(check, "P2_kW", other.power_W / 1e3);
    }
    const auto check = entry("TU-16");
    const double flow = in(check, "P1_kW") * 1e3 / (in(check, "gamma_Nm3") * in(check, "H1_m") * in(check, "eta"));
    const TurbinePoint higher =
        at_another_head({in(check, "N1_rpm"), in(check, "H1_m"), flow, in(check, "P1_kW") * 1e3, kGravity_ms2},
                        in(check, "H2_m"))
            .value();
    expect(check, "N2_rpm", higher.speed_rpm);
    expect(check, "Q2_m3s", higher.flow_m3s);
    expect(check, "P2_kW", higher.power_W / 1e3);
}

TEST(SpecificSpeed, SynchronousSpeed) {
    const auto check = entry("TU-26");
    expect(check, "N_sync_rpm", synchronous_rpm(in(check, "f_Hz"), check["inputs"]["poles"].get<int>()).value());
    EXPECT_EQ(synchronous_rpm(50.0, 3).error().code, "power.bad_poles");
    EXPECT_EQ(synchronous_rpm(50.0, 0).error().code, "power.bad_poles");
}

TEST(Turbine, PeltonWheelsFromTextbooks) {
    const auto small = entry("TU-02");
    const ImpulseWheel a = impulse_wheel({in(small, "H_m"), in(small, "P_kW") / (9.81 * in(small, "H_m") * in(small, "eta")), 1,
                                          in(small, "N_rpm"), kGravity_ms2, in(small, "Cv"), in(small, "speed_ratio")})
                               .value();
    expect(small, "D_m", a.wheel_m);
    expect(small, "d_m", a.jet_m);

    const auto high = entry("TU-04");
    const double net_m = in(high, "H_gross_m") * (1.0 - in(high, "friction_fraction"));
    const double speed = std::floor(speed_for_specific_rpm(in(high, "Ns"), in(high, "P_kW") * 1e3, net_m).value());
    expect(high, "N_rpm", speed);
    const double flow = in(high, "P_kW") * 1e3 / (in(high, "gamma_Nm3") * net_m * in(high, "eta"));
    const ImpulseWheel b =
        impulse_wheel({net_m, flow, 1, speed, kGravity_ms2, in(high, "Cv"), in(high, "speed_ratio")}).value();
    expect(high, "D_m", b.wheel_m);
    expect(high, "d_cm", b.jet_m * 100.0);

    const auto four = entry("TU-09");
    const double head_m = in(four, "H_gross_m") * in(four, "transmission_eff");
    const ImpulseWheel c =
        impulse_wheel({head_m, in(four, "P_unit_MW") * 1e6 / (9810.0 * head_m * in(four, "eta")), 4,
                       synchronous_rpm(in(four, "f_Hz"), 20).value(), kGravity_ms2, in(four, "Cv"), in(four, "Cv") * in(four, "speed_ratio")})
            .value(); // this book's ratio is to the speed of the jet
    expect(four, "d_m", c.jet_m);
    expect(four, "D_m", c.wheel_m);
}

TEST(Turbine, WheelSpeedInUsUnits) {
    const auto check = entry("TU-07");
    const double net_m = feet(1092.0); // as the book rounds it
    const double speed = 6.5 / specific(1.0, horsepower(in(check, "P_hp")), net_m).ns_us;
    expect(check, "N_rpm", speed);
    const double ratio = in(check, "Cv") * in(check, "speed_ratio"); // this book's ratio is to the speed of the jet
    const ImpulseWheel wheel = impulse_wheel({net_m, 1.0, 1, speed, kGravity_ms2, in(check, "Cv"), ratio}).value();
    expect(check, "D_ft", wheel.wheel_m / feet(1.0));
}

TEST(Turbine, JetsNarrowWithTheirNumber) {
    const Jets one{80.0, 0.05, 1, 600.0, kGravity_ms2};
    Jets four = one;
    four.count = 4;
    EXPECT_NEAR(impulse_wheel(four).value().jet_m, 0.5 * impulse_wheel(one).value().jet_m, 1e-12);
    Jets crowded = one;
    crowded.speed_rpm = 3000.0;
    EXPECT_EQ(impulse_wheel(crowded).value().findings.at(0).code, "power.wheel_small_for_jet");
}

TEST(Turbine, KaplanRunnerFromATextbook) {
    const auto check = entry("TU-11");
    const double flow = in(check, "P_kW") / (9.81 * in(check, "H_m") * in(check, "eta"));
    const AxialSize size = axial_runner({in(check, "H_m"), flow, in(check, "speed_ratio"), in(check, "flow_ratio"),
                                         in(check, "boss_ratio"), kGravity_ms2})
                               .value();
    expect(check, "D_m", size.diameter_m);
    expect(check, "N_rpm", size.speed_rpm);
    expect(check, "Ns", specific(size.speed_rpm, in(check, "P_kW") * 1e3, in(check, "H_m")).ns_kW);
}

TEST(Turbine, SettingAndRunaway) {
    const auto check = entry("TU-22");
    expect(check, "z_max_m",
           greatest_setting_m({in(check, "p_atm_kPa") * 1e3, in(check, "p_min_kPa") * 1e3, in(check, "H_m"),
                               in(check, "sigma_c"), in(check, "rho_kgm3"), in(check, "g_ms2")})
               .value());
    const auto runaway = entry("TU-25");
    expect(runaway, "ratio", runaway_ratio(in(runaway, "ns_us")).value());
    expect(runaway, "n_runaway_rpm", in(runaway, "N_rpm") * runaway_ratio(in(runaway, "ns_us")).value());
}

TEST(Turbine, SigmaTable) {
    const auto check = entry("TU-27");
    const TurbineTables tables = read_turbine_tables().value();
    const double to_us = us_specific_speed(1.0);
    const auto read = [&](const char* kind, double ns_us) {
        return tables.critical_sigma(tables.kind(kind).value(), ns_us / to_us).value_or(-1.0);
    };
    for (const auto& [kind, xs, ys] : {std::tuple{"francis", "francis_ns_us", "francis_sigma"}, {"kaplan", "kaplan_ns_us", "kaplan_sigma"}})
        for (std::size_t i = 1; i + 1 < check["inputs"][xs].size(); ++i)
            EXPECT_NEAR(read(kind, check["inputs"][xs][i]), check["expected"][ys][i].get<double>(), 1e-6);
    expect(check, "sigma_at_70_linear", read("francis", in(check, "interpolate_at_ns")));
    EXPECT_EQ(read("francis", 150.0), -1.0);
    EXPECT_EQ(read("pelton", 50.0), -1.0);
}

TEST(Turbine, PumpRulesFromMemory) {
    const PumpChoice choice = pump_as_turbine(20.0, 0.05, 0.7).value(); // the exponents are unconfirmed
    EXPECT_NEAR(choice.sharma.head_m, 20.0 * std::pow(0.7, 1.2), 1e-12);
    EXPECT_NEAR(choice.stepanoff.flow_m3s, 0.05 * std::sqrt(0.7), 1e-12);
    const PumpChoice perfect = pump_as_turbine(20.0, 0.05, 1.0).value();
    EXPECT_EQ(perfect.sharma.head_m, 20.0);
    EXPECT_EQ(pump_as_turbine(20.0, 0.05, 1.1).error().code, "power.ratio_above_one");
}

TEST(Turbine, TablesHoldTogether) {
    for (const TurbineKind& kind : read_turbine_tables().value().kinds) {
        EXPECT_LT(kind.head_min_m, kind.head_max_m) << kind.id;
        EXPECT_LT(kind.runaway_min, kind.runaway_max) << kind.id;
        EXPECT_FALSE(kind.source.empty());
        ASSERT_GE(kind.part_flow.size(), 2u) << kind.id;
        EXPECT_EQ(kind.part_flow.front().x, kind.smallest_flow) << kind.id;
        EXPECT_EQ(kind.part_flow.back().x, 1.0) << kind.id;
        for (std::size_t i = 1; i < kind.part_flow.size(); ++i) {
            EXPECT_GT(kind.part_flow[i].x, kind.part_flow[i - 1].x) << kind.id;
            EXPECT_LE(kind.part_flow[i].y, 1.0) << kind.id;
        }
        EXPECT_EQ(kind.efficiency_at(0.99 * kind.smallest_flow), 0.0) << kind.id;
        EXPECT_EQ(kind.efficiency_at(1.2), kind.efficiency_at(1.0)) << kind.id;
    }
    EXPECT_EQ(read_turbine_tables().value().kind("sail").error().code, "power.unknown_turbine");
    EXPECT_EQ(read_turbine_tables({}).error().code, "power.table_missing");
}

TurbineSite site(double head_m, double flow_m3s) {
    TurbineSite s;
    s.net_head_m = head_m;
    s.flow_m3s = flow_m3s;
    s.gravity_ms2 = kGravity_ms2;
    return s;
}

TEST(Turbine, OptionsAtASite) {
    const TurbineTables tables = read_turbine_tables().value();
    const auto option = [&](const TurbineSite& s, const char* id) {
        for (const TurbineOption& o : turbine_options(s, tables).value())
            if (o.kind.id == id)
                return o;
        return TurbineOption{};
    };
    const TurbineOption pelton = option(site(120.0, 0.03), "pelton");
    ASSERT_EQ(pelton.fit, TurbineFit::Fits);
    EXPECT_GE(pelton.wheel->wheel_m, kWheelToJetMin * pelton.wheel->jet_m);
    EXPECT_GE(pelton.specific->ns_kW, *pelton.kind.ns_min);
    EXPECT_LE(pelton.specific->ns_kW, *pelton.kind.ns_max);
    EXPECT_NEAR(pelton.shaft_W, 999.1 * kGravity_ms2 * 0.03 * 120.0 * 0.89 * 0.98, 20.0);
    EXPECT_GT(*pelton.runaway_min_rpm, *pelton.speed_rpm);
    EXPECT_FALSE(pelton.setting_m);
    EXPECT_EQ(option(site(120.0, 0.03), "kaplan").fit, TurbineFit::HeadTooHigh);
    EXPECT_EQ(option(site(10.0, 0.5), "pelton").fit, TurbineFit::HeadTooLow);
    EXPECT_EQ(option(site(10.0, 0.5), "crossflow").fit, TurbineFit::NotChecked);
    EXPECT_EQ(option(site(60.0, 0.0005), "pelton").fit, TurbineFit::NoDirectSpeed);

    const TurbineOption low = option(site(4.0, 3.0), "kaplan");
    ASSERT_EQ(low.fit, TurbineFit::Fits);
    ASSERT_TRUE(low.setting_m.has_value());
    EXPECT_GE(*low.setting_m, 0.0);
    TurbineSite high = site(4.0, 3.0);
    high.altitude_m = 3000.0;
    const TurbineOption up = option(high, "kaplan"); // about 3 m less air: a slower runner, or one set lower
    EXPECT_TRUE(*up.speed_rpm < *low.speed_rpm || *up.setting_m < *low.setting_m - 2.5);
    TurbineSite steep = site(40.0, 3.0); // 1.5 is the greatest sigma of the table: no propeller may sit above tailwater
    EXPECT_LT(option(steep, "propeller").setting_m.value_or(-1.0), 0.0);
}

TEST(Turbine, RefusesNonsense) {
    const TurbineTables tables = read_turbine_tables().value();
    for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity(), -1.0, 0.0}) {
        EXPECT_FALSE(specific_speed({bad, 10.0, 0.1, 1e3, kGravity_ms2}));
        EXPECT_FALSE(specific_speed({100.0, bad, 0.1, 1e3, kGravity_ms2}));
        EXPECT_FALSE(at_another_head({100.0, 10.0, 0.1, 1e3, kGravity_ms2}, bad));
        EXPECT_FALSE(impulse_wheel({bad, 0.1, 1, 600.0, kGravity_ms2}));
        EXPECT_FALSE(axial_runner({10.0, bad, 2.0, 0.6, 0.4, kGravity_ms2}));
        EXPECT_FALSE(runaway_ratio(bad));
        EXPECT_FALSE(greatest_setting_m({bad, 1e3, 10.0, 0.1, kDensity_kgm3, kGravity_ms2}));
        EXPECT_FALSE(pump_as_turbine(bad, 0.1, 0.7));
        EXPECT_FALSE(turbine_options(site(bad, 0.1), tables));
        EXPECT_FALSE(turbine_options(site(10.0, bad), tables));
    }
    EXPECT_EQ(impulse_wheel({80.0, 0.1, 7, 600.0, kGravity_ms2}).error().code, "power.bad_jets");
    EXPECT_EQ(impulse_wheel({80.0, 0.1, 0, 600.0, kGravity_ms2}).error().code, "power.bad_jets");
    EXPECT_EQ(greatest_setting_m({1e3, 2e3, 10.0, 0.1, kDensity_kgm3, kGravity_ms2}).error().code, "power.water_boils");
    TurbineSite hot = site(10.0, 0.1);
    hot.water_temperature_C = 90.0;
    EXPECT_EQ(turbine_options(hot, tables).error().code, "power.water_temperature_out_of_range");
    EXPECT_TRUE(turbine_options(site(1e9, 1e9), tables)); // no kind fits, and it says so
}

} // namespace
} // namespace rillmark
