// SPDX-License-Identifier: GPL-3.0-or-later
// Published values for what the tables and small formulas hold, and the proof that no value of the reference is passed
// over.
#include "core/power/power_checks.h"

#include "heights/atmosphere.h"
#include "power/cable.h"
#include "power/specific_speed.h"
#include "power/turbine.h"
#include "power/water_to_wire.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <numbers>
#include <set>

namespace rillmark {
namespace {

using namespace power_checks;

double in(const nlohmann::json& check, const char* key) {
    return check.at("inputs").at(key);
}

// Of the reference's values those that no link of ours computes, each with its reason.
const std::map<std::string, std::string> kLeftOut = {
    {"FR-19", "pressure that a sudden widening brings back: the chain takes a fitting as a loss alone"},
    {"ML-01", "pressure that a cone brings back: the chain takes a fitting as a loss alone"},
    {"ML-03", "a valve that balances two unlike branches: our pipes side by side are alike"},
    {"ML-04",
     "an entrance coefficient out of a laboratory test with an energy factor of 1.04: ours is 1, K is looked up"},
    {"WE-06", "an orifice, which is no link of the chain"},
    {"WE-07", "one manual's coefficients by head and breadth of crest: the intake has one coefficient and its limits"},
    {"ST-01", "Stokes' law with a drag law: the basin takes the law of Ferguson and Church, see ST-FC"},
    {"TU-20", "the best jet at the end of a supply whose loss is given as a formula: the chain computes the loss"},
    {"TU-23", "efficiency stepped up from a model: the maker's curve decides"},
    {"TU-24", "work of a wheel by its velocity triangle: the maker's curve decides"},
    {"EL-03", "two loads along one line: the cable has one, at its end"},
    {"EN-02", "load and utilisation factors of a grid: a small plant runs by its water"},
    {"EN-04", "storage for a daily peak: the chain has no storage"},
    {"EN-05", "mean power out of rainfall and a runoff part: the season asks for flows"},
    {"RF-40", "one country's law: what must stay is for the permit to say"},
    {"RF-60", "one country's law: what must stay is for the permit to say"},
    {"RF-160", "one country's law: what must stay is for the permit to say"},
    {"RF-250", "one country's law: what must stay is for the permit to say"},
    {"RF-500", "one country's law: what must stay is for the permit to say"},
    {"RF-1000", "one country's law: what must stay is for the permit to say"},
    {"RF-2500", "one country's law: what must stay is for the permit to say"},
};

TEST(PowerReference, EveryValueIsUsedOrLeftOutForAReason) {
    const std::filesystem::path reference = std::filesystem::path(RILLMARK_REFERENCE_DIR) / "power" / "checks.json";
    if (!std::filesystem::exists(reference))
        GTEST_SKIP() << "the reference is not here";
    std::set<std::string> ours;
    for (const auto& file : std::filesystem::directory_iterator(RILLMARK_CHECKS_DIR))
        if (file.path().extension() == ".json") {
            std::ifstream stream(file.path());
            for (const nlohmann::json& check : nlohmann::json::parse(stream))
                ours.insert(check.at("id").get<std::string>());
        }
    std::ifstream stream(reference);
    const nlohmann::json all = nlohmann::json::parse(stream);
    for (const nlohmann::json& check : all.is_array() ? all : all.at("checks")) {
        const std::string id = check.at("id");
        EXPECT_NE(ours.contains(id), kLeftOut.contains(id)) << id;
    }
}

TEST(PowerReference, ResistanceOfOneSizeByTwoStandards) {
    const auto check = entry("EL-11");
    const PowerTables tables = read_power_tables().value();
    const double iec = resistance_at_ohm_per_m(tables.conductor("iec-cu-16").value(), 75.0).value();
    const double nec = resistance_at_ohm_per_m(tables.conductor("nec-cu-6").value(), 75.0).value();
    expect(check, "R75_16mm2_ohm_per_km", 1000.0 * iec);
    expect(check, "R75_6AWG_ohm_per_km", 1000.0 * nec);
    expect(check, "ratio_area_scaled", iec * 16.0 / (nec * in(check, "area_6AWG_mm2")));
}

TEST(PowerReference, EfficienciesOfDriveAndGenerator) {
    const PowerTables tables = read_power_tables().value();
    const auto drive = entry("DR-01");
    const EfficiencyRange belt = tables.efficiency("drive-v-belt").value();
    EXPECT_EQ(belt.lowest, drive["expected"]["v_belt_slack_nominal"].get<double>());
    EXPECT_EQ(belt.highest, drive["expected"]["v_belt_new"][1].get<double>());
    EXPECT_EQ(tables.efficiency("drive-toothed-belt").value().highest,
              drive["expected"]["synchronous_belt"].get<double>());
    const auto generator = entry("GE-01");
    EXPECT_EQ(tables.efficiency("generator-small").value().lowest,
              generator["expected"]["below_100_kW"][0].get<double>());
    EXPECT_NEAR(kDefaultGeneratorEfficiency.value - kDefaultGeneratorEfficiency.expanded(),
                generator["expected"]["below_100_kW"][0], 1e-12);
    EXPECT_NEAR(kDefaultGeneratorEfficiency.value + kDefaultGeneratorEfficiency.expanded(),
                generator["expected"]["below_100_kW"][1], 1e-12);
    EXPECT_EQ(tables.efficiency("generator-large").value().highest,
              generator["expected"]["above_100_kW"][1].get<double>());
}

TEST(PowerReference, DesignRoughnessOfPlasticPipe) {
    const auto check = entry("RS-01");
    for (const PipeSize& size : read_power_tables().value().pipes)
        EXPECT_NEAR(1000.0 * size.roughness_m,
                    check["expected"][size.bore_m <= 0.2 ? "k_mm_up_to_200_mm" : "k_mm_larger"], 1e-12)
            << size.label;
}

TEST(PowerReference, VapourPressure) {
    const auto check = entry("WP-07");
    expect(check, "pv_Pa", saturation_vapour_pressure_Pa(in(check, "T_C")));
}

TEST(PowerReference, PeltonWheelsFromTextbooks) {
    const auto large = entry("TU-08");
    const double flow_m3s = 1000.0 * in(large, "P_kW") / (9810.0 * in(large, "H_m") * in(large, "eta"));
    expect(large, "Q_m3s", flow_m3s);
    const ImpulseWheel wheel = impulse_wheel({in(large, "H_m"), flow_m3s, 3, in(large, "N_rpm"), 9.81, in(large, "Cv"),
                                              in(large, "speed_ratio")})
                                   .value();
    expect(large, "D_m", wheel.wheel_m);
    const double wanted_m = in(large, "jet_to_wheel") * wheel.wheel_m;
    expect(large, "d_m", wanted_m);
    expect(large, "n_jets", 3.0 * std::pow(wheel.jet_m / wanted_m, 2.0));

    const auto two = entry("TU-10");
    const double all_m3s =
        1000.0 * in(two, "P_shaft_kW") / (9810.0 * in(two, "H_m") * two["expected"]["eta"].get<double>());
    const ImpulseWheel jets = impulse_wheel({in(two, "H_m"), all_m3s, static_cast<int>(in(two, "n_jets")), 300.0,
                                             in(two, "g_ms2"), in(two, "Cv"), 0.46})
                                  .value();
    EXPECT_NEAR(jets.jet_m, in(two, "d_m"), 0.001 * in(two, "d_m")); // half of the efficiency's tolerance
}

TEST(PowerReference, SpecificSpeedInUsUnits) {
    const auto check = entry("TU-13");
    TurbinePoint point;
    point.speed_rpm = in(check, "omega_rads") * 60.0 / (2.0 * std::numbers::pi);
    point.net_head_m = in(check, "H_m");
    point.power_W = in(check, "P_W");
    point.flow_m3s = 600.0; // has no part in it
    point.gravity_ms2 = in(check, "g_ms2");
    expect(check, "Nst_US", specific_speed(point).value().ns_us);
}

} // namespace
} // namespace rillmark
