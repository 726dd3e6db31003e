// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce.h"

#include "checks/checks.h"
#include "exchange_fixtures.h"

#include <fmt/format.h>

namespace rillmark {
namespace {

using namespace exchange_fixtures;

bool has_code(const Reduction& reduction, const std::string& code) {
    return std::ranges::find(reduction.findings, code, &Finding::code) != reduction.findings.end();
}

TEST(ReduceWeir, PublishedNotch) {
    const auto check = checks::entry("flow_structures", "weir-v90-kindsvater-shen");
    const std::vector<double> head_m = check["inputs"]["head_m"];
    for (std::size_t i = 0; i < head_m.size(); ++i) {
        const Reduction r = reduced("weir", fmt::format("head_mm\n{}\n", 1000.0 * head_m[i]), {{"angle", "90"}});
        const double expected = check["expected"]["discharge_L_s"][i];
        EXPECT_NEAR(1000.0 * result(r, "discharge").value, expected,
                    check["tolerance"]["relative"].get<double>() * expected);
    }
}

TEST(ReduceWeir, GaugeWithZeroAndTailwater) {
    const std::vector<TypedParameter> free{{"shape", "rectangular"}, {"crest_length", "0.5"}, {"approach_width", "1"},
                                           {"crest_height", "0.3"},  {"zero", "1.2"},         {"tailwater", "-0.3"}};
    std::vector<TypedParameter> drowned = free;
    drowned.back().value = "10 cm";
    const std::string csv = "head\n1.401\n1.399\n1.400\n";
    const Reduction a = reduced("weir", csv, free);
    const Reduction b = reduced("weir", csv, drowned);
    EXPECT_NEAR(result(a, "head").value, 0.2, 1e-12);
    EXPECT_DOUBLE_EQ(result(b, "free_discharge").value, result(a, "discharge").value);
    EXPECT_LT(result(b, "discharge").value, result(a, "discharge").value);
    EXPECT_TRUE(has_code(b, "flow.weir_submerged"));
}

TEST(ReduceWeir, Refusals) {
    expect_refused(reduce("weir", "head\n0.2\n500\n", {{"angle", "90"}}), "flow.bad_head", 3, "head");
    EXPECT_EQ(reduce("weir", "head\n0.2\n", {{"shape", "round"}}).error().code, "exchange.shape_unknown");
    EXPECT_EQ(reduce("weir", "head\n0.2\n").error().code, "flow.weir_incomplete");
    EXPECT_EQ(reduce("weir", "head\n-0.2\n", {{"angle", "90"}}).error().code, "flow.head_not_positive");
}

TEST(ReduceFlume, PublishedSize) {
    const auto check = checks::entry("flow_structures", "parshall-iso-2.40");
    const Reduction r = reduced("flume", "head\n0.3\n", {{"size", "iso-2.40"}, {"downstream_head", "0.15"}});
    const double expected = check["expected"]["discharge_L_s"][2];
    EXPECT_NEAR(1000.0 * result(r, "discharge").value, expected,
                check["tolerance"]["relative"].get<double>() * expected);
    EXPECT_DOUBLE_EQ(result(r, "submergence").value, 0.5);
    EXPECT_EQ(reduce("flume", "head\n0.3\n").error().code, "flow.flume_unknown");
    EXPECT_EQ(reduce("flume", "head\n0.3\n", {{"size", "us-3in"}, {"downstream_head", "0.2"}}).error().code,
              "flow.flume_submerged");
    expect_refused(reduce("flume", "head\n\"\"\n0.1\n", {{"size", "us-3in"}}), "exchange.csv_row_empty", 2, "");
}

TEST(ReduceSlopeArea, PublishedSection) {
    const auto check = checks::entry("flow_structures", "manning-rect-1");
    const std::string csv = "distance,offset,height\n500,0,3\n500,0,0\n500,5,0\n500,5,3\n0,,2.05\n1000,,-0.45\n";
    const Reduction r = reduced("slope-area", csv, {{"n", "0.015"}, {"n_uncertainty", "0.001"}});
    const double expected = check["expected"]["discharge_m3_s"];
    EXPECT_NEAR(result(r, "discharge").value, expected, check["tolerance"]["relative"].get<double>() * expected);
    EXPECT_NEAR(result(r, "water_slope").value, 0.0025, 1e-12);
    EXPECT_TRUE(has_code(r, "flow.slope_area_flood_only"));
    const Reduction table = reduced("slope-area", csv, {{"channel", "mountain-boulders"}});
    EXPECT_NEAR(result(table, "discharge").value, result(r, "discharge").value * 0.015 / 0.05, 1e-9);
}

TEST(ReduceSlopeArea, Refusals) {
    const std::string csv = "distance,offset,height\n0,0,3\n0,2,0\n0,1,3\n0,,2\n90,,1\n";
    expect_refused(reduce("slope-area", csv, {{"n", "0.05"}}), "flow.section_bad", 2, "offset");
    expect_refused(
        reduce("slope-area", "distance,offset,height\n0,0,3\n0,2,0\n0,3,3\n0,,2\n90,,1000000\n", {{"n", "0.05"}}),
        "flow.bad_mark", 6, "height");
    EXPECT_EQ(reduce("slope-area", csv).error().code, "exchange.roughness_missing");
    EXPECT_EQ(reduce("slope-area", csv, {{"channel", "lava"}}).error().code, "flow.unknown_channel");
}

TEST(ReduceStageRating, FindsTheCurve) {
    std::string csv = "stage,flow\n";
    for (int i = 0; i < 10; ++i)
        csv += fmt::format("{},{}\n", 0.2 + 0.05 * i, 3.0 * std::pow(0.08 + 0.05 * i, 1.8));
    const Reduction r = reduced("stage-rating", csv, {{"at", "0.4"}});
    EXPECT_NEAR(result(r, "rating_b").value, 1.8, 1e-3);
    EXPECT_NEAR(result(r, "rating_h0").value, 0.12, 1e-4);
    EXPECT_NEAR(result(r, "discharge").value, 3.0 * std::pow(0.28, 1.8), 1e-4);
    EXPECT_LT(result(r, "discharge_lowest").value, result(r, "discharge").value);
    EXPECT_EQ(r.tables.at(0).rows.size(), 10U);
    EXPECT_TRUE(has_code(reduced("stage-rating", csv, {{"at", "0.9"}}), "flow.stage_outside_rating"));
    EXPECT_TRUE(has_code(reduced("stage-rating", csv, {{"at", "0.05"}}), "flow.stage_no_flow"));
    const Reduction log = reduced("stage-rating", csv + "0.4,\n0.05,\n0.15,\n0.9,\n");
    ASSERT_EQ(log.tables.at(1).rows.size(), 4U);
    const auto range_of = [&](std::size_t row) { return std::get<std::string>(log.tables[1].rows[row][5]); };
    EXPECT_EQ(range_of(0), "within");
    EXPECT_EQ(range_of(1), "no flow");
    EXPECT_EQ(range_of(2), "below");
    EXPECT_EQ(range_of(3), "above");
    EXPECT_NEAR(std::get<Estimate>(log.tables[1].rows[0][2]).value, 3.0 * std::pow(0.28, 1.8), 1e-4);
    EXPECT_TRUE(std::holds_alternative<std::monostate>(log.tables[1].rows[1][2])); // no figure: never zero
    expect_refused(reduce("stage-rating", "stage,flow\n0.2,1\n0.3,0\n"), "flow.bad_discharge_at_visit", 3, "flow");
}

TEST(ReduceDailyFlow, MissingDaysAreNeitherZeroNorACode) {
    const Reduction r =
        reduced("daily-flow", "date,flow_L_s\n2024-01-01,100\n2024-01-02,\n2024-01-03,-1\n2024-01-04,-999\n"
                              "2024-01-06,300\n2024-01-07,200\n");
    EXPECT_NEAR(result(r, "mean_flow").value, 0.2, 1e-12);
    EXPECT_NEAR(result(r, "q50").value, 0.2, 1e-12);
    EXPECT_EQ(result(r, "days").value, 3.0);
    EXPECT_TRUE(has_code(r, "flow.days_coded"));
    EXPECT_TRUE(has_code(r, "flow.days_missing"));
    EXPECT_TRUE(has_code(r, "flow.record_short"));
    // three days do not say what is passed for 95 % of the time
    EXPECT_EQ(std::ranges::count(r.results, "exchange.result.q95", &NamedResult::code), 0);
    EXPECT_EQ(r.tables.at(1).rows.size(), 12U);
}

TEST(ReduceDailyFlow, Refusals) {
    expect_refused(reduce("daily-flow", "date,flow\n2024-01-01,1\n2024-13-01,1\n"), "flow.bad_day", 3, "date");
    expect_refused(reduce("daily-flow", "date,flow\n2024-01-01,1\n2024-01-01,1\n"), "flow.day_twice", 3, "date");
    expect_refused(reduce("daily-flow", "date,flow\n2024-01-01,1\n2024-01-02,9000000\n"), "flow.bad_daily_flow", 3,
                   "flow");
    EXPECT_EQ(reduce("daily-flow", "date\n2024-01-01\n").error().code, "flow.no_days");
    EXPECT_EQ(reduce("daily-flow", "date,flow\n2024-01-01,1\n", {{"plotting", "hazen"}}).error().code,
              "exchange.plotting_unknown");
    EXPECT_EQ(reduce("daily-flow", "date,flow\n2024-01-01,1\n", {{"year_begins", "1.5"}}).error().code,
              "flow.bad_option");
}

} // namespace
} // namespace rillmark
