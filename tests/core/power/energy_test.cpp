// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/energy.h"

#include "power_checks.h"

#include <limits>

namespace rillmark {
namespace {

using power_checks::expect;

nlohmann::json entry(const std::string& id) {
    return checks::entry("turbine", id);
}
double in(const nlohmann::json& check, const char* key) {
    return check.at("inputs").at(key);
}

/// A plant of constant head and efficiency.
EnergyPlant plain(double design_m3s, double head_m, double efficiency) {
    EnergyPlant plant;
    plant.design_flow_m3s = design_m3s;
    plant.net_head_m = [head_m](double) { return head_m; };
    plant.turbine_efficiency = [](double) { return 1.0; };
    plant.other_efficiency = efficiency;
    plant.density_kgm3 = 1000.0;
    plant.gravity_ms2 = 9.81;
    return plant;
}
/// Three years of a stream that swings between 0.02 and 0.18 m3/s, a little richer each year.
std::vector<FlowDay> three_years() {
    static constexpr unsigned kDays[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    std::vector<FlowDay> days;
    for (int year = 2001; year <= 2003; ++year)
        for (unsigned month = 1; month <= 12; ++month)
            for (unsigned day = 0; day < kDays[month - 1]; ++day)
                days.push_back({year, month, (0.1 - 0.08 * std::cos(month / 6.0 * 3.14159)) * (1.0 + 0.05 * (year - 2002))});
    return days;
}
std::vector<DurationPoint> check_curve(const nlohmann::json& check) {
    std::vector<DurationPoint> curve;
    for (std::size_t i = 0; i < check["inputs"]["exceedance"].size(); ++i)
        curve.push_back({check["inputs"]["exceedance"][i], check["inputs"]["Q_m3s"][i]});
    return curve;
}

TEST(Energy, DurationCurveComputedCase) {
    const auto check = entry("EN-06");
    EnergyPlant plant = plain(in(check, "design_m3s"), in(check, "H_net_m"), in(check, "eta"));
    plant.leave.fixed_m3s = in(check, "residual_m3s");
    plant.smallest_flow = in(check, "min_turbine_m3s") / in(check, "design_m3s");
    const EnergyYear year = energy_of_duration(check_curve(check), plant).value();
    expect(check, "P_rated_kW", year.rated_W / 1e3);
    expect(check, "E_MWh", year.energy_J.estimate.value / 3.6e9);
    expect(check, "capacity_factor", year.capacity_factor.value);
    EXPECT_EQ(year.energy_J.estimate.standard_uncertainty, 0.0);
}

TEST(Energy, FlowForALoadFactorFromATextbook) {
    const auto check = entry("EN-03");
    const auto load_factor = [&](double flow_m3s) {
        // the flow that would give the whole capacity is the design flow
        const double design = in(check, "capacity_kW") * 1e3 / (9810.0 * in(check, "H_m") * in(check, "eta"));
        const DurationPoint even[] = {{0.0, flow_m3s}, {1.0, flow_m3s}};
        return energy_of_duration(even, plain(design, in(check, "H_m"), in(check, "eta"))).value().capacity_factor.value;
    };
    expect(check, "load_factor_2", load_factor(in(check, "Q2_m3s")));
    EXPECT_NEAR(load_factor(check["expected"]["Q_m3s"]), in(check, "load_factor"), 0.001 * in(check, "load_factor"));
}

TEST(Energy, LossAndFlowShareTheUncertaintyOfTheFlow) {
    const auto check = entry("UN-04");
    const double flow = in(check, "Q_m3s");
    EnergyPlant plant = plain(2.0 * flow, 1.0, in(check, "eta"));
    plant.net_head_m = [&](double q) { return in(check, "dz_m") - in(check, "h_loss_m") * q * q / (flow * flow); };
    plant.u_flow = in(check, "u_Q_m3s") / flow;
    plant.u_head = in(check, "u_dz_m") / (in(check, "dz_m") - in(check, "h_loss_m"));
    plant.u_efficiency = in(check, "u_eta") / in(check, "eta");
    const DurationPoint even[] = {{0.0, flow}, {1.0, flow}};
    const EnergyYear year = energy_of_duration(even, plant).value();
    expect(check, "P_kW", year.energy_J.estimate.value / kEnergyYear_s / 1e3);
    expect(check, "u_P_kW", year.energy_J.estimate.standard_uncertainty / kEnergyYear_s / 1e3);
}

TEST(Energy, MonthsMakeTheYear) {
    EnergyPlant plant = plain(0.12, 30.0, 0.6);
    plant.leave.fixed_m3s = 0.03;
    plant.smallest_flow = 0.2;
    const std::vector<FlowDay> days = three_years();
    const EnergyYear year = energy_of_days(days, plant).value();
    double sum_J = 0.0;
    for (const auto& month : year.months)
        sum_J += month.value().energy_J;
    EXPECT_NEAR(sum_J, year.energy_J.estimate.value, 1e-9 * sum_J);
    EXPECT_EQ(year.months[1]->days, 84u);
    // flow 0.1 - 0.08 cos: months 1, 11 and 12 are at 0.031 and less, so nothing is left above 0.024 m3/s
    EXPECT_EQ(year.months_without_power, 3u);
    EXPECT_GT(year.capacity_factor.value, 0.0);
    EXPECT_LT(year.capacity_factor.value, 1.0);
    EXPECT_EQ(year.full_years, 3u);
    ASSERT_TRUE(year.year_spread_J.has_value());
    EXPECT_GT(*year.year_spread_J, 0.0);
}

TEST(Energy, AnUnevenRecordDoesNotCountASeasonTwice) {
    std::vector<FlowDay> days = three_years();
    const EnergyPlant plant = plain(0.3, 30.0, 0.6);
    const double even_J = energy_of_days(days, plant).value().energy_J.estimate.value;
    for (int twice = 0; twice < 31; ++twice)
        for (int year = 2001; year <= 2003; ++year)
            days.push_back({year, 7, (0.1 - 0.08 * std::cos(7 / 6.0 * 3.14159)) * (1.0 + 0.05 * (year - 2002))});
    EXPECT_NEAR(energy_of_days(days, plant).value().energy_J.estimate.value, even_J, 1e-9 * even_J);
}

TEST(Energy, MoreFlowToLeaveOrLossNeverGivesMore) {
    const std::vector<FlowDay> days = three_years();
    double before_J = std::numeric_limits<double>::infinity();
    for (const double leave : {0.0, 0.01, 0.05, 0.1}) {
        EnergyPlant plant = plain(0.12, 30.0, 0.6);
        plant.leave.fixed_m3s = leave;
        const double energy_J = energy_of_days(days, plant).value().energy_J.estimate.value;
        EXPECT_LT(energy_J, before_J);
        before_J = energy_J;
    }
    EnergyPlant dry = plain(0.12, 30.0, 0.6);
    dry.leave.fixed_m3s = 1.0;
    const EnergyYear year = energy_of_days(days, dry).value();
    EXPECT_EQ(year.energy_J.estimate.value, 0.0);
    EXPECT_EQ(year.months_without_power, 12u);
    EXPECT_EQ(year.running, 0.0);
}

TEST(Energy, EachRuleLeavesItsPartOfEveryDay) {
    // half of every flow, against a stream of half the flow
    std::vector<FlowDay> days = three_years();
    EnergyPlant plant = plain(0.05, 30.0, 0.6);
    plant.leave.rule = LeaveRule::ShareOfFlow;
    plant.leave.share = 0.5;
    const double shared_J = energy_of_days(days, plant).value().energy_J.estimate.value;
    for (FlowDay& day : days)
        day.flow_m3s *= 0.5;
    EXPECT_NEAR(energy_of_days(days, plain(0.05, 30.0, 0.6)).value().energy_J.estimate.value, shared_J, 1e-9 * shared_J);

    // a share of Q95 is a fixed flow, and a table of twelve equal months too
    days = three_years();
    EnergyPlant fixed = plain(0.12, 30.0, 0.6);
    fixed.leave.fixed_m3s = 0.03;
    const double fixed_J = energy_of_days(days, fixed).value().energy_J.estimate.value;
    EnergyPlant of_q95 = plain(0.12, 30.0, 0.6);
    of_q95.leave.rule = LeaveRule::ShareOfQ95;
    of_q95.leave.share = 1.5;
    EXPECT_EQ(energy_of_days(days, of_q95).error().code, "flow.q95_unknown");
    of_q95.q95_m3s = 0.02;
    EXPECT_NEAR(energy_of_days(days, of_q95).value().energy_J.estimate.value, fixed_J, 1e-9 * fixed_J);
    EnergyPlant monthly = plain(0.12, 30.0, 0.6);
    monthly.leave.rule = LeaveRule::Monthly;
    monthly.leave.monthly_m3s.fill(0.03);
    EXPECT_NEAR(energy_of_days(days, monthly).value().energy_J.estimate.value, fixed_J, 1e-9 * fixed_J);

    // and a month that leaves all has no power, the others what they had
    monthly.leave.monthly_m3s[5] = 10.0;
    const EnergyYear year = energy_of_days(days, monthly).value();
    EXPECT_EQ(year.months[5]->energy_J, 0.0);
    EXPECT_EQ(year.months[6]->energy_J, energy_of_days(days, fixed).value().months[6]->energy_J);
    EXPECT_EQ(power_at_flow_W(monthly, 0.2, 6).value(), 0.0);
    EXPECT_GT(power_at_flow_W(monthly, 0.2, 7).value(), 0.0);
    EXPECT_NEAR(turbine_flow_m3s(monthly, 0.1, 7).value(), 0.07, 1e-15);
    EXPECT_FALSE(power_at_flow_W(monthly, 0.2, 13));
    const DurationPoint even[] = {{0.0, 0.1}, {1.0, 0.1}};
    EXPECT_EQ(energy_of_duration(even, monthly).error().code, "power.leave_by_month");
}

TEST(Energy, PowerAtAFlow) {
    EnergyPlant plant = plain(0.1, 20.0, 0.5);
    plant.leave.fixed_m3s = 0.05;
    plant.smallest_flow = 0.2;
    EXPECT_NEAR(power_at_flow_W(plant, 0.1).value(), 1000.0 * 9.81 * 0.05 * 20.0 * 0.5, 1e-9);
    EXPECT_NEAR(power_at_flow_W(plant, 9.0).value(), 1000.0 * 9.81 * 0.1 * 20.0 * 0.5, 1e-9);
    EXPECT_EQ(power_at_flow_W(plant, 0.0699).value(), 0.0);
    EXPECT_EQ(power_at_flow_W(plant, 0.0).value(), 0.0);
    plant.net_head_m = [](double) { return -3.0; };
    EXPECT_EQ(power_at_flow_W(plant, 0.1).value(), 0.0);
    EXPECT_EQ(energy_of_days(three_years(), plant).error().code, "power.no_rated_power");
}

TEST(Energy, KneeOfTheDesignCurve) {
    // Flow 0.1 for half the time, 0.01 for the other: the energy rises steeply to 0.01 and half as steeply to 0.1, then stays.
    std::vector<double> flows;
    for (int i = 1; i <= 20; ++i)
        flows.push_back(0.01 * i);
    const DurationPoint curve[] = {{0.0, 0.1}, {0.4999999, 0.1}, {0.5000001, 0.01}, {1.0, 0.01}};
    const DesignCurve found = design_curve(curve, plain(1.0, 20.0, 0.6), flows).value();
    ASSERT_TRUE(found.knee.has_value());
    EXPECT_NEAR(found.points[*found.knee].design_flow_m3s, 0.1, 1e-9);
    for (std::size_t i = 1; i < found.points.size(); ++i) {
        EXPECT_GE(found.points[i].energy_J, found.points[i - 1].energy_J * (1.0 - 1e-12));
        EXPECT_LT(found.points[i].capacity_factor, found.points[i - 1].capacity_factor);
    }
    // More water than any design flow: a straight line has no knee.
    const DurationPoint plenty[] = {{0.0, 5.0}, {1.0, 5.0}};
    EXPECT_FALSE(design_curve(plenty, plain(1.0, 20.0, 0.6), flows).value().knee);
    const double bad[] = {0.1, 0.1, 0.2};
    EXPECT_EQ(design_curve(curve, plain(1.0, 20.0, 0.6), bad).error().code, "power.bad_design_flows");
    EXPECT_EQ(design_curve(curve, plain(1.0, 20.0, 0.6), std::span(bad).first(2)).error().code, "power.bad_design_flows");
    EXPECT_EQ(design_curve(three_years(), plain(1.0, 20.0, 0.6), flows).value().points.size(), 20u);
}

TEST(Energy, SaysWhatTheRecordLacks) {
    const EnergyPlant plant = plain(0.12, 30.0, 0.6);
    const auto has = [](const EnergyYear& year, const char* code) {
        return std::ranges::find(year.findings, code, &Finding::code) != year.findings.end();
    };
    std::vector<FlowDay> few;
    for (unsigned month = 1; month <= 12; ++month)
        few.push_back({2001, month, 0.1});
    const EnergyYear year = energy_of_days(few, plant).value();
    EXPECT_TRUE(has(year, "power.month_thin"));
    EXPECT_TRUE(has(year, "power.record_short"));
    EXPECT_FALSE(has(year, "power.months_without_power"));
    EXPECT_FALSE(year.year_spread_J);
    EXPECT_FALSE(has(energy_of_days(three_years(), plant).value(), "power.month_thin"));
    few.pop_back();
    EXPECT_EQ(energy_of_days(few, plant).error().code, "power.month_missing");
    few.push_back({2001, 13, 0.1});
    EXPECT_EQ(energy_of_days(few, plant).error().code, "power.bad_month");
    EXPECT_EQ(energy_of_days({}, plant).error().code, "power.no_flows");
}

TEST(Energy, RefusesNonsense) {
    const std::vector<FlowDay> days = three_years();
    for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity(), -1.0}) {
        EnergyPlant plant = plain(bad, 30.0, 0.6);
        EXPECT_FALSE(energy_of_days(days, plant));
        plant = plain(0.1, 30.0, bad);
        EXPECT_FALSE(energy_of_days(days, plant));
        plant = plain(0.1, 30.0, 0.6);
        plant.leave.fixed_m3s = bad;
        EXPECT_FALSE(energy_of_days(days, plant));
        plant = plain(0.1, 30.0, 0.6);
        plant.u_flow = bad;
        EXPECT_FALSE(energy_of_days(days, plant));
        std::vector<FlowDay> wrong = days;
        wrong[5].flow_m3s = bad;
        EXPECT_FALSE(energy_of_days(wrong, plain(0.1, 30.0, 0.6)));
        EXPECT_FALSE(power_at_flow_W(plain(0.1, 30.0, 0.6), bad));
    }
    EXPECT_EQ(energy_of_days(days, plain(0.1, std::nan(""), 0.6)).error().code, "uncertainty.not_finite");
    EXPECT_EQ(energy_of_days(days, plain(0.1, 30.0, 1.1)).error().code, "power.ratio_above_one");
    EXPECT_EQ(energy_of_days(days, EnergyPlant{}).error().code, "power.plant_incomplete");
    const DurationPoint rising[] = {{0.0, 0.1}, {1.0, 0.2}};
    EXPECT_EQ(energy_of_duration(rising, plain(0.1, 30.0, 0.6)).error().code, "power.bad_duration_curve");
    const DurationPoint back[] = {{0.5, 0.2}, {0.5, 0.1}};
    EXPECT_EQ(energy_of_duration(back, plain(0.1, 30.0, 0.6)).error().code, "power.bad_duration_curve");
    const DurationPoint beyond[] = {{0.0, 0.2}, {95.0, 0.1}};
    EXPECT_EQ(energy_of_duration(beyond, plain(0.1, 30.0, 0.6)).error().code, "power.ratio_above_one");
}

} // namespace
} // namespace rillmark
