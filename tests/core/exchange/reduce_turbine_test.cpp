// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange_fixtures.h"

#include <fmt/format.h>

namespace rillmark {
namespace {

using namespace exchange_fixtures;

const std::vector<TypedParameter> kPlant{{"design_flow_L_s", "100"}, {"net_head", "30"}, {"efficiency", "60 %"}};

std::string even_year(const std::string& flow) {
    static constexpr int kDays[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    std::string csv = "date,flow_L_s\n";
    for (int month = 1; month <= 12; ++month)
        for (int day = 1; day <= kDays[month - 1]; ++day)
            csv += fmt::format("2001-{:02}-{:02},{}\n", month, day, flow);
    return csv;
}

TEST(ReduceTurbine, OneTableOfAllKinds) {
    const Reduction r = reduced("turbine", "case,net_head,flow_L_s\nupper,120,30\nlower,4,3000\n");
    ASSERT_EQ(r.tables.size(), 1u);
    const auto& rows = r.tables[0].rows;
    EXPECT_EQ(rows.size() % 2, 0u);
    const auto fit = [&](const std::string& subject, const std::string& turbine) {
        for (const auto& row : rows)
            if (std::get<std::string>(row[0]) == subject && std::get<std::string>(row[1]) == turbine)
                return std::get<std::string>(row[2]);
        return std::string();
    };
    EXPECT_EQ(fit("upper", "pelton"), "fits");
    EXPECT_EQ(fit("upper", "kaplan"), "head-too-high");
    EXPECT_EQ(fit("lower", "kaplan"), "fits");
    EXPECT_EQ(fit("lower", "crossflow"), "head-only");
    for (const auto& row : rows)
        EXPECT_EQ(row.size(), r.tables[0].columns.size());
    EXPECT_EQ(r.findings.at(0).code, "power.part_flow_unconfirmed");
    expect_refused(reduce("turbine", "net_head,flow\n0,1\n"), "power.not_positive", 2, "net_head");
    expect_refused(reduce("turbine", "net_head,flow\n10,1\n10,-1\n"), "power.not_positive", 3, "flow");
}

TEST(ReduceEnergy, EvenFlowByHand) {
    std::vector<TypedParameter> parameters = kPlant;
    parameters.push_back({"flow_to_leave_L_s", "20"});
    const Reduction r = reduced("energy", even_year("70"), parameters);
    // 50 L/s, 30 m, 0.6, 999.70 kg/m3 at 10 degC and 9.8062 m/s2 at 45 degrees, all year
    const double expected_J = 999.70 * 9.8062 * 0.05 * 30.0 * 0.6 * 8760.0 * 3600.0;
    EXPECT_NEAR(result(r, "energy").value, expected_J, 1e-4 * expected_J);
    EXPECT_NEAR(result(r, "capacity_factor").value, 0.5, 1e-9);
    // 10 % of 70 L/s is 14 % of the 50 that are taken
    EXPECT_NEAR(result(r, "energy").standard_uncertainty / result(r, "energy").value,
                std::hypot(0.14, 0.01, 0.05), 1e-3);
    EXPECT_EQ(result(r, "months_without_power").value, 0.0);
    EXPECT_EQ(r.tables.at(0).rows.size(), 12u);
    EXPECT_NEAR(result(r, "knee_flow").value, 0.05, 1e-9);
    parameters.push_back({"turbine", "propeller"}); // half flow is below what it can use
    EXPECT_EQ(result(reduced("energy", even_year("70"), parameters), "months_without_power").value, 12.0);
}

TEST(ReduceEnergy, RefusesWithThePlace) {
    const std::string head = "date,flow_L_s\n2001-01-01,70\n";
    expect_refused(reduce("energy", head + "2001-02-30,70\n", kPlant), "exchange.date_unreadable", 3, "date");
    expect_refused(reduce("energy", head + "soon,70\n", kPlant), "exchange.date_unreadable", 3, "date");
    expect_refused(reduce("energy", head + "2001-01-01,71\n", kPlant), "exchange.date_twice", 3, "date");
    expect_refused(reduce("energy", head + "2001-01-02,-1\n", kPlant), "power.negative", 3, "flow");
    EXPECT_EQ(reduce("energy", head, {{"net_head", "30"}}).error().code, "exchange.parameter_missing");
    EXPECT_EQ(reduce("energy", head, kPlant).error().code, "power.month_missing");
    std::vector<TypedParameter> parameters = kPlant;
    parameters.push_back({"turbine", "sail"});
    EXPECT_EQ(reduce("energy", even_year("70"), parameters).error().code, "power.unknown_turbine");
    EXPECT_EQ(reduce("energy", even_year("70"), {{"design_flow", "0"}, {"net_head", "30"}}).error().code,
              "power.not_positive");
}

} // namespace
} // namespace rillmark
