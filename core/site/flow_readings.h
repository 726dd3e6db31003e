// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/salt_trace.h"
#include "site/flow_tests.h"
#include "site/survey.h"

namespace rillmark {

/// What the readings of a flow test are for, as stored in FlowReadingRow::role.
namespace flow_role {
inline constexpr const char* kRun = "run";               // float: one timed run
inline constexpr const char* kSounding = "sounding";     // float: a depth of a section
inline constexpr const char* kTrace = "trace";           // salt slug: conductivity as the wave passes
inline constexpr const char* kAddition = "addition";     // salt slug: a step of the calibration
inline constexpr const char* kBackground = "background"; // constant rate
inline constexpr const char* kPlateau = "plateau";
inline constexpr const char* kHead = "head";             // weir, flume
inline constexpr const char* kSection = "section";       // slope-area
inline constexpr const char* kMark = "mark";
} // namespace flow_role

/// FlowTestRow::tracer of a test with dye, whose readings are concentrations.
inline constexpr const char* kDyeTracer = "dye";

/// The result of a test whose readings are in flow_reading: float, salt slug, constant rate, weir, flume, slope-area.
[[nodiscard]] TestResult flow_reading_result(const Survey& survey, const FlowTestRow& test, FlowMethod method);

/// The windows with the ends of the wave that a person chose; all before and all after it is background.
[[nodiscard]] TraceWindows windows_between(const PreparedTrace& trace, TraceWindows windows, std::optional<double> from_s,
                                           std::optional<double> to_s);

/// The trace of one probe of a salt test (0 or 1), cleaned, with the windows in use; refuses what prepare_trace and
/// integrate_trace refuse.
[[nodiscard]] Expected<SlugTrace> slug_trace(const Survey& survey, const FlowTestRow& test, std::int64_t probe);

} // namespace rillmark
