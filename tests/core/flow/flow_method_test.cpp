// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/flow_method.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace rillmark {
namespace {

TEST(FlowMethodTable, EveryIdLeadsBackToItsMethod) {
    std::set<std::string> ids;
    for (const FlowMethodInfo& info : flow_methods()) {
        EXPECT_EQ(flow_method_from_id(info.id), info.method);
        EXPECT_EQ(flow_method_info(info.method).id, info.id);
        EXPECT_TRUE(info.name_code.starts_with("flow.method_"));
        ids.emplace(info.id);
    }
    EXPECT_EQ(ids.size(), flow_methods().size());
    EXPECT_TRUE(ids.contains("container"));
    EXPECT_TRUE(ids.contains("velocity-area"));
}

TEST(FlowMethodTable, UnknownIds) {
    EXPECT_FALSE(flow_method_from_id("").has_value());
    EXPECT_FALSE(flow_method_from_id("Container").has_value());
}

} // namespace
} // namespace rillmark
