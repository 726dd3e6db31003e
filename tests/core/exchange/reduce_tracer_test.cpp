// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce.h"

#include "checks/checks.h"
#include "exchange_fixtures.h"

#include <fmt/format.h>

#include <fstream>
#include <sstream>

namespace rillmark {
namespace {

using namespace exchange_fixtures;

nlohmann::json check(const std::string& id) {
    return checks::entry("flow_tracer", id);
}

std::string file_text(const std::string& name) {
    std::ifstream file(std::string(RILLMARK_SOURCE_DIR) + "/tests/files/" + name);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

bool has_code(const Reduction& reduction, const std::string& code) {
    return std::ranges::find(reduction.findings, code, &Finding::code) != reduction.findings.end();
}

TEST(ReduceFloat, PublishedExample) {
    const auto published = check("float-boyd-example");
    const Reduction r = reduced("float", "time\n85\n", {{"length", "10"}, {"width", "8"}, {"mean_depth", "1.5"}});
    const double expected = published["expected"]["discharge_m3_s"];
    EXPECT_NEAR(result(r, "discharge").value, expected, published["tolerance"]["relative"].get<double>() * expected);
    EXPECT_DOUBLE_EQ(result(r, "float_coefficient").value, published["inputs"]["coefficient"].get<double>());
    EXPECT_TRUE(has_code(r, "flow.few_float_runs"));
}

TEST(ReduceFloat, RunsAndSoundingsInOneFile) {
    const std::string csv = "time,across,section,distance,depth\n30,1,,,\n28,2,,,\n31,3,,,\n"
                            ",,upper,0,0\n,,upper,2,0.8\n,,upper,4,0\n,,lower,0,0\n,,lower,2,0.7\n,,lower,4.4,0\n";
    const Reduction r = reduced("float", csv, {{"length_ft", "30"}, {"wind", "light"}, {"bed", "rough-shallow"}});
    EXPECT_NEAR(result(r, "area").value, 0.5 * (1.6 + 1.54), 1e-12);
    EXPECT_DOUBLE_EQ(result(r, "float_coefficient").value, 0.575);
    EXPECT_TRUE(has_code(r, "flow.float_wind"));
}

TEST(ReduceFloat, Refusals) {
    const std::string head = "time,section,distance,depth\n";
    const auto go = [&](const std::string& rows, std::vector<TypedParameter> more = {}) {
        more.push_back({"length", "10"});
        return reduce("float", head + rows, more);
    };
    expect_refused(go("30,,,\n-3,,,\n,a,0,1\n,a,2,1\n"), "flow.bad_time", 3, "time");
    expect_refused(go("30,,,\n,a,0,1\n,a,2,1\n,b,0,0\n,b,2,-1\n"), "flow.bad_depth", 6, "depth");
    expect_refused(go("30,,,\n30,a,0,1\n"), "exchange.float_row_unclear", 3, "");
    expect_refused(go("30,,,\n,a,0,\n"), "exchange.float_row_unclear", 3, "");
    EXPECT_EQ(go("30,,,\n").error().code, "flow.no_float_section");
    EXPECT_EQ(go("30,,,\n,a,0,1\n,a,2,1\n", {{"wind", "gale"}}).error().code, "exchange.word_unknown");
    EXPECT_EQ(reduce("float", head + "30,,,\n").error().code, "flow.float_no_length");
}

TEST(ReduceSaltSlug, PublishedRiver) {
    const auto published = check("salt-slug-ubc-2012-A");
    const std::string factor = fmt::format("{}", published["expected"]["slope_mg_L_per_uS_cm"].get<double>());
    const std::string trace = file_text("salt_ubc_2012_A_trace.csv");
    const Reduction r = reduced("salt-slug", trace,
                                {{"mass", "100"},
                                 {"factor", factor},
                                 {"start", "1"},
                                 {"end", "669"},
                                 {"before_from", "1"},
                                 {"before_to", "120"}});
    const double expected = published["expected"]["discharge_m3_s"];
    EXPECT_NEAR(result(r, "discharge").value, expected, published["tolerance"]["relative"].get<double>() * expected);
    // the check allows 1.5 % to another sensible choice of windows
    const Reduction found = reduced("salt-slug", trace, {{"mass_lb", "220.46226"}, {"factor", factor}});
    EXPECT_NEAR(result(found, "discharge").value, expected, 0.015 * expected);
    EXPECT_GT(result(found, "discharge").standard_uncertainty, 0.02 * expected);
}

TEST(ReduceSaltSlug, PublishedSlugOfSolution) {
    const auto published = check("salt-slug-lancaster");
    std::string csv = "time,ec_uS_cm\n"; // 1 uS/cm stands for 1 mg/L here
    for (std::size_t i = 0; i < published["inputs"]["time_s"].size(); ++i)
        csv += fmt::format("{},{}\n", published["inputs"]["time_s"][i].get<double>(),
                           125.0 + published["inputs"]["net_conc_mg_L"][i].get<double>());
    const Reduction r = reduced("salt-slug", csv,
                                {{"solution_volume_L", "20"},
                                 {"solution_mg_L", "45000"},
                                 {"factor", "1"},
                                 {"start", "0"},
                                 {"end", "480"},
                                 {"before_from", "0"},
                                 {"before_to", "90"}});
    const double expected = published["expected"]["discharge_L_s"];
    EXPECT_NEAR(1000.0 * result(r, "discharge").value, expected,
                published["tolerance"]["relative"].get<double>() * expected);
}

/// A triangle of 40 s and 40 uS/cm on 100 uS/cm.
std::string triangle(const std::string& column, double scale) {
    std::string csv = "time," + column + ",temperature\n";
    for (int t = 0; t < 120; ++t)
        csv += fmt::format("{},{},10\n", t, scale * (100.0 + std::max(0.0, 40.0 - 2.0 * std::abs(t - 50))));
    return csv;
}

TEST(ReduceSaltSlug, RawReadingsAreCorrected) {
    const double as_read =
        result(reduced("salt-slug", triangle("ec_uS_cm", 1.0), {{"mass_g", "100"}}), "discharge").value;
    EXPECT_NEAR(as_read, 0.1 / (4.86 * 800.0 * 1e-4), 0.02 * as_read);
    const double linear =
        result(reduced("salt-slug", triangle("ec_uS_cm", 0.7), {{"mass_g", "100"}, {"correction", "linear"}}),
               "discharge")
            .value;
    EXPECT_NEAR(linear, as_read, 1e-9);
}

TEST(ReduceSaltSlug, Refusals) {
    const std::string good = triangle("ec_uS_cm", 1.0);
    EXPECT_EQ(reduce("salt-slug", good).error().code, "flow.dose_unclear");
    EXPECT_EQ(reduce("salt-slug", good, {{"mass", "1"}, {"correction", "maybe"}}).error().code,
              "exchange.word_unknown");
    EXPECT_EQ(reduce("salt-slug", good, {{"mass", "1"}, {"before_from", "3"}}).error().code,
              "exchange.parameter_missing");
    EXPECT_EQ(reduce("salt-slug", good, {{"mass", "1"}, {"start", "500"}}).error().code, "flow.bad_window");
    EXPECT_EQ(reduce("salt-slug", "time\n1\n", {{"mass", "1"}}).error().code, "flow.no_probe");
    expect_refused(reduce("salt-slug", "time,ec_uS_cm\n1,100\n2,100\n0.5,100\n", {{"mass", "1"}}),
                   "flow.trace_time_backwards", 4, "time");
    std::string hot = good;
    hot.replace(hot.find("30,100,10"), 9, "30,100,77");
    expect_refused(reduce("salt-slug", hot, {{"mass", "1"}, {"correction", "non-linear"}}),
                   "flow.bad_water_temperature", 32, "temperature");
}

TEST(ReduceSaltCalibration, PublishedSeries) {
    const auto published = check("salt-slug-ubc-2012-A");
    const Reduction r = reduced("salt-calibration", file_text("salt_ubc_2012_A_cal.csv"),
                                {{"sample_mL", "500"}, {"solution_g_L", "10"}});
    const double expected = published["expected"]["slope_mg_L_per_uS_cm"];
    EXPECT_NEAR(result(r, "calibration_factor").value, expected,
                published["tolerance"]["relative"].get<double>() * expected);
    EXPECT_EQ(r.tables.at(0).rows.size(), 7U);
}

TEST(ReduceSaltCalibration, Refusals) {
    const std::string head = "added_mL,ec_uS_cm\n";
    const std::vector<TypedParameter> vessel{{"sample_L", "1"}, {"solution_g_L", "10"}};
    EXPECT_EQ(reduce("salt-calibration", head + "0,100\n", {{"sample_L", "1"}}).error().code,
              "exchange.parameter_missing");
    expect_refused(reduce("salt-calibration", head + "0,100\n2,140\n1,120\n3,160\n", vessel), "flow.additions_fall", 4,
                   "added");
    expect_refused(reduce("salt-calibration", head + "0,100\n1,-120\n3,160\n", vessel), "flow.bad_conductivity", 3,
                   "ec");
    EXPECT_EQ(exchange_fixtures::reduce("salt-calibration", head + "0,100\n1,120\n", vessel).error().code,
              "flow.few_calibration_points");
}

TEST(ReduceConstantRate, CourseExercise) {
    const auto published = check("salt-constant-rate");
    const Reduction r = reduced("constant-rate", "background_mg_L,plateau_mg_L\n58,250\n58,250\n58,250\n",
                                {{"injection_L_s", "1.8"}, {"tracer_mg_L", "8000"}});
    const double tolerance = published["tolerance"]["relative"];
    const double upstream = published["expected"]["discharge_L_s"];
    const double sampler = published["expected"]["discharge_incl_injection_L_s"];
    EXPECT_NEAR(1000.0 * result(r, "discharge").value, upstream, tolerance * upstream);
    EXPECT_NEAR(1000.0 * result(r, "discharge_at_sampler").value, sampler, tolerance * sampler);
}

TEST(ReduceConstantRate, ConductivitiesTakeTheGenericFactor) {
    const Reduction r = reduced("constant-rate", "background_ec_uS_cm,plateau_ec_uS_cm\n100,\n101,\n,150\n,151\n,150\n",
                                {{"injection_L_s", "0.02"}, {"tracer_g_L", "100"}});
    EXPECT_NEAR(1000.0 * result(r, "plateau_rise").value, 0.486 * (150.0 + 1.0 / 3.0 - 100.5), 1e-9);
}

TEST(ReduceConstantRate, Refusals) {
    const std::vector<TypedParameter> injection{{"injection_L_s", "1.8"}, {"tracer_mg_L", "8000"}};
    const auto go = [&](const std::string& csv) { return exchange_fixtures::reduce("constant-rate", csv, injection); };
    EXPECT_EQ(reduce("constant-rate", "background,plateau\n1,2\n", {{"tracer", "8"}}).error().code,
              "exchange.parameter_missing");
    EXPECT_EQ(go("background,plateau_ec\n1,2\n").error().code, "exchange.readings_mixed");
    expect_refused(go("background_mg_L,plateau_mg_L\n58,250\n58,\n,-1\n"), "flow.bad_tracer_reading", 4, "plateau");
    EXPECT_EQ(go("background_mg_L\n58\n").error().code, "flow.no_plateau");
}

} // namespace
} // namespace rillmark
