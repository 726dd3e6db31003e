// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/checks.h"
#include "exchange/reduce.h"
#include "exchange_fixtures.h"

#include <fmt/format.h>

#include <cmath>

namespace rillmark {
namespace {

using namespace exchange_fixtures;

bool has_result(const Reduction& reduction, const std::string& name) {
    return std::ranges::count(reduction.results, "exchange.result." + name, &NamedResult::code) > 0;
}

std::ptrdiff_t count(const Reduction& reduction, const std::string& code) {
    return std::ranges::count(reduction.findings, code, &Finding::code);
}

TEST(ReduceLevelsThreeWire, PublishedLine) {
    const auto check = checks::entry("levelling", "lev-3wire-ghilani-524");
    const auto& back = check["inputs"]["bs_wires_m"];
    const auto& fore = check["inputs"]["fs_wires_m"];
    const auto wires = [](const nlohmann::json& w) {
        return fmt::format("{},{},{}", w[1].dump(), w[0].dump(), w[2].dump());
    };
    const std::string head = "point,backsight,backsight_upper,backsight_lower,foresight,upper,lower\n";
    const auto first = fmt::format("X,{},,,,{},{}\n", back[0][1].dump(), back[0][0].dump(), back[0][2].dump());
    const Reduction r = reduced("levels", head + first + "TP," + wires(back[1]) + "," + wires(fore[0]) + "\nY,,,," +
                                              wires(fore[1]) + "\n",
                                {{"start_level", check["inputs"]["bm_x_m"].dump()}});
    EXPECT_NEAR(std::get<Estimate>(r.tables[0].rows[2][1]).value, check["expected"]["bm_y_m"].get<double>(),
                check["tolerance"]["elev_m"].get<double>());
    double length_m = 0.0;
    for (const char* side : {"bs_distance_m", "fs_distance_m"})
        for (const double one_m : check["expected"][side])
            length_m += one_m;
    EXPECT_NEAR(result(r, "length").value, length_m, 1e-6);
    EXPECT_EQ(count(r, "levels.half_intervals_differ"), 2); // both backsights, 9 and 10 mm; the foresights 1 and 2 mm
}

TEST(ReduceLevelsThreeWire, Refusals) {
    const std::string head = "point,backsight,foresight,upper,lower\n";
    expect_refused(reduce("levels", head + "A,1.2,,1.3,\nB,,1.1,,\n"), "exchange.wire_missing", 2, "lower");
    expect_refused(reduce("levels", head + "A,1.2,,1.3,1.1\nB,,1.4,1.3,1.1\n"), "levels.wires_out_of_order", 3,
                   "foresight");
    expect_refused(reduce("levels", head + "A,1.2,,13,1.1\n"), "levels.field_reading_impossible", 2, "upper");
    EXPECT_EQ(reduce("levels", head + "A,1.2,,1.3,1.1\n", {{"stadia_factor", "0"}}).error().code,
              "levels.stadia_impossible");
}

TEST(ReduceLevelsCorrected, CollimationIsTakenOutAndItsDoubtCounted) {
    const std::string csv = "point,backsight,foresight,distance,backsight_distance\nA,1.2,,12,\nB,1.5,2.0,42,15\nC,,1.9,55,\n";
    const Reduction plain = reduced("levels", csv);
    EXPECT_FALSE(has_result(plain, "collimation_cost"));
    EXPECT_EQ(count(plain, "levels.setup_unbalanced"), 2);
    const Reduction r = reduced("levels", csv, {{"collimation", "0.02 %"}, {"collimation_uncertainty", "0.00002"}});
    EXPECT_NEAR(result(r, "collimation_cost").value, -70.0 * 2e-4, 1e-12);
    EXPECT_NEAR(result(r, "rise").value, result(plain, "rise").value + 70.0 * 2e-4, 1e-12);
    EXPECT_NEAR(result(r, "rise").standard_uncertainty, std::hypot(2.0 * 0.0015, 70.0 * 2e-5), 1e-12);
    EXPECT_EQ(count(r, "levels.collimation_cost"), 1);
}

TEST(ReduceLevelsCorrected, Curvature) {
    const std::string csv = "point,backsight,foresight,distance\nA,1.2,,10\nB,,2.0,100\n";
    EXPECT_NEAR(result(reduced("levels", csv, {{"curvature", "yes"}}), "rise").value, -0.8 + 0.000675 - 0.00000675, 1e-7);
    EXPECT_EQ(reduce("levels", csv, {{"curvature", "maybe"}}).error().code, "exchange.answer_unknown");
    EXPECT_EQ(reduce("levels", csv, {{"collimation", "0.02"}}).error().code, "levels.collimation_impossible");
    expect_refused(reduce("levels", "point,backsight,foresight,distance\nA,1.2,,10\nB,,2.0,20000\n", {{"curvature", "yes"}}),
                   "levels.sight_length_impossible", 3, "distance");
}

TEST(ReduceTwoPeg, PublishedEightyMetres) {
    const auto check = checks::entry("level_instrument", "peg-80m");
    const Reduction r =
        reduced("two-peg", "distance_a,reading_a,distance_b,reading_b\n40,1.32,40,1.56\n10,1.11,90,1.39\n");
    const double tolerance = check["tolerance"]["abs_m"];
    EXPECT_NEAR(result(r, "collimation_in_100_m").value, check["expected"]["e_m_per_100m"].get<double>(), tolerance);
    EXPECT_NEAR(result(r, "collimation").value * 100.0, check["expected"]["e_m_per_100m"].get<double>(), tolerance);
    EXPECT_NEAR(result(r, "rise_a_to_b").value, -check["expected"]["true_difference_m"].get<double>(), tolerance);
    EXPECT_NEAR(std::get<Estimate>(r.tables[0].rows[1][0]).value, check["expected"]["corrected_a_m"].get<double>(), tolerance);
    EXPECT_NEAR(std::get<Estimate>(r.tables[0].rows[1][1]).value, check["expected"]["corrected_b_m"].get<double>(), tolerance);
    EXPECT_EQ(count(r, "levels.collimation_beyond_limit"), 1);
}

TEST(ReduceTwoPeg, Refusals) {
    const std::string head = "distance_a,reading_a,distance_b,reading_b\n";
    EXPECT_EQ(reduce("two-peg", head + "25,2.847,50,3.462\n", {{"known_rise", "0.63"}}).error().code,
              "levels.peg_contradicts_known_rise");
    EXPECT_EQ(reduce("two-peg", head + "40,1.32,40,1.56\n").error().code, "levels.peg_setups_missing");
    expect_refused(reduce("two-peg", head + "40,1.32,40,1.56\n10,1.11,-90,1.39\n"), "levels.sight_length_impossible", 3,
                   "distance_b");
    expect_refused(reduce("two-peg", head + "40,1.32,40,1.56\n10,111,90,1.39\n"), "levels.field_reading_impossible", 3,
                   "reading_a");
    expect_refused(reduce("two-peg", head + "40,1.32,40,1.56\n10,1.39,90,1.11\n"), "levels.pegs_swapped", 3, "");
    EXPECT_EQ(argument(reduce("two-peg", head + "40,1.32,40,1.56\n10,1.39,90,1.11\n").error(), "setup"), "2");
    expect_refused(reduce("two-peg", head + "40,,40,1.56\n"), "exchange.cell_empty", 2, "reading_a");
}

TEST(ReduceReciprocal, PublishedWithRefractionRecovered) {
    const auto check = checks::entry("level_instrument", "recip-1530m");
    const std::string csv = "crossing,a_from_a,b_from_a,a_from_b,b_from_b,distance\nriver,2.165,3.81,0.91,2.355,1530\n";
    const Reduction r = reduced("reciprocal", csv, {{"collimation", "-0.00004"}});
    EXPECT_NEAR(-result(r, "rise_a_to_b").value, check["expected"]["true_difference_m"].get<double>(),
                check["tolerance"]["difference_m"].get<double>());
    EXPECT_NEAR(result(r, "refraction").value * check["expected"]["curvature_m"].get<double>(),
                check["expected"]["refraction_m"].get<double>(), check["tolerance"]["refraction_m"].get<double>());
    EXPECT_EQ(r.results.front().subject, "river");
    EXPECT_FALSE(has_result(reduced("reciprocal", csv), "refraction"));
}

TEST(ReduceReciprocal, Refusals) {
    const std::string head = "a_from_a,b_from_a,a_from_b,b_from_b,distance\n";
    expect_refused(reduce("reciprocal", head + "1.49,2.195,1.54,0.705,\n"), "levels.staves_swapped", 2, "");
    expect_refused(reduce("reciprocal", head + "1.49,2.195,15.4,0.705,\n"), "levels.field_reading_impossible", 2, "a_from_b");
    expect_refused(reduce("reciprocal", head + "1.49,2.195,1.5,2.2,0\n"), "levels.sight_length_impossible", 2, "distance");
}

} // namespace
} // namespace rillmark
