// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/tables.h"

#include "power/friction.h"
#include "power/minor_losses.h"
#include "power_checks.h"

#include <set>

namespace rillmark {
namespace {

using namespace power_checks;

TEST(PowerTables, BuiltInOnesAreWholeAndSourced) {
    const PowerTables tables = read_power_tables().value();
    EXPECT_GE(tables.pipes.size(), 40U);
    EXPECT_GE(tables.conductors.size(), 40U);
    EXPECT_GE(tables.fittings.size(), 20U);
    std::set<std::string> ids;
    for (const PipeSize& pipe : tables.pipes) {
        EXPECT_TRUE(ids.insert(pipe.id).second) << pipe.id;
        EXPECT_LT(pipe.bore_m, pipe.outside_m - 2.0 * pipe.wall_m) << pipe.id << ": average bore, not the largest";
        EXPECT_GT(pipe.bore_m, 0.95 * (pipe.outside_m - 2.0 * pipe.wall_m)) << pipe.id;
        EXPECT_LT(pipe.roughness_m / pipe.bore_m, kRelativeRoughnessMax) << pipe.id;
        EXPECT_FALSE(pipe.source.empty()) << pipe.id;
        EXPECT_FALSE(pipe.provenance.empty()) << pipe.id;
    }
    for (const Conductor& conductor : tables.conductors) {
        EXPECT_TRUE(ids.insert(conductor.id).second) << conductor.id;
        // Resistivity of copper or aluminium at 20 to 75 degC, with what stranding adds.
        const double resistivity = conductor.resistance_ohm_per_m * conductor.area_m2;
        EXPECT_GT(resistivity, conductor.material == "copper" ? 1.7e-8 : 2.8e-8) << conductor.id;
        EXPECT_LT(resistivity, conductor.material == "copper" ? 2.2e-8 : 3.6e-8) << conductor.id;
        EXPECT_FALSE(conductor.source.empty()) << conductor.id;
    }
    for (const EfficiencyRange& machine : tables.efficiencies) {
        EXPECT_LT(machine.lowest, machine.highest) << machine.id;
        EXPECT_LE(machine.highest, 1.0) << machine.id;
    }
    for (const char* series : {"pe100-sdr11-", "pe100-sdr17-", "pe100-sdr21-", "pe100-sdr26-", "pvc-sdr21-",
                               "pvc-sdr26-", "pvc-sdr41-", "pvc-sch40-"})
        EXPECT_TRUE(std::any_of(tables.pipes.begin(), tables.pipes.end(), [&](const PipeSize& pipe) {
            return pipe.id.starts_with(series);
        })) << series;
}

TEST(PowerTables, BoreIsTheAverageOneThatACatalogueChartWasMadeWith) {
    // HW-01 and HW-02: a supplier's loss chart for 2 in SDR 21 pipe, whose bore the chart does not print; 2.129 in fits
    // it.
    const PipeSize pipe = read_power_tables().value().pipe("pvc-sdr21-2in").value();
    EXPECT_NEAR(pipe.bore_m, inches(entry("HW-01")["inputs"]["bore_in"].get<double>()), inches(0.01));
    EXPECT_GT(pipe.bore().standard_uncertainty, 0.0);
    EXPECT_LT(pipe.bore().standard_uncertainty, 0.01 * pipe.bore_m);
}

TEST(PowerTables, UnknownKeysAreRefused) {
    const PowerTables tables = read_power_tables().value();
    EXPECT_EQ(tables.pipe("pe100-sdr17-111").error().code, "power.unknown_pipe");
    EXPECT_EQ(tables.conductor("").error().code, "power.unknown_conductor");
    EXPECT_EQ(tables.fitting("knot").error().code, "power.unknown_fitting");
    EXPECT_EQ(tables.efficiency("perpetual").error().code, "power.unknown_machine");
    EXPECT_EQ(tables.pipe("pe100-sdr17-110").value().outside_m, 0.11);
    EXPECT_DOUBLE_EQ(tables.efficiency("generator-small").value().estimate().value, 0.85);
}

/// The built-in tables with the text of one of them replaced.
Expected<PowerTables> read_with(std::string_view file, std::string_view text) {
    std::vector<EmbeddedText> texts(table_texts().begin(), table_texts().end());
    for (EmbeddedText& table : texts)
        if (table.file == file)
            table.text = text;
    return read_power_tables(texts);
}

TEST(PowerTables, ABrokenTableIsNamedWithItsPlace) {
    EXPECT_EQ(read_power_tables({}).error().code, "power.table_missing");
    EXPECT_EQ(read_with("fittings.csv", "id,label,source,provenance\na,b,c,d\n").error().code,
              "power.table_column_missing");
    for (const char* cell : {"", "x", "1.2.3", "nan", "inf", "-1", "0", "\"1,000\""}) {
        const std::string text = std::string("# remark\nid,label,k,source,provenance\na,b,") + cell + ",c,d\n";
        const auto tables = read_with("fittings.csv", text);
        ASSERT_FALSE(tables) << cell;
        EXPECT_EQ(tables.error().code, "power.table_bad_cell") << cell;
        EXPECT_EQ(std::get<std::int64_t>(tables.error().args.at(0).value), 3) << cell;
    }
    EXPECT_EQ(read_with("fittings.csv", "id,label,k,source,provenance\r\na,\"b, c\",0.5,d,e\r\n")
                  .value()
                  .fittings.at(0)
                  .label,
              "b, c");
}

TEST(MinorLosses, AreSummed) {
    const PowerTables tables = read_power_tables().value();
    const Estimate k = sum_of_k(tables, {{"entrance-square", 1}, {"elbow-flanged-45", 4}, {"exit", 1}}).value();
    EXPECT_NEAR(k.value, 2.3, 1e-12); // K values as assumed in Munson et al., example 8.13 (check FR-06)
    EXPECT_NEAR(k.standard_uncertainty, kMinorLossUncertainty * 2.3, 1e-12);
    EXPECT_EQ(sum_of_k(tables, {}).value().value, 0.0);
    EXPECT_EQ(sum_of_k(tables, {{"knot", 1}}).error().code, "power.unknown_fitting");
    EXPECT_EQ(sum_of_k(tables, {{"exit", -1}}).error().code, "power.negative");
}

} // namespace
} // namespace rillmark
