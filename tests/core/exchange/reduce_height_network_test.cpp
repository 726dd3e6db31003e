// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange_fixtures.h"

#include "checks/checks.h"

#include <fmt/format.h>

#include <cmath>

namespace rillmark {
namespace {

using namespace exchange_fixtures;

const ResultTable& table_of(const Reduction& reduction, const std::string& code) {
    const auto hit = std::ranges::find(reduction.tables, "exchange.table." + code, &ResultTable::code);
    EXPECT_NE(hit, reduction.tables.end());
    return *hit;
}

TEST(ReduceHeightNetwork, TextbookNetOfSixLines) {
    const auto check = checks::entry("levelling", "lsq-ghilani-12-1");
    const auto& in = check["inputs"];
    std::string csv = "from,to,rise,height,uncertainty,fixed\n";
    csv += fmt::format(",A,,{},,yes\n", in["fixed"]["A"].get<double>());
    for (std::size_t i = 0; i < in["obs_from_to_dh_m"].size(); ++i) {
        const auto& line = in["obs_from_to_dh_m"][i];
        csv += fmt::format("{},{},{},,{},\n", line[0].get<std::string>(), line[1].get<std::string>(),
                           line[2].get<double>(), in["sigma_m"][i].get<double>());
    }
    const Reduction r = reduced("height-network", csv, {{"upper", "C"}, {"lower", "A"}});
    std::size_t found = 0;
    for (const auto& row : table_of(r, "heights").rows) {
        const auto& name = std::get<std::string>(row[0]);
        if (!check["expected"]["adjusted_m"].contains(name))
            continue;
        const std::size_t at = static_cast<std::size_t>(name[0] - 'B');
        EXPECT_NEAR(std::get<Estimate>(row[1]).value, check["expected"]["adjusted_m"][name].get<double>(),
                    check["tolerance"]["height_m"].get<double>());
        EXPECT_NEAR(std::get<Estimate>(row[1]).standard_uncertainty,
                    check["expected"]["sigma_height_mm_computed_apriori"][at].get<double>() / 1000.0, 6e-6);
        ++found;
    }
    EXPECT_EQ(found, 3u);
    EXPECT_NEAR(result(r, "chi_squared").value, check["expected"]["vWv_computed"].get<double>(), 1e-4);
    EXPECT_NEAR(result(r, "unit_weight_deviation").value, check["expected"]["s0_computed"].get<double>(), 1e-4);
    const ResultTable& residuals = table_of(r, "residuals");
    for (std::size_t i = 0; i < 6; ++i)
        EXPECT_NEAR(std::get<Estimate>(residuals.rows[i][2]).value * 1000.0,
                    check["expected"]["residuals_mm_computed"][i].get<double>(), 0.006);
    EXPECT_NEAR(result(r, "fall").value, 453.4685 - 437.596, 1e-4);
}

TEST(ReduceHeightNetwork, RowsWithOneCauseShareItsError) {
    const std::string head = "from,to,rise,uncertainty,cause,cause_effect\n";
    const Reduction r = reduced("height-network", head + "A,B,10,0.01,eye,0.1\nB,C,10,0.01,eye,0.1\n",
                                {{"upper", "C"}, {"lower", "A"}});
    EXPECT_NEAR(result(r, "fall").standard_uncertainty, std::hypot(0.2, 0.01 * std::sqrt(2.0)), 1e-12);
    EXPECT_EQ(std::ranges::find(r.results, "eye", &NamedResult::subject)->code, "exchange.result.cause");
}

TEST(ReduceHeightNetwork, AWildReadingIsNamedByItsLine) {
    const Reduction r = reduced("height-network", "from,to,rise,uncertainty\nA,B,1.000,0.002\nA,B,1.001,0.002\n"
                                                  "A,B,1.100,0.002\nA,B,0.999,0.002\n");
    const auto outlier = std::ranges::find(r.findings, "levels.observation_outlier", &Finding::code);
    ASSERT_NE(outlier, r.findings.end());
    EXPECT_EQ(argument(*outlier, "line"), "4");
}

TEST(ReduceHeightNetwork, RefusalsNameTheirCell) {
    const std::string head = "from,to,rise,height,uncertainty,fixed,cause,cause_effect\n";
    expect_refused(reduce("height-network", head + "A,B,1,2,0.1,,,\n"), "exchange.rise_or_height", 2, "rise");
    expect_refused(reduce("height-network", head + "A,B,,,0.1,,,\n"), "exchange.rise_or_height", 2, "rise");
    expect_refused(reduce("height-network", head + "A,A,1,,0.1,,,\n"), "levels.same_point", 2, "from");
    expect_refused(reduce("height-network", head + ",A,1,,0.1,,,\n"), "exchange.cell_empty", 2, "from");
    expect_refused(reduce("height-network", head + "A,B,1,,,,,\n"), "exchange.cell_empty", 2, "uncertainty");
    expect_refused(reduce("height-network", head + ",B,,5,0.1,perhaps,,\n"), "exchange.answer_unknown", 2, "fixed");
    expect_refused(reduce("height-network", head + "A,B,1,,0.1,,eye,\n"), "exchange.cell_empty", 2, "cause_effect");
    expect_refused(reduce("height-network", head + "A,B,1,,0.1,,,\nA,B,1,,0,,,\n"), "levels.uncertainty_impossible", 3,
                   "uncertainty");
    expect_refused(reduce("height-network", head + ",B,,99999,0.1,,,\n"), "levels.rise_impossible", 2, "height");
    EXPECT_EQ(reduce("height-network", head + "A,B,1,,0.1,,,\n", {{"upper", "A"}, {"lower", "Z"}}).error().code,
              "levels.point_unknown");
}

TEST(ReduceTape, SlopeAndLevelOfAThreeFourFiveTriangle) {
    const Reduction r =
        reduced("tape", "from,to,slope_distance,level_distance,lengths,rise\nA,B,50,,2,30\nB,C,,40,1,30\n");
    EXPECT_NEAR(result(r, "level_distance").value, 80.0, 1e-9);
    EXPECT_NEAR(result(r, "slope_distance").value, 100.0, 1e-9);
    // 1 in 1000 of the whole, and 1 cm for each of three lengths laid
    EXPECT_NEAR(result(r, "slope_distance").standard_uncertainty, std::hypot(0.1, 0.01 * std::sqrt(3.0)), 1e-12);
    EXPECT_LT(result(reduced("tape", "slope_distance\n100\n", {{"instrument", "laser"}}), "slope_distance")
                  .standard_uncertainty,
              0.011);
}

TEST(ReduceTape, ContradictionsAndRefusals) {
    const Reduction swapped = reduced("tape", "slope_distance,level_distance\n40,50\n");
    ASSERT_EQ(swapped.findings.size(), 1u);
    EXPECT_EQ(swapped.findings[0].code, "levels.level_beyond_slope");
    EXPECT_EQ(argument(swapped.findings[0], "column"), "slope_distance");
    expect_refused(reduce("tape", "slope_distance,rise\n10,0\n20,30\n"), "levels.rise_beyond_distance", 3,
                   "slope_distance");
    expect_refused(reduce("tape", "slope_distance,lengths\n10,1.5\n"), "exchange.not_whole", 2, "lengths");
    expect_refused(reduce("tape", "slope_distance,rise\n,1\n"), "exchange.no_distance", 2, "");
    EXPECT_EQ(reduce("tape", "slope_distance\n10\n", {{"instrument", "rope"}}).error().code, "exchange.word_unknown");
}

} // namespace
} // namespace rillmark
