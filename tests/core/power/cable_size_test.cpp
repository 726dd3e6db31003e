// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/cable_size.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace rillmark {
namespace {

std::vector<Conductor> copper() {
    std::vector<Conductor> list;
    for (const Conductor& one : read_power_tables().value().conductors)
        if (one.material == "copper" && one.id.starts_with("iec"))
            list.push_back(one);
    return list;
}

CableDemand demand() {
    CableDemand demand;
    demand.cable.length_m = 200.0;
    demand.cable.voltage_V = 240.0;
    demand.conductor_temperature_C = 20.0; // that of the table
    demand.sent_W = 5000.0;
    demand.largest_loss = 0.05;
    return demand;
}

TEST(CableSize, TheThinnestThatKeepsTheLossWorkedByHand) {
    // r <= loss V^2 / (2 L P) = 0.05 * 240^2 / (2 * 200 * 5000) = 1.44 mohm/m: of IEC 60228, class 2, 16 mm2 has
    // 1.15 mohm/m and 10 mm2 1.83
    const SizedConductor found = conductor_for_loss(copper(), demand()).value();
    EXPECT_EQ(found.conductor.id, "iec-cu-16");
    EXPECT_NEAR(found.loss.loss_W / 5000.0, 0.05 * 1.15 / 1.44, 1e-9);
    // at 75 degC the copper has 1.22 times that and 16 mm2 still does: 1.403; with half the loss it takes 35 mm2
    CableDemand hot = demand();
    hot.conductor_temperature_C = 75.0;
    EXPECT_EQ(conductor_for_loss(copper(), hot).value().conductor.id, "iec-cu-16");
    hot.largest_loss = 0.025;
    EXPECT_EQ(conductor_for_loss(copper(), hot).value().conductor.id, "iec-cu-35"); // 0.639 against 25 mm2's 0.887
}

TEST(CableSize, NoThinnerOneWouldDoAndLessLossNeverIsThinner) {
    double before_m2 = 0.0;
    for (const double loss : {0.2, 0.1, 0.05, 0.03, 0.02, 0.01}) {
        CableDemand asked = demand();
        asked.largest_loss = loss;
        const SizedConductor found = conductor_for_loss(copper(), asked).value();
        EXPECT_LE(found.loss.loss_W, loss * asked.sent_W);
        EXPECT_GE(found.conductor.area_m2, before_m2);
        before_m2 = found.conductor.area_m2;
        std::vector<Conductor> thinner = copper();
        std::erase_if(thinner, [&](const Conductor& one) { return one.area_m2 >= found.conductor.area_m2; });
        EXPECT_EQ(conductor_for_loss(thinner, asked).error().code, "power.no_conductor_thick_enough");
    }
}

TEST(CableSize, RefusesNonsense) {
    EXPECT_EQ(conductor_for_loss({}, demand()).error().code, "power.no_conductor_thick_enough");
    for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity(), -1.0, 0.0}) {
        for (double CableDemand::*member : {&CableDemand::sent_W, &CableDemand::largest_loss}) {
            CableDemand asked = demand();
            asked.*member = bad;
            EXPECT_FALSE(conductor_for_loss(copper(), asked)) << bad;
        }
        CableDemand asked = demand();
        asked.cable.voltage_V = bad;
        EXPECT_FALSE(conductor_for_loss(copper(), asked)) << bad;
    }
    CableDemand asked = demand();
    asked.largest_loss = 0.5;
    EXPECT_EQ(conductor_for_loss(copper(), asked).error().code, "power.loss_out_of_range");
    asked = demand();
    asked.conductor_temperature_C = 200.0;
    EXPECT_EQ(conductor_for_loss(copper(), asked).error().code, "power.conductor_temperature_out_of_range");
    asked = demand();
    asked.cable.length_m = 1e7;
    EXPECT_EQ(conductor_for_loss(copper(), asked).error().code, "power.no_conductor_thick_enough");
}

} // namespace
} // namespace rillmark
