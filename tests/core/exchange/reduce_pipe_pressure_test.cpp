// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange_fixtures.h"

#include "power/pressure_profile.h"
#include "power/tables.h"

namespace rillmark {
namespace {

using namespace exchange_fixtures;

const std::string kHead = "chainage,elevation,bend_deg,pipe,bore_mm,wall_mm,roughness_mm,material,rating_bar\n";
const std::vector<TypedParameter> kPlant{{"intake_level", "100"}, {"flow_L_s", "8"}, {"closing_time", "20"}};

double cell(const Reduction& reduction, std::size_t table, std::size_t row, std::size_t column) {
    return std::get<Estimate>(reduction.tables.at(table).rows.at(row).at(column)).value;
}

TEST(ReducePipePressure, GivesWhatTheProfileGives) {
    PressureInput input;
    input.points = {{0.0, 99.0, 0.0}, {200.0, 69.0, 0.0}, {400.0, 39.0, 0.0}};
    const PipeMaterial pe = pipe_material("pe100").value();
    input.sections = {{0.0, 0.0965, 0.0066, 1e-5, pe, 6e5}, {200.0, 0.09, 0.01, 1e-5, pe, 16e5}};
    input.intake_level_m = 100.0;
    input.flow_m3s = {0.008, 0.0};
    input.closing_s = 20.0;
    const PressureProfile profile = pressure_profile(input).value();

    const Reduction r =
        reduced("pipe-pressure", kHead + "0,99,,,96.5,6.6,0.01,pe100,6\n200,69,,,90,10,,,16\n400,39,,,,,,,\n", kPlant);
    EXPECT_NEAR(result(r, "surge").value, profile.surge_Pa.estimate.value, 1e-6);
    EXPECT_NEAR(result(r, "surge").standard_uncertainty, profile.surge_Pa.estimate.standard_uncertainty, 1e-6);
    EXPECT_NEAR(result(r, "reflection_time").value, profile.reflection_s, 1e-12);
    EXPECT_NEAR(result(r, "valve_pressure").value, profile.points.back().highest_Pa, 1e-6);
    ASSERT_EQ(r.tables.size(), 2u); // no bend needs a block
    ASSERT_EQ(r.tables[0].rows.size(), 3u);
    EXPECT_NEAR(cell(r, 0, 2, 4), profile.points[2].flowing_Pa, 1e-6);
    ASSERT_EQ(r.tables[1].rows.size(), 2u);
    EXPECT_NEAR(cell(r, 1, 1, 3), profile.sections[1].wave_speed_ms, 1e-9);
    EXPECT_NEAR(cell(r, 1, 1, 5), 16e5, 1e-6);
    EXPECT_EQ(r.findings.size(), profile.findings.size());
}

TEST(ReducePipePressure, TakesASizeFromTheTable) {
    const PowerTables tables = read_power_tables().value();
    const PipeSize size = tables.pipe("pe100-sdr17-110").value();
    const Reduction by_id =
        reduced("pipe-pressure", "chainage,elevation,pipe\n0,99,pe100-sdr17-110\n400,39,\n", kPlant);
    EXPECT_NEAR(cell(by_id, 1, 0, 5), size.pressure_rating_Pa, 1e-6);
    const double area = 3.14159265358979 / 4.0 * size.bore_m * size.bore_m;
    EXPECT_NEAR(cell(by_id, 1, 0, 2), 0.008 / area, 1e-9);
    // every size of the tables is of a known material
    for (const PipeSize& pipe : tables.pipes)
        EXPECT_TRUE(pipe_material(pipe.material).ok()) << pipe.id;
}

TEST(ReducePipePressure, BendsHaveATableWithTheirBlocks) {
    std::vector<TypedParameter> parameters = kPlant;
    parameters.push_back({"soil_bearing_kPa", "70"});
    const Reduction r = reduced(
        "pipe-pressure", "chainage,elevation,bend_deg,pipe\n0,99,,pe100-sdr17-110\n200,69,45,\n400,39,,\n", parameters);
    ASSERT_EQ(r.tables.size(), 3u);
    ASSERT_EQ(r.tables[2].rows.size(), 1u);
    EXPECT_NEAR(cell(r, 2, 0, 3), 1.5 * cell(r, 2, 0, 2) / 70e3, 1e-12);
}

TEST(ReducePipePressure, RefusalsHaveTheirPlace) {
    const auto go = [](const std::string& rows) { return reduce("pipe-pressure", kHead + rows, kPlant); };
    const std::string first = "0,99,,,96.5,6.6,0.01,pe100,6\n";
    expect_refused(go("0,99,,,,6.6,0.01,pe100,6\n400,39,,,,,,,\n"), "exchange.pipe_incomplete", 2, "bore");
    expect_refused(go("0,99,,,96.5,6.6,0.01,,6\n400,39,,,,,,,\n"), "exchange.pipe_incomplete", 2, "material");
    expect_refused(go("0,99,,,96.5,6.6,0.01,wood,6\n400,39,,,,,,,\n"), "power.unknown_material", 2, "material");
    expect_refused(go("0,99,,hose,,,,,\n400,39,,,,,,,\n"), "power.unknown_pipe", 2, "pipe");
    expect_refused(go(first + "200,69,,,0,10,,,16\n400,39,,,,,,,\n"), "power.not_positive", 3, "bore");
    expect_refused(go(first + "200,69,,,90,10,,,-16\n400,39,,,,,,,\n"), "power.not_positive", 3, "rating");
    expect_refused(go(first + "0,69,,,,,,,\n400,39,,,,,,,\n"), "power.chainage_not_growing", 3, "chainage");
    expect_refused(go(first + "10,69,,,,,,,\n400,39,,,,,,,\n"), "power.rise_longer_than_pipe", 3, "elevation");
    expect_refused(go(first + "200,69,270,,,,,,\n400,39,,,,,,,\n"), "power.bend_out_of_range", 3, "bend");
    EXPECT_EQ(go(first).error().code, "power.too_few_points");
    const std::string rows = kHead + first + "400,39,,,,,,,\n";
    EXPECT_EQ(reduce("pipe-pressure", rows, {{"flow_L_s", "8"}}).error().code, "exchange.parameter_missing");
    EXPECT_EQ(reduce("pipe-pressure", rows, {{"intake_level", "100"}}).error().code, "exchange.parameter_missing");
    EXPECT_EQ(
        reduce("pipe-pressure", rows, {{"intake_level", "100"}, {"flow_L_s", "8"}, {"anchoring", "glue"}}).error().code,
        "exchange.anchoring_unknown");
    EXPECT_EQ(reduce("pipe-pressure", rows, {{"intake_level", "20"}, {"flow_L_s", "8"}}).error().code,
              "power.intake_below_pipe");
}

} // namespace
} // namespace rillmark
