// SPDX-License-Identifier: GPL-3.0-or-later
#include "season/transfer.h"

#include "checks/checks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace rillmark {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kSquareKilometre_m2 = 1e6;

bool has_code(const Findings& findings, const std::string& code) {
    return std::ranges::find(findings, code, &Finding::code) != findings.end();
}

TEST(TransferChecks, RatioOfAreas) {
    const auto check = checks::entry("season", "area-ratio");
    const auto& in = check["inputs"];
    for (std::size_t i = 0; i < in["area_site_km2"].size(); ++i) {
        const auto flow = transfer_by_area({{in["q_gauge_m3_s"], 0.0},
                                            {in["area_gauge_km2"].get<double>() * kSquareKilometre_m2, 0.0},
                                            {in["area_site_km2"][i].get<double>() * kSquareKilometre_m2, 0.0},
                                            {in["phi"], 0.15}});
        ASSERT_TRUE(flow.ok());
        const double expected = check["expected"]["q_site_m3_s"][i];
        EXPECT_NEAR(flow->discharge.estimate.value, expected, check["tolerance"]["relative"].get<double>() * expected);
        EXPECT_EQ(!has_code(flow->findings, "flow.area_ratio_far"),
                  check["expected"]["inside_usual_range"][i].get<bool>());
        EXPECT_GE(flow->discharge.estimate.standard_uncertainty, 0.25 * expected);
    }
}

TEST(Transfer, ThereAndBackIsTheSame) {
    const auto there = transfer_by_area({{0.3, 0.0}, {2e7, 0.0}, {1.4e7, 0.0}, {0.8, 0.1}});
    ASSERT_TRUE(there.ok());
    const auto back = transfer_by_area({{there->discharge.estimate.value, 0.0}, {1.4e7, 0.0}, {2e7, 0.0}, {0.8, 0.1}});
    ASSERT_TRUE(back.ok());
    EXPECT_NEAR(back->discharge.estimate.value, 0.3, 1e-12);
    EXPECT_NEAR(*there->ratio * *back->ratio, 1.0, 1e-12);
}

TEST(Transfer, OneSpotKeepsTheFactorOfTwo) {
    const auto flow = transfer_by_spots({{{0.02, 0.0}, {0.4, 0.0}}}, {0.2, 0.0});
    ASSERT_TRUE(flow.ok());
    EXPECT_NEAR(flow->discharge.estimate.value, 0.01, 1e-12);
    EXPECT_NEAR(flow->discharge.estimate.expanded(), 0.01 * std::log(2.0), 1e-9);
    EXPECT_TRUE(has_code(flow->findings, "flow.few_spots"));
}

TEST(Transfer, SpotsThatAgreeLessenTheDoubtAndScatterKeepsIt) {
    const auto spots = [](double spread) {
        std::vector<SpotRatio> all;
        for (int i = -2; i <= 2; ++i)
            all.push_back({{0.05 * std::exp(spread * i), 0.0}, {1.0, 0.0}});
        return transfer_by_spots(all, {1.0, 0.0});
    };
    const auto close = spots(0.02);
    const auto wide = spots(0.8);
    ASSERT_TRUE(close.ok() && wide.ok());
    EXPECT_NEAR(close->discharge.estimate.value, 0.05, 1e-12);
    EXPECT_NEAR(wide->discharge.estimate.value, 0.05, 1e-12);
    EXPECT_NEAR(close->discharge.estimate.standard_uncertainty, 0.05 * std::log(2.0) / 2.0 / std::sqrt(5.0), 1e-9);
    EXPECT_GT(wide->discharge.estimate.standard_uncertainty, 0.5 * 0.05);
    EXPECT_FALSE(has_code(close->findings, "flow.few_spots"));
}

TEST(Transfer, SpecificYield) {
    const auto flow = flow_from_yield({5e-9, 1e-9}, {8e6, 4e5}); // 5 L/s and km2, 8 km2
    ASSERT_TRUE(flow.ok());
    EXPECT_NEAR(flow->discharge.estimate.value, 0.04, 1e-12);
    EXPECT_NEAR(flow->discharge.estimate.standard_uncertainty, 0.04 * std::sqrt(0.2 * 0.2 + 0.05 * 0.05 + 0.4 * 0.4),
                1e-9);
    EXPECT_EQ(flow->discharge.budget.at(0).input, "flow.transfer_method");
}

TEST(Transfer, BadInput) {
    for (const double bad : {0.0, -1.0, kNaN, 1e20}) {
        EXPECT_EQ(transfer_by_area({{0.3, 0.0}, {bad, 0.0}, {1e7, 0.0}}).error().code, "flow.bad_option");
        EXPECT_EQ(transfer_by_area({{0.3, 0.0}, {1e7, 0.0}, {bad, 0.0}}).error().code, "flow.bad_option");
        EXPECT_EQ(flow_from_yield({5e-9, 0.0}, {bad, 0.0}).error().code, "flow.bad_option");
        EXPECT_EQ(transfer_by_spots({{{bad, 0.0}, {1.0, 0.0}}}, {1.0, 0.0}).error().code, "flow.bad_spot");
    }
    EXPECT_EQ(transfer_by_area({{-0.3, 0.0}, {1e7, 0.0}, {1e7, 0.0}}).error().code, "flow.bad_option");
    EXPECT_EQ(transfer_by_area({{0.3, 0.0}, {1e7, 9e6}, {1e7, 0.0}}).error().code, "flow.bad_option");
    EXPECT_EQ(transfer_by_area({{0.3, 0.0}, {1e7, 0.0}, {1e7, 0.0}, {kNaN, 0.1}}).error().code, "flow.bad_option");
    EXPECT_EQ(transfer_by_spots({}, {1.0, 0.0}).error().code, "flow.no_spots");
    EXPECT_EQ(transfer_by_spots({{{1.0, 0.9}, {1.0, 0.0}}}, {1.0, 0.0}).error().code, "flow.bad_spot");
    EXPECT_EQ(flow_from_yield({1.0, 0.0}, {8e6, 0.0}).error().code, "flow.bad_option");
}

} // namespace
} // namespace rillmark
