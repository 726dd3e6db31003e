// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/flow_method.h"

#include <algorithm>

namespace rillmark {

namespace {

constexpr FlowMethodInfo kMethods[] = {
    {FlowMethod::Container, "container", "flow.method_container"},
    {FlowMethod::VelocityArea, "velocity-area", "flow.method_velocity_area"},
    {FlowMethod::Float, "float", "flow.method_float"},
    {FlowMethod::SaltSlug, "salt-slug", "flow.method_salt_slug"},
    {FlowMethod::ConstantRate, "constant-rate", "flow.method_constant_rate"},
    {FlowMethod::Weir, "weir", "flow.method_weir"},
    {FlowMethod::Flume, "flume", "flow.method_flume"},
    {FlowMethod::SlopeArea, "slope-area", "flow.method_slope_area", false},
};

} // namespace

std::span<const FlowMethodInfo> flow_methods() {
    return kMethods;
}

const FlowMethodInfo& flow_method_info(FlowMethod method) {
    const auto* hit = std::ranges::find(kMethods, method, &FlowMethodInfo::method);
    return hit == std::end(kMethods) ? kMethods[0] : *hit;
}

std::optional<FlowMethod> flow_method_from_id(std::string_view id) {
    const auto* hit = std::ranges::find(kMethods, id, &FlowMethodInfo::id);
    if (hit == std::end(kMethods))
        return std::nullopt;
    return hit->method;
}

} // namespace rillmark
