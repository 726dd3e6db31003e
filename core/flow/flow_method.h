// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace rillmark {

/// Ways to measure a discharge.
enum class FlowMethod : std::uint8_t { Container, VelocityArea, Float, SaltSlug, ConstantRate, Weir, Flume, SlopeArea };

/// What every part of the program needs to know of a method. A new method is one line of the table in flow_method.cpp.
struct FlowMethodInfo {
    FlowMethod method;
    std::string_view id;        // stored in the project file and typed at the desk command; never changed
    std::string_view name_code; // worded by the UI
    bool for_power = true;      // false: gives a flood, and is not offered as a flow to design a plant on
};

/// All methods, in the order in which they are offered.
[[nodiscard]] std::span<const FlowMethodInfo> flow_methods();

/// The line of one method.
[[nodiscard]] const FlowMethodInfo& flow_method_info(FlowMethod method);

/// The method with this id, or nothing.
[[nodiscard]] std::optional<FlowMethod> flow_method_from_id(std::string_view id);

} // namespace rillmark
