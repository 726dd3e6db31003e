// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce.h"

#include "checks/checks.h"
#include "exchange_fixtures.h"
#include "flow/container.h"

#include <fmt/format.h>

#include <algorithm>

namespace rillmark {
namespace {

using namespace exchange_fixtures;

const double kFoot_m = find_unit(Quantity::Length, "ft")->factor;

std::string book_csv(const nlohmann::json& rows, const std::string& unit) {
    std::string csv = fmt::format("point,backsight_{0},intermediate_{0},foresight_{0}\n", unit);
    const auto cell = [&](const nlohmann::json& row, const std::string& key) {
        const auto hit = row.find(key + "_" + unit);
        return hit == row.end() ? std::string() : hit->dump();
    };
    for (const nlohmann::json& row : rows)
        csv += row.at("point").get<std::string>() + "," + cell(row, "bs") + "," + cell(row, "is") + "," + cell(row, "fs") + "\n";
    return csv;
}

void expect_levels(const Reduction& reduction, const nlohmann::json& expected, double unit_m, double tolerance) {
    const auto& rows = reduction.tables.at(0).rows;
    ASSERT_EQ(rows.size(), expected.size());
    for (std::size_t i = 0; i < rows.size(); ++i)
        EXPECT_NEAR(std::get<Estimate>(rows[i][1]).value / unit_m, expected[i].get<double>(), tolerance) << i;
}

TEST(ReduceLevels, PublishedLoop) {
    const auto check = checks::entry("levelling", "lev-hi-ghilani-bm7");
    const Reduction r = reduced("levels", book_csv(check["inputs"]["rows"], "m"),
                                {{"start_level", "852.045"}, {"allowance", "third_order"}, {"length", "1500"}});
    const double tolerance = check["tolerance"]["abs_m"];
    expect_levels(r, check["expected"]["elev_m"], 1.0, tolerance);
    EXPECT_NEAR(result(r, "misclosure").value, check["expected"]["misclosure_m"].get<double>(), tolerance);
    EXPECT_NEAR(result(r, "misclosure_allowed").value * 1000.0,
                check["expected"]["third_order_allowed_mm"].get<double>(), check["tolerance"]["allowed_mm"].get<double>());
}

TEST(ReduceLevels, PublishedLineInFeet) {
    const auto check = checks::entry("levelling", "lev-hi-bma-bmb");
    const Reduction r = reduced("levels", book_csv(check["inputs"]["rows"], "ft"), {{"start_level_ft", "100"}});
    expect_levels(r, check["expected"]["elev_ft"], kFoot_m, check["tolerance"]["abs_ft"]);
    EXPECT_NEAR(result(r, "rise").value / kFoot_m, check["expected"]["check_ft"].get<double>(), 0.0005);
    EXPECT_DOUBLE_EQ(result(r, "rise").value, -result(r, "fall").value);
}

TEST(ReduceLevels, PublishedBookWithIntermediates) {
    const auto check = checks::entry("levelling", "lev-both-acet108");
    const Reduction r = reduced("levels", book_csv(check["inputs"]["rows"], "m"), {{"start_level", "50"}});
    expect_levels(r, check["expected"]["rl_m"], 1.0, check["tolerance"]["abs_m"]);
}

TEST(ReduceLevels, TooLargeAMisclosureIsWarnedOfAndNotSharedOut) {
    const auto check = checks::entry("levelling", "lev-rf-nptel-13-1");
    const Reduction r = reduced("levels", book_csv(check["inputs"]["rows"], "m"), {{"start_level", "150.485"}});
    EXPECT_NEAR(result(r, "misclosure").value, check["expected"]["misclosure_m"].get<double>(), 0.0005);
    EXPECT_EQ(std::ranges::count(r.findings, "levels.misclosure_too_large", &Finding::code), 1);
}

TEST(ReduceLevels, ClosesOnAKnownHeightAndAdjustsToIt) {
    const auto check = checks::entry("levelling", "lev-hpc-usm");
    std::string csv = book_csv(check["inputs"]["rows"], "m");
    csv.insert(csv.find('\n'), ",known_height");
    std::string with_known;
    std::size_t row = 0;
    const std::size_t rows = check["inputs"]["rows"].size();
    for (std::size_t begin = 0; begin < csv.size(); ++row) {
        const std::size_t end = csv.find('\n', begin);
        with_known += csv.substr(begin, end - begin);
        if (row > 0)
            with_known += row == 1 ? ",29.23" : row == rows ? ",29.66" : ",";
        with_known += "\n";
        begin = end + 1;
    }
    const Reduction r = reduced("levels", with_known);
    EXPECT_NEAR(result(r, "misclosure").value, 0.010, 1e-9);
    // The source gives an intermediate sight the whole share of its set-up (2 mm); in the network half of it is in the
    // backsight and half in the foresight, so an intermediate sight takes half.
    const auto& initial = check["expected"]["rl_initial_m"];
    const auto& correction_mm = check["expected"]["correction_mm"];
    for (std::size_t i = 0; i < rows; ++i) {
        const bool intermediate = check["inputs"]["rows"][i].contains("is_m");
        const double corrected = initial[i].get<double>() + (correction_mm[i].get<double>() + (intermediate ? 1 : 0)) / 1000.0;
        EXPECT_NEAR(std::get<Estimate>(r.tables[0].rows[i][2]).value, corrected, 1e-8) << i;
    }
}

TEST(ReduceLevels, Refusals) {
    const std::string head = "point,backsight,foresight,known_height\n";
    expect_refused(reduce("levels", head + "A,1.2,,\nB,,12.5,\n"), "levels.reading_impossible", 3, "foresight");
    expect_refused(reduce("levels", head + "A,1.2,,\nB,,x,\n"), "units.not_a_number", 3, "foresight");
    expect_refused(reduce("levels", head + "A,,1.2,\n"), "levels.no_setup", 2, "foresight");
    expect_refused(reduce("levels", head + "A,1.2,,\nB,,,\n"), "exchange.no_reading", 3, "");
    expect_refused(reduce("levels", head + "A,1.2,,\nB,1,1.1,5\nC,,1.0,\n"), "exchange.known_height_inside", 3,
                   "known_height");
    expect_refused(reduce("levels", head + ",1.2,,\n"), "exchange.cell_empty", 2, "point");
    EXPECT_EQ(reduce("levels", head + "A,1,,\nB,,1,\n", {{"allowance", "mine"}}).error().code, "exchange.allowance_unknown");
}

TEST(ReduceContainer, ComputedCheck) {
    const auto check = checks::entry("flow", "container-uncertainty");
    std::string csv = "volume_L,time\n";
    for (const double time_s : check["inputs"]["times_s"])
        csv += fmt::format("20,{}\n", time_s);
    const Reduction r = reduced("container", csv, {{"volume_uncertainty", "1 %"}, {"reaction", "0.2 s"}});
    const Estimate flow = result(r, "discharge");
    const double expected = check["expected"]["flow_L_s"];
    const double tolerance = check["tolerance"]["relative"];
    EXPECT_NEAR(flow.value * 1000.0, expected, tolerance * expected);
    std::vector<ContainerFill> fills;
    for (const double time_s : check["inputs"]["times_s"])
        fills.push_back({0, 0.02, time_s, false});
    EXPECT_NEAR(flow.standard_uncertainty, container(fills, {0.01, 0.2})->discharge.estimate.standard_uncertainty, 1e-15);
    EXPECT_EQ(result(r, "fills").value, 5.0);
}

TEST(ReduceContainer, WeighedFills) {
    const double marked = result(reduced("container", "volume,time\n0.010,10\n0.010,10\n"), "discharge").value;
    const double weighed =
        result(reduced("container", "full,empty,temperature,time\n10.797,0.8,10,10\n10.797,0.8,,10\n"), "discharge").value;
    EXPECT_NEAR(weighed, marked, 1e-5 * marked);
    const std::string head = "volume,full,empty,time\n";
    expect_refused(reduce("container", head + "0.01,,,10\n0.01,10,1,10\n"), "exchange.volume_twice", 3, "volume");
    expect_refused(reduce("container", head + ",10,,10\n"), "exchange.cell_empty", 2, "empty");
    expect_refused(reduce("container", head + ",,1,10\n"), "exchange.cell_empty", 2, "full");
    expect_refused(reduce("container", head + ",,,10\n"), "exchange.cell_empty", 2, "volume");
    expect_refused(reduce("container", head + ",1,10,10\n"), "flow.bad_weight", 2, "full");
    expect_refused(reduce("container", "full,empty,temperature,time\n10,1,70,10\n"), "power.water_temperature_out_of_range", 2,
                   "temperature");
}

TEST(ReduceContainer, UnitsInCellsAndDecimalCommas) {
    const double plain = result(reduced("container", "volume,time\n0.02,10.5\n"), "discharge").value;
    EXPECT_DOUBLE_EQ(result(reduced("container", "volume;time\n0,02;10,5\n"), "discharge").value, plain);
    EXPECT_DOUBLE_EQ(result(reduced("container", "Volume_l,time\n20,10.5 s\n"), "discharge").value, plain);
    EXPECT_NEAR(result(reduced("container", "volume_gal,time_min\n5,0.5\n"), "discharge").value,
                5 * find_unit(Quantity::Volume, "gal")->factor / 30.0, 1e-12);
}

TEST(ReduceContainer, Refusals) {
    expect_refused(reduce("container", "volume,time\n0.02,10\n0.02,-3\n"), "flow.bad_time", 3, "time");
    expect_refused(reduce("container", "volume,time\n0,10\n"), "flow.bad_volume", 2, "volume");
    expect_refused(reduce("container", "volume,time\n0.02,\n"), "exchange.cell_empty", 2, "time");
    expect_refused(reduce("container", "volume,time\n0.02,10 parsec\n"), "units.unknown_unit", 2, "time");
    expect_refused(reduce("container", "volume,duration\n1,2\n"), "exchange.column_unknown", 1, "duration");
    expect_refused(reduce("container", "volume_mile,time\n1,2\n"), "exchange.column_unit_unknown", 1, "volume_mile");
    expect_refused(reduce("container", "volume,volume_L,time\n1,2,3\n"), "exchange.column_twice", 1, "volume_L");
    expect_refused(reduce("container", "# x\n\nvolume\n1\n"), "exchange.column_missing", 3, "time");
    const std::string good = "volume,time\n0.02,10\n";
    EXPECT_EQ(reduce("container", good, {{"colour", "1"}}).error().code, "exchange.parameter_unknown");
    EXPECT_EQ(reduce("container", good, {{"reaction_ft", "1"}}).error().code, "exchange.parameter_unit_unknown");
    EXPECT_EQ(reduce("container", good, {{"reaction", "1"}, {"reaction", "2"}}).error().code, "exchange.parameter_twice");
    EXPECT_EQ(reduce("container", good, {{"reaction", "soon"}}).error().code, "units.not_a_number");
}

std::string section_csv(const nlohmann::json& in, const std::vector<std::string>& columns, const std::string& header) {
    std::string csv = header + "\n";
    for (std::size_t i = 0; i < in[columns[0]].size(); ++i) {
        for (std::size_t k = 0; k < columns.size(); ++k)
            csv += (k == 0 ? "" : ",") + in[columns[k]][i].dump();
        csv += "\n";
    }
    return csv;
}

TEST(ReduceVelocityArea, PublishedSectionsInFeet) {
    for (const char* id : {"va-both-course-1", "va-both-course-2"}) {
        const auto check = checks::entry("flow", id);
        const Reduction r = reduced("velocity-area", section_csv(check["inputs"], {"distance_ft", "depth_ft", "velocity_ft_s"},
                                                                 "distance_ft,depth_ft,velocity_ft_s"));
        const double cubic_foot_m3 = kFoot_m * kFoot_m * kFoot_m;
        const double tolerance = check["tolerance"]["relative"];
        const double mid = check["expected"]["mid_section_ft3_s"];
        const double mean = check["expected"]["mean_section_ft3_s"];
        EXPECT_NEAR(result(r, "discharge").value / cubic_foot_m3, mid, tolerance * mid) << id;
        EXPECT_NEAR(result(r, "discharge_mean_section").value / cubic_foot_m3, mean, tolerance * mean) << id;
    }
}

TEST(ReduceVelocityArea, PublishedSectionWithARating) {
    const auto check = checks::entry("flow", "va-mid-rating-0.32");
    // a row without a reading at the edges: the source prints zeros there
    std::string csv = "distance,depth,revolutions,time\n";
    const auto& in = check["inputs"];
    for (std::size_t i = 0; i < in["distance_m"].size(); ++i) {
        const bool edge = in["depth_m"][i] == 0.0;
        csv += in["distance_m"][i].dump() + "," + in["depth_m"][i].dump() + "," + (edge ? "" : in["revolutions"][i].dump()) +
               "," + (edge ? "" : in["time_s"][i].dump()) + "\n";
    }
    const Reduction r = reduced("velocity-area", csv, {{"rating_a", "0.32"}, {"rating_b", "0.032"}});
    const double expected = check["expected"]["mid_section_m3_s"];
    EXPECT_NEAR(result(r, "discharge").value, expected, check["tolerance"]["relative"].get<double>() * expected);
}

TEST(ReduceVelocityArea, ThreeRangesAndSeveralMeters) {
    const std::string head = "distance,depth,revolutions,time";
    const Reduction three = reduced("velocity-area", head + "\n0,0,,\n1,0.5,180,60\n2,0,,\n",
                                    {{"rating_a", "0.1"}, {"rating_b", "0"}, {"rating_limit", "1"}, {"rating_a2", "0.2"},
                                     {"rating_b2", "-0.1"}, {"rating_limit2", "2"}, {"rating_a3", "0.3"}, {"rating_b3", "-0.3"}});
    EXPECT_NEAR(result(three, "discharge").value, 0.3, 1e-12); // 3 rev/s: 0.6 m/s over 0.5 m2

    // each meter's rating in its first row; a row without one goes by the parameters
    const std::string meters = head + ",velocity,meter,rating_a,rating_b,rated_to,own_rating\n";
    const std::string rows = "0,0,,,,,,,,\n1,0.5,60,60,,small,0.1,0.02,2,yes\n2,0.5,60,60,,,,,,\n3,0.5,60,60,,small,,,,\n"
                             "4,0.5,,,0.7,shows,,,,\n5,0,,,,,,,,\n";
    const std::vector<TypedParameter> usual{{"rating_a", "0.3"}, {"rating_b", "0.01"}};
    const Reduction several = reduced("velocity-area", meters + rows, usual);
    const auto velocity_at = [&](std::size_t row) { return std::get<Estimate>(several.tables[0].rows[row][2]).value; };
    EXPECT_NEAR(velocity_at(1), 0.12, 1e-12);
    EXPECT_NEAR(velocity_at(2), 0.31, 1e-12);
    EXPECT_NEAR(velocity_at(3), 0.12, 1e-12);
    EXPECT_NEAR(velocity_at(4), 0.7, 1e-12);
    const auto go = [&](const std::string& row) { return reduce("velocity-area", meters + row, usual); };
    expect_refused(go("1,0.5,60,60,,small,0.1,0.02,2,\n2,0.5,60,60,,small,0.1,0.03,2,\n"), "exchange.meter_differs", 3, "meter");
    expect_refused(go("1,0.5,60,60,,,0.1,0.02,2,\n"), "exchange.cell_empty", 2, "meter");
    EXPECT_EQ(go("1,0.5,60,60,,small,0.1,,2,\n").error().code, "exchange.rating_incomplete");
    EXPECT_EQ(go("1,0.5,60,60,,small,99,0.02,2,\n").error().code, "flow.bad_rating");
    expect_refused(go("0,0,,,,,,,,\n1,0.5,60,60,,shows,,,,\n2,0,,,,,,,,\n"), "flow.no_rating", 3, "revolutions");
}

TEST(ReduceVelocityArea, RowsOfOneDistanceAreOneVertical) {
    const std::string head = "distance,depth,fraction,velocity,edge,angle\n";
    const Reduction r = reduced("velocity-area", head + "0,,,,water-edge,\n1,0.8,0.2,0.5,,\n1,,0.8,0.3,,\n2,0.5,,,vertical-bank,\n");
    ASSERT_EQ(r.tables[0].rows.size(), 3u);
    EXPECT_DOUBLE_EQ(std::get<Estimate>(r.tables[0].rows[1][2]).value, 0.4);
    const Reduction turned = reduced("velocity-area", head + "0,,,,water-edge,\n1,0.8,0.6,0.4,,60\n2,0,,,water-edge,\n");
    EXPECT_NEAR(std::get<Estimate>(turned.tables[0].rows[1][2]).value, 0.2, 1e-12);
}

TEST(ReduceVelocityArea, IslandSurfaceAndHowSureItIs) {
    std::string csv = "distance,depth,fraction,velocity,time,edge\n0,0,,,,water-edge\n";
    for (int i = 1; i <= 8; ++i)
        csv += fmt::format("{},0.4,0.6,0.5,60,\n", 0.25 * i);
    const double alone = result(reduced("velocity-area", csv + "2.25,0,,,,water-edge\n"), "discharge").value;
    const Reduction r = reduced("velocity-area", csv + "2.25,0,,,,water-edge\n4,0,,,,water-edge\n5,0.4,0,0.5,60,\n6,0,,,,water-edge\n",
                                {{"surface_share", "0.8"}});
    EXPECT_NEAR(result(r, "discharge").value, alone + 0.4 * 0.4, 1e-12); // 1 m of water 0.4 m deep at 0.8 x 0.5 m/s
    EXPECT_EQ(result(r, "discharge_by_interpolation").value, result(r, "discharge").value);
    const auto has = [&](const char* code) {
        return std::ranges::any_of(r.findings, [code](const Finding& one) { return one.code == code; });
    };
    EXPECT_TRUE(has("flow.island"));
    EXPECT_TRUE(has("flow.surface_only"));
    EXPECT_TRUE(has("flow.improve_verticals"));
    EXPECT_EQ(reduce("velocity-area", csv, {{"own_rating", "perhaps"}}).error().code, "exchange.answer_unknown");
    EXPECT_EQ(reduce("velocity-area", csv, {{"wall_share", "2"}}).error().code, "flow.bad_option");
}

TEST(ReduceVelocityArea, Refusals) {
    const std::string head = "distance,depth,fraction,velocity,edge\n";
    const auto go = [&](const std::string& rows) { return reduce("velocity-area", head + rows); };
    expect_refused(go("0,0,,,\n1,0.5,0.2,0.4,\n1,,0.8,40,\n2,0,,,\n"), "flow.bad_velocity", 4, "velocity");
    expect_refused(go("0,0,,,\n1,-0.5,,0.4,\n2,0,,,\n"), "flow.bad_depth", 3, "depth");
    expect_refused(go("0,0,,,\n1,0.5,0.3,0.4,\n2,0,,,\n"), "flow.depth_not_accepted", 3, "fraction");
    expect_refused(go("0,0,,,\n1,0.5,0.2,0.4,\n1,0.6,0.8,0.4,\n"), "exchange.vertical_differs", 4, "depth");
    expect_refused(go("0,0,,,shore\n1,0.5,0.6,0.4,\n"), "exchange.edge_unknown", 2, "edge");
    expect_refused(go("0,0,,,\n1,,0.6,0.4,\n"), "exchange.cell_empty", 3, "depth");
    const std::string counted = "distance,depth,revolutions,time\n0,0,,\n1,0.5,40,\n2,0,,\n";
    EXPECT_EQ(reduce("velocity-area", counted, {{"rating_a", "0.3"}}).error().code, "exchange.rating_incomplete");
    expect_refused(reduce("velocity-area", counted, {{"rating_a", "0.3"}, {"rating_b", "0.01"}}), "flow.reading_incomplete", 3,
                   "time");
}

TEST(ReducePenstock, PublishedLosses) {
    for (const char* id : {"FR-01", "FR-04"}) {
        const auto check = checks::entry("power", id);
        const auto& in = check["inputs"];
        // both sources take water of 15 degrees
        const Reduction r = reduced("penstock", fmt::format("flow,gross_head,length,bore_mm,roughness_mm,water_temperature\n"
                                                            "{},100,{},{},{},15\n",
                                                            in["Q_m3s"].get<double>(), in["L_m"].get<double>(),
                                                            1000.0 * in["D_m"].get<double>(),
                                                            1000.0 * in["roughness_m"].get<double>()));
        const double loss = check["expected"]["head_loss_m"];
        EXPECT_NEAR(result(r, "friction_loss").value, loss, check["tolerance"]["head_loss_m"]["rel"].get<double>() * loss) << id;
        EXPECT_NEAR(result(r, "net_head").value, 100.0 - result(r, "friction_loss").value, 1e-9);
    }
}

// Common practice, no source: facts of the trade.
TEST(ReducePenstock, ThreeCubicFeetFallingThirtySixFeet) {
    const Reduction r = reduced("penstock", "flow_cfs,gross_head_ft,length_ft,bore_in,roughness_mm,u_gross_head_ft\n"
                                            "3,36,1230,12,0.0015,0.5\n");
    EXPECT_NEAR(result(r, "gross_power").value, 9100.0, 60.0);
    EXPECT_NEAR(result(r, "speed").value / kFoot_m, 3.8, 0.05);
    EXPECT_NEAR(result(r, "friction_loss").value / kFoot_m, 4.1, 0.4);
    EXPECT_GE(result(r, "net_head").standard_uncertainty / kFoot_m, 0.5);
}

TEST(ReducePenstock, UncertaintyOfATemperatureIsADifference) {
    const std::string head = "flow,gross_head,length,bore,roughness,water_temperature_F,u_water_temperature_F\n";
    const Reduction r = reduced("penstock", head + "0.02,30,400,0.15,0.00001,50,3.6\n");
    const Reduction celsius = reduced("penstock", "flow,gross_head,length,bore,roughness,water_temperature,u_water_temperature\n"
                                                  "0.02,30,400,0.15,0.00001,10,2\n");
    EXPECT_NEAR(result(r, "friction_loss").standard_uncertainty, result(celsius, "friction_loss").standard_uncertainty, 1e-9);
}

TEST(ReducePenstock, Refusals) {
    const std::string head = "flow,gross_head,length,bore,roughness,latitude\n";
    const auto go = [&](const std::string& row) { return reduce("penstock", head + "0.02,30,400,0.15,0.00001,45\n" + row); };
    expect_refused(go("0.02,30,400,0,0.00001,45\n"), "power.not_positive", 3, "bore");
    expect_refused(go("-1,30,400,0.15,0.00001,45\n"), "power.negative", 3, "flow");
    expect_refused(go("0.02,30,400,0.15,0.00001,95\n"), "power.latitude_out_of_range", 3, "latitude");
    expect_refused(go("0.02,30,400,0.15,0.1,45\n"), "power.too_rough_for_formula", 3, "roughness");
    expect_refused(go("0.02,30,nan,0.15,0.1,45\n"), "units.not_a_number", 3, "length");
}

TEST(ReducePenstock, AgeAndTheOtherFormula) {
    const std::string head = "case,flow,gross_head,length,bore,roughness,material,years\n";
    const Reduction r = reduced("penstock", head + "new,0.03,30,350,0.19,0.000045,steel,\nold,0.03,30,350,0.19,0.000045,steel,30\n");
    const auto of = [&](const std::string& subject, const std::string& name) {
        for (const NamedResult& one : r.results)
            if (one.subject == subject && one.code == "exchange.result." + name)
                return one.estimate.value;
        return 0.0;
    };
    EXPECT_GT(of("old", "friction_loss"), 1.1 * of("new", "friction_loss"));
    // 10.67 L Q^1.852 / (C^1.852 D^4.87) with C = 140
    const double by_hand = 10.67 * 350.0 * std::pow(0.03 / 140.0, 1.852) / std::pow(0.19, 4.87);
    EXPECT_NEAR(of("new", "hazen_williams_loss"), by_hand, 1e-6 * by_hand);
    EXPECT_EQ(of("old", "hazen_williams_loss"), of("new", "hazen_williams_loss"));
    expect_refused(reduce("penstock", head + "a,0.03,30,350,0.19,0.000045,,30\n"), "exchange.cell_empty", 2, "material");
    expect_refused(reduce("penstock", head + "a,0.03,30,350,0.19,0.000045,clay,30\n"), "power.unknown_material", 2, "material");
    expect_refused(reduce("penstock", head + "a,0.03,30,350,0.19,0.000045,steel,300\n"), "power.age_out_of_range", 2, "years");
}

TEST(ReduceCable, TheConductorForALossAndTheLossOfAConductor) {
    const std::string head = "case,power,length,voltage,conductor,largest_loss,conductor_temperature\n";
    const Reduction r = reduced("cable", head + "sized,5000,200,240,,5 %,20\nnamed,5000,200,240,iec-cu-10,,20\n");
    ASSERT_EQ(r.tables.front().rows.size(), 2u);
    const auto& sized = r.tables.front().rows[0];
    const auto& named = r.tables.front().rows[1];
    EXPECT_EQ(std::get<std::string>(sized[1]), "iec-cu-16"); // by hand: at most 1.44 mohm/m, see cable_size_test.cpp
    EXPECT_NEAR(std::get<Estimate>(sized[5]).value, 0.05 * 1.15 / 1.44, 1e-9);
    // 6 AWG: 1.6109 mohm/m at 75 degC, nominal, is 1.324 at 20 degC, below the 1.44
    const std::string listed = "case,power,length,voltage,sizes,largest_loss,conductor_temperature\n";
    const Reduction awg = reduced("cable", listed + "sized,5000,200,240,nec,5 %,20\n");
    EXPECT_EQ(std::get<std::string>(awg.tables.front().rows[0][1]), "nec-cu-6");
    expect_refused(reduce("cable", listed + "a,5000,200,240,swg,5 %,20\n"), "exchange.no_such_conductors", 2, "sizes");
    EXPECT_NEAR(std::get<Estimate>(named[2]).value, 5000.0 / 240.0, 1e-9);
    EXPECT_NEAR(std::get<Estimate>(named[5]).value, 0.05 * 1.83 / 1.44, 1e-9);
    EXPECT_EQ(r.findings.back().code, "power.cable_loss_only");
    expect_refused(reduce("cable", head + "a,5000,200,240,,,20\n"), "exchange.conductor_or_loss", 2, "conductor");
    expect_refused(reduce("cable", head + "a,5000,200,240,string,,20\n"), "power.unknown_conductor", 2, "conductor");
    expect_refused(reduce("cable", head + "a,5000,0,240,,5 %,20\n"), "power.not_positive", 2, "length");
    expect_refused(reduce("cable", head + "a,5000,200,240,,60 %,20\n"), "power.loss_out_of_range", 2, "largest_loss");
    expect_refused(reduce("cable", "power,length,voltage,system,largest_loss\n5000,200,240,two-phase,5 %\n"),
                   "exchange.current_unknown", 2, "system");
}

TEST(Reduce, EveryMethodIsFoundByItsId) {
    EXPECT_EQ(reduce_methods().size(), 28u);
    for (const ReduceMethod& method : reduce_methods())
        EXPECT_EQ(find_reduce_method(method.id), &method);
    EXPECT_EQ(find_reduce_method("guess"), nullptr);
}

} // namespace
} // namespace rillmark
