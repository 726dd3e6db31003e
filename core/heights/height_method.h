// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace rillmark {

/// Ways to measure a fall beside the level book.
enum class HeightMethod : std::uint8_t {
    TwoPeg,
    Reciprocal,
    HandLevel,
    Clinometer,
    Zenith,
    WaterTube,
    HoseGauge,
    Barometer,
    BaseAndRover,
    KnownHeight,
    Tape,
};

/// The points that one reading belongs to.
enum class ReadingEnds : std::uint8_t { None, One, Two };

/// What every part of the program needs to know of a method. A new method is one line of the table in height_method.cpp.
struct HeightMethodInfo {
    HeightMethod method;
    std::string_view id;        // stored in the project file; never changed
    std::string_view name_code; // worded by the UI
    ReadingEnds ends;
};

/// All methods, in the order in which they are offered.
[[nodiscard]] std::span<const HeightMethodInfo> height_methods();
[[nodiscard]] const HeightMethodInfo& height_method_info(HeightMethod method);
/// How it is done, and where someone can be hurt: codes, worded by the UI.
[[nodiscard]] std::string height_advice_code(HeightMethod method);
[[nodiscard]] std::string height_caution_code(HeightMethod method);
/// The method with this id, or nothing.
[[nodiscard]] std::optional<HeightMethod> height_method_from_id(std::string_view id);

} // namespace rillmark
