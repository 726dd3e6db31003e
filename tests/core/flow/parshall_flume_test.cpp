// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/parshall_flume.h"

#include "checks/checks.h"
#include "checks/coverage.h"
#include "flow_fixtures.h"
#include "structures_fixtures.h"
#include "units/units.h"

#include <set>
#include <string>

namespace rillmark {
namespace {

using flow_fixtures::has_code;
using flow_fixtures::kInfinity;
using flow_fixtures::kNaN;
using structures_fixtures::heads;

const double kFoot_m = find_unit(Quantity::Length, "ft")->factor;
const double kCubicFoot_m3 = kFoot_m * kFoot_m * kFoot_m;

double flow_of(const std::string& size, double head_m) {
    const auto result = parshall_flume(size, heads({head_m}));
    EXPECT_TRUE(result.ok()) << size;
    return result.ok() ? result->flow.discharge.estimate.value : kNaN;
}

void expect_close(double value, double expected, double relative, const std::string& what) {
    EXPECT_NEAR(value, expected, relative * expected) << what;
}

std::string without_space(std::string text) {
    std::erase(text, ' ');
    return text;
}

// 1 in and 2 in are from memory, unconfirmed.
TEST(FlumeChecks, SizesInFeet) {
    const auto check = checks::entry("flow_structures", "parshall-usbr-table");
    const std::vector<double> head_ft = check["inputs"]["head_ft"];
    for (const auto& [size, flows] : check["expected"]["discharge_ft3_s"].items())
        for (std::size_t i = 0; i < head_ft.size(); ++i)
            expect_close(flow_of("us-" + without_space(size), head_ft[i] * kFoot_m) / kCubicFoot_m3, flows[i],
                         check["tolerance"]["relative"], size);
}

// All but 0.152 and 2.40 m are from memory, unconfirmed.
TEST(FlumeChecks, SizesInMetres) {
    const auto check = checks::entry("flow_structures", "parshall-iso9826");
    const std::vector<double> head_m = check["inputs"]["head_m"];
    for (const auto& [size, flows] : check["expected"]["discharge_L_s"].items())
        for (std::size_t i = 0; i < head_m.size(); ++i)
            expect_close(1000.0 * flow_of("iso-" + size, head_m[i]), flows[i], check["tolerance"]["relative"], size);
    const auto largest = checks::entry("flow_structures", "parshall-iso-2.40");
    const std::vector<double> heads_m = largest["inputs"]["head_m"];
    for (std::size_t i = 0; i < heads_m.size(); ++i)
        expect_close(1000.0 * flow_of("iso-2.40", heads_m[i]), largest["expected"]["discharge_L_s"][i],
                     largest["tolerance"]["relative"], "2.40");
}

TEST(FlumeChecks, FormulaOfOneToEightFeet) {
    const auto check = checks::entry("flow_structures", "parshall-1-8ft-formula");
    const std::vector<double> head_ft = check["inputs"]["head_ft"];
    const auto id = [](const std::string& feet) { return "us-" + feet + "ft"; };
    for (const auto& [feet, power] : check["expected"]["exponent"].items()) {
        const FlumeSize* const size = find_flume_size(id(feet));
        ASSERT_NE(size, nullptr) << feet;
        EXPECT_NEAR(size->power, power.get<double>(), 0.0005 + 1e-9) << feet; // the table is rounded to three places
        EXPECT_DOUBLE_EQ(size->coefficient, 4.0 * std::stod(feet));
    }
    for (const std::string feet : {"10", "12"})
        for (std::size_t i = 0; i < head_ft.size(); ++i)
            expect_close(find_flume_size(id(feet))->free_flow_m3s(head_ft[i] * kFoot_m) / kCubicFoot_m3,
                         check["expected"]["discharge_ft3_s"][feet][i], check["tolerance"]["relative"], feet);
}

TEST(FlumeChecks, ThreeInches) {
    const auto check = checks::entry("flow_structures", "parshall-3in-two-forms");
    const std::vector<double> head_m = check["inputs"]["head_m"];
    double largest_pct = 0.0;
    for (std::size_t i = 0; i < head_m.size(); ++i) {
        const double ours_L_s = 1000.0 * flow_of("us-3in", head_m[i]);
        expect_close(ours_L_s, check["expected"]["US_form_L_s"][i], check["tolerance"]["relative"], "3 in");
        largest_pct =
            std::max(largest_pct, 100.0 * (ours_L_s / check["expected"]["SI_form_L_s"][i].get<double>() - 1.0));
    }
    EXPECT_NEAR(largest_pct, check["expected"]["max_difference_pct"].get<double>(),
                check["tolerance"]["max_difference_pct"]["abs"].get<double>());
}

TEST(FlumeChecks, LimitsOfFreeFlow) {
    const auto out = checks::entry("flow_structures", "parshall-submergence-limits")["expected"];
    const auto limit = [](const char* id) { return find_flume_size(id)->submergence_limit; };
    for (const char* id : {"us-1in", "us-2in", "us-3in"})
        EXPECT_EQ(limit(id), out["limit_1_to_3_in"].get<double>());
    for (const char* id : {"us-6in", "us-9in"}) // from memory, unconfirmed
        EXPECT_EQ(limit(id), out["limit_6_9_in"].get<double>());
    for (const char* id : {"us-1ft", "us-4ft", "us-8ft", "iso-1.00", "iso-2.40"})
        EXPECT_EQ(limit(id), out["limit_1_to_8_ft"].get<double>());
    EXPECT_EQ(limit("us-12ft"), out["limit_10_to_50_ft"].get<double>());
}

TEST(ParshallFlume, SizesAreOrderedAndDistinct) {
    std::set<std::string_view> ids;
    double throat_before_m = 0.0;
    bool in_feet = true;
    for (const FlumeSize& size : flume_sizes()) {
        EXPECT_TRUE(ids.insert(size.id).second);
        if (size.in_feet != in_feet)
            throat_before_m = 0.0;
        in_feet = size.in_feet;
        EXPECT_GT(size.throat_m(), throat_before_m) << size.id;
        throat_before_m = size.throat_m();
        EXPECT_LT(size.least_head_m(), size.greatest_head_m()) << size.id;
        // a wider throat passes more at the same head
        const double per_width = size.free_flow_m3s(0.3) / size.throat_m();
        EXPECT_GT(per_width, 0.3) << size.id;
        EXPECT_LT(per_width, 0.45) << size.id;
    }
}

TEST(ParshallFlume, FindingsAndMethod) {
    FlumeOptions options;
    options.downstream_head_m = 0.1;
    const auto good = parshall_flume("us-6in", heads({0.2, 0.2, 0.2}), options);
    ASSERT_TRUE(good.ok());
    EXPECT_TRUE(good->flow.findings.empty());
    EXPECT_EQ(good->flow.method, FlowMethod::Flume);
    EXPECT_DOUBLE_EQ(*good->submergence, 0.5);
    EXPECT_NEAR(structures_fixtures::share_sum(good->flow.discharge), 1.0, 1e-12);
    EXPECT_TRUE(has_code(parshall_flume("us-6in", heads({0.02}))->flow.findings, "flow.flume_head_low"));
    EXPECT_TRUE(has_code(parshall_flume("us-6in", heads({0.6}))->flow.findings, "flow.flume_head_high"));
    EXPECT_TRUE(has_code(parshall_flume("us-1in", heads({0.1}))->flow.findings, "flow.flume_unconfirmed"));
    EXPECT_TRUE(has_code(parshall_flume("us-6in", heads({0.2}))->flow.findings, "flow.flume_downstream_unknown"));
    options = {};
    options.throat_m = 0.30;
    EXPECT_TRUE(has_code(parshall_flume("us-1ft", heads({0.2}), options)->flow.findings, "flow.flume_throat_off"));
}

TEST(ParshallFlume, FlowIsInProportionToTheThroat) {
    FlumeOptions options;
    options.throat_m = 0.60 * 1.02;
    const auto wide = parshall_flume("iso-0.60", heads({0.3}), options);
    ASSERT_TRUE(wide.ok());
    EXPECT_NEAR(wide->flow.discharge.estimate.value, 1.02 * flow_of("iso-0.60", 0.3), 1e-12);
}

TEST(ParshallFlume, BadInput) {
    const auto refused = [](const std::string& size, const std::vector<double>& head_m,
                            const FlumeOptions& options = {}) {
        const auto result = parshall_flume(size, heads(head_m), options);
        EXPECT_FALSE(result.ok());
        return result.ok() ? std::string() : result.error().code;
    };
    EXPECT_EQ(refused("", {0.2}), "flow.flume_unknown");
    EXPECT_EQ(refused("us-11ft", {0.2}), "flow.flume_unknown");
    EXPECT_EQ(refused("us-6in", {}), "flow.no_heads");
    for (const double bad : {kNaN, kInfinity, -1e9})
        EXPECT_EQ(refused("us-6in", {bad}), "flow.bad_head");
    EXPECT_EQ(refused("us-6in", {-0.1}), "flow.head_not_positive");
    FlumeOptions options;
    options.downstream_head_m = 0.13;
    EXPECT_EQ(refused("us-6in", {0.2}, options), "flow.flume_submerged");
    options.downstream_head_m = kNaN;
    EXPECT_EQ(refused("us-6in", {0.2}, options), "flow.bad_option");
    options = {};
    options.throat_m = 0.25;
    EXPECT_EQ(refused("us-6in", {0.2}, options), "flow.flume_throat_wrong");
    options.throat_m = -1.0;
    EXPECT_EQ(refused("us-6in", {0.2}, options), "flow.bad_option");
}

TEST(ParshallFlume, ReportedUncertaintyCoversTheTruth) {
    for (const std::string id : {"us-3in", "us-1ft"})
        checks::expect_coverage(4302, [&](checks::Errors& error) {
            const FlumeSize& size = *find_flume_size(id);
            const double head_m = 0.12;
            FlumeOptions options;
            options.throat_u_m = 0.0005; // a throat off by 5 % would be refused
            const double zero_m = error.normal(options.gauge.zero_u_m);
            std::vector<double> readings;
            for (int i = 0; i < 3; ++i)
                readings.push_back(head_m + zero_m + error.normal(options.gauge.reading_u_m));
            options.throat_m = size.throat_m() + error.normal(options.throat_u_m);
            const auto result = parshall_flume(id, heads(readings), options);
            EXPECT_TRUE(result.ok());
            return checks::Simulated{size.free_flow_m3s(head_m) * (1.0 + error.normal(kFlumeCoefficient_u_rel)),
                                     result.value_or({}).flow.discharge.estimate};
        });
}

} // namespace
} // namespace rillmark
