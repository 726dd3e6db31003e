// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/height_method.h"

#include <algorithm>

namespace rillmark {

namespace {

constexpr HeightMethodInfo kMethods[] = {
    {HeightMethod::WaterTube, "water-tube", "levels.method_water_tube", ReadingEnds::Two},
    {HeightMethod::HoseGauge, "hose-gauge", "levels.method_hose_gauge", ReadingEnds::Two},
    {HeightMethod::HandLevel, "hand-level", "levels.method_hand_level", ReadingEnds::Two},
    {HeightMethod::Clinometer, "clinometer", "levels.method_clinometer", ReadingEnds::Two},
    {HeightMethod::Zenith, "zenith", "levels.method_zenith", ReadingEnds::Two},
    {HeightMethod::Barometer, "barometer", "levels.method_barometer", ReadingEnds::One},
    {HeightMethod::BaseAndRover, "barometer-base", "levels.method_base_and_rover", ReadingEnds::One},
    {HeightMethod::Reciprocal, "reciprocal", "levels.method_reciprocal", ReadingEnds::Two},
    {HeightMethod::KnownHeight, "known-height", "levels.method_known_height", ReadingEnds::One},
    {HeightMethod::Tape, "tape", "levels.method_tape", ReadingEnds::Two},
    {HeightMethod::TwoPeg, "two-peg", "levels.method_two_peg", ReadingEnds::None},
};

} // namespace

std::span<const HeightMethodInfo> height_methods() {
    return kMethods;
}

const HeightMethodInfo& height_method_info(HeightMethod method) {
    return *std::ranges::find(kMethods, method, &HeightMethodInfo::method);
}

std::string height_advice_code(HeightMethod method) {
    return std::string(height_method_info(method).name_code) + ".advice";
}

std::string height_caution_code(HeightMethod method) {
    return std::string(height_method_info(method).name_code) + ".caution";
}

std::optional<HeightMethod> height_method_from_id(std::string_view id) {
    const auto* hit = std::ranges::find(kMethods, id, &HeightMethodInfo::id);
    return hit == std::end(kMethods) ? std::nullopt : std::optional(hit->method);
}

} // namespace rillmark
