// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/cable.h"

#include "power_checks.h"

#include <limits>
#include <numbers>
#include <vector>

namespace rillmark {
namespace {

using namespace power_checks;

double number(const nlohmann::json& check, const char* key) {
    return check.at("inputs").at(key).get<double>();
}

/// A cable given by the resistance and reactance of its whole loop (or of one phase).
CableRun of_total(Current system, double resistance_ohm, double reactance_ohm) {
    const double wires = system == Current::ThreePhase ? 1.0 : 2.0;
    return {.system = system,
            .length_m = 1.0,
            .resistance_ohm_per_m = resistance_ohm / wires,
            .reactance_ohm_per_m = reactance_ohm / wires};
}

/// Voltages along a two-wire feeder with loads, section by section.
std::vector<double> voltages_along(const nlohmann::json& check, double resistance_ohm_per_m) {
    double voltage_V = number(check, "V_supply");
    std::vector<double> voltages;
    for (std::size_t i = 0; i < check["inputs"]["sections_m"].size(); ++i) {
        CableRun section{.system = Current::Direct,
                         .length_m = check["inputs"]["sections_m"][i].get<double>(),
                         .resistance_ohm_per_m = resistance_ohm_per_m};
        section.voltage_V = voltage_V;
        voltage_V = cable_from_sent(section, voltage_V * check["inputs"]["section_currents_A"][i].get<double>())
                        .value()
                        .house_voltage_V;
        voltages.push_back(voltage_V);
    }
    return voltages;
}

TEST(Cable, DirectCurrentFeedersFromATextbook) {
    const nlohmann::json tapped = entry("EL-01");
    const double resistivity_ohm_m = number(tapped, "rho_ohm_cm") * 1e-2;
    const std::vector<double> first = voltages_along(tapped, resistivity_ohm_m / (number(tapped, "area_cm2") * 1e-4));
    expect(tapped, "V_B", first.at(0));
    expect(tapped, "V_C", first.at(1));
    expect(tapped, "V_D", first.at(2));

    const nlohmann::json loop = entry("EL-02"); // its resistance is that of go and return together
    const std::vector<double> second = voltages_along(loop, number(loop, "r_loop_ohm_per_km") / 2.0 / 1e3);
    expect(loop, "V_C", second.at(0));
    expect(loop, "V_D", second.at(1));
    expect(loop, "V_E", second.at(2));
    expect(loop, "V_B", second.at(3));
}

TEST(Cable, DirectCurrentByTheCodeTable) {
    const nlohmann::json check = entry("EL-10");
    const PowerTables tables = read_power_tables().value();
    const Conductor conductor = tables.conductor("nec-cu-2/0").value();
    EXPECT_NEAR(conductor.resistance_ohm_per_m * feet(1000.0), number(check, "R_ohm_per_kft"), 1e-5);
    const CableRun cable{.system = Current::Direct,
                         .length_m = feet(number(check, "one_way_ft")),
                         .resistance_ohm_per_m = resistance_at_ohm_per_m(conductor, 75.0).value(),
                         .voltage_V = number(check, "V_dc"),
                         .voltage_at = CableEnd::House};
    const CableLoss loss = cable_from_delivered(cable, number(check, "P_W")).value();
    expect(check, "I_A", loss.current_A);
    expect(check, "drop_V", loss.drop_V);
    expect(check, "drop_pct", loss.drop_ratio * 100.0);
    expect(check, "loss_W", loss.loss_W);
}

TEST(Cable, SinglePhaseLineFromATextbook) {
    const nlohmann::json check = entry("EL-04"); // its power factor at the sending end is not computed here
    CableRun line = of_total(Current::SinglePhase, number(check, "R_ohm"), number(check, "X_ohm"));
    line.voltage_V = number(check, "Vr_V");
    line.voltage_at = CableEnd::House;
    line.power_factor = number(check, "pf");
    const CableLoss loss = cable_from_delivered(line, number(check, "P_kW") * 1e3).value();
    expect(check, "Vs_V", loss.house_voltage_V + loss.drop_V);
    expect(check, "eta", loss.delivered_W / loss.sent_W);
}

TEST(Cable, ThreePhaseLinesFromATextbook) {
    const nlohmann::json line11 = entry("EL-06");
    const CableRun first{.system = Current::ThreePhase,
                         .length_m = number(line11, "length_km") * 1e3,
                         .resistance_ohm_per_m = number(line11, "r_ohm_per_km") / 1e3,
                         .reactance_ohm_per_m =
                             2.0 * std::numbers::pi * number(line11, "f_Hz") * number(line11, "L_mH_per_km") / 1e6,
                         .voltage_V = number(line11, "V_kV") * 1e3,
                         .voltage_at = CableEnd::House,
                         .power_factor = number(line11, "pf")};
    const CableLoss loss = cable_from_delivered(first, number(line11, "P_kW") * 1e3).value();
    expect(line11, "regulation", loss.drop_ratio);
    expect(line11, "eta", loss.delivered_W / loss.sent_W);

    const nlohmann::json heavy = entry("EL-09");
    CableRun second = of_total(Current::ThreePhase, number(heavy, "R_ohm"), number(heavy, "X_ohm"));
    second.voltage_V = number(heavy, "V_kV") * 1e3;
    second.voltage_at = CableEnd::House;
    second.power_factor = number(heavy, "pf");
    const CableLoss heavy_loss =
        cable_from_delivered(second, number(heavy, "S_kVA") * number(heavy, "pf") * 1e3).value();
    expect(heavy, "regulation", heavy_loss.drop_ratio);
    expect(heavy, "eta", heavy_loss.delivered_W / heavy_loss.sent_W);

    const nlohmann::json limited = entry("EL-07"); // the loss at the printed length is the share that limits it
    const CableRun third{.system = Current::ThreePhase,
                         .length_m = limited["expected"]["length_km"].get<double>() * 1e3,
                         .resistance_ohm_per_m = number(limited, "r_ohm_per_km") / 1e3,
                         .voltage_V = number(limited, "V_kV") * 1e3,
                         .voltage_at = CableEnd::House,
                         .power_factor = number(limited, "pf")};
    const CableLoss share = cable_from_delivered(third, number(limited, "P_kW") * 1e3).value();
    const double tolerance = limited["tolerance"]["all"]["rel"];
    EXPECT_NEAR(share.loss_W / share.delivered_W, number(limited, "loss_fraction"),
                tolerance * number(limited, "loss_fraction"));
}

TEST(Cable, ResistanceByTheTemperatureFactorsOfTheStandard) {
    Conductor conductor;
    conductor.resistance_ohm_per_m = 1.0e-3;
    conductor.resistance_temperature_C = 20.0;
    for (const char* id : {"EL-T5", "EL-T10", "EL-T30", "EL-T50", "EL-T75", "EL-T90"}) {
        const nlohmann::json check = entry(id);
        expect(check, "kt",
               conductor.resistance_ohm_per_m / resistance_at_ohm_per_m(conductor, number(check, "T_C")).value());
    }
    EXPECT_EQ(resistance_at_ohm_per_m(conductor, 151.0).error().code, "power.conductor_temperature_out_of_range");
    EXPECT_EQ(resistance_at_ohm_per_m(conductor, -51.0).error().code, "power.conductor_temperature_out_of_range");
    EXPECT_EQ(resistance_at_ohm_per_m(conductor, std::nan("")).error().code, "uncertainty.not_finite");
}

TEST(Cable, SentAndDeliveredComeBackToEachOther) {
    for (const Current system : {Current::Direct, Current::SinglePhase, Current::ThreePhase}) {
        for (const CableEnd end : {CableEnd::Generator, CableEnd::House}) {
            for (const double sent_W : {0.0, 10.0, 800.0, 3000.0}) {
                const bool direct = system == Current::Direct;
                const CableRun cable{system, 120.0, 1.15e-3, direct ? 0.0 : 0.1e-3, 240.0, end, direct ? 1.0 : 0.85};
                const CableLoss there = cable_from_sent(cable, sent_W).value();
                EXPECT_NEAR(there.delivered_W + there.loss_W, sent_W, 1e-9);
                // Power factor is held at the end that the power is given for; only for direct current is it one case.
                if (!direct)
                    continue;
                const CableLoss back = cable_from_delivered(cable, there.delivered_W).value();
                EXPECT_NEAR(back.sent_W, sent_W, 1e-9 * (1.0 + sent_W));
                EXPECT_NEAR(back.current_A, there.current_A, 1e-9);
            }
        }
    }
}

TEST(Cable, LossFallsWithVoltageAndRisesWithLengthAndPower) {
    CableRun cable{Current::SinglePhase, 120.0, 1.15e-3, 0.0, 240.0, CableEnd::Generator, 0.9};
    const double base_W = cable_from_sent(cable, 2000.0).value().loss_W;
    EXPECT_LT(base_W, cable_from_sent(cable, 2100.0).value().loss_W);
    cable.length_m = 130.0;
    EXPECT_LT(base_W, cable_from_sent(cable, 2000.0).value().loss_W);
    cable.length_m = 120.0;
    cable.voltage_V = 480.0;
    EXPECT_NEAR(cable_from_sent(cable, 2000.0).value().loss_W, base_W / 4.0, 1e-9);
}

TEST(Cable, RefusesMoreThanTheLineCanCarry) {
    // A loop of 10 ohm at 100 V gives at most V^2/4R = 250 W at its far end.
    CableRun cable = of_total(Current::Direct, 10.0, 0.0);
    cable.voltage_V = 100.0;
    const CableLoss most = cable_from_delivered(cable, 249.999).value();
    EXPECT_NEAR(most.sent_W, 500.0, 2.5);
    EXPECT_EQ(cable_from_delivered(cable, 250.001).error().code, "power.cable_cannot_carry");
    EXPECT_EQ(cable_from_sent(cable, 501.0).error().code, "power.cable_cannot_carry");
    EXPECT_EQ(cable_from_sent(cable, 1e300).error().code, "power.cable_cannot_carry");
}

TEST(Cable, RefusesNonsense) {
    const CableRun good{Current::SinglePhase, 120.0, 1.15e-3, 0.0, 240.0, CableEnd::Generator, 0.9};
    const auto code = [](CableRun cable, double sent_W) {
        const auto loss = cable_from_sent(cable, sent_W);
        return loss ? std::string("accepted") : loss.error().code + " " + loss.error().where;
    };
    CableRun bad = good;
    bad.length_m = 0.0;
    EXPECT_EQ(code(bad, 1.0), "power.not_positive power.cable_length");
    bad = good;
    bad.voltage_V = -240.0;
    EXPECT_EQ(code(bad, 1.0), "power.not_positive power.voltage");
    bad = good;
    bad.resistance_ohm_per_m = std::nan("");
    EXPECT_EQ(code(bad, 1.0), "uncertainty.not_finite power.cable_resistance");
    bad = good;
    bad.power_factor = 1.01;
    EXPECT_EQ(code(bad, 1.0), "power.power_factor_out_of_range power.power_factor");
    bad = good;
    bad.power_factor = 0.0;
    EXPECT_EQ(code(bad, 1.0), "power.not_positive power.power_factor");
    bad = good;
    bad.system = Current::Direct;
    EXPECT_EQ(code(bad, 1.0), "power.power_factor_out_of_range power.power_factor");
    EXPECT_EQ(code(good, -1.0), "power.negative power.cable_power");
    EXPECT_EQ(code(good, std::numeric_limits<double>::infinity()), "uncertainty.not_finite power.cable_power");
}

} // namespace
} // namespace rillmark
