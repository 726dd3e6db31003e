// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "finding.h"
#include "flow/conductivity_temperature.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace rillmark {

/// One reading of a conductivity probe while the salt goes by.
struct TraceReading {
    double time_s = 0.0;                    // of the day or from any zero; -1e7 to 1e7
    std::optional<double> ec_Sm;            // as read; none or not finite: a reading that is missing
    std::optional<double> temperature_degC; // needed to correct for temperature
    bool struck = false;
};

/// What became of a reading.
enum class ReadingMark : std::uint8_t { Used, Struck, Missing, Zero, OverRange, Spike, Repeated };

struct TraceOptions {
    ConductivityCorrection correction = ConductivityCorrection::AsRead;
    double alpha_per_K = kSaltAlpha_per_K;
    /// Readings at or above this are no readings. None: only the codes 999, 1999, 9999 and 19999 uS/cm, exactly, where
    /// they stand at more than twice the median (seen in published traces: 999).
    std::optional<double> over_range_Sm;
};

/// A trace that has been cleaned once; integrate_trace can then be called again and again. Made by prepare_trace.
struct PreparedTrace {
    std::vector<ReadingMark> marks; // one a reading given
    // The readings used, by rising time.
    std::vector<double> time_s;
    std::vector<double> ec_Sm;
    std::vector<double> area_so_far_Ss_m;  // trapezoids of ec - base from the first reading to each
    std::vector<double> squares_so_far_s2; // sum of the squared weights of the readings before each
    double base_Sm = 0.0;                  // the first reading, taken off to keep the sums small
    double noise_Sm = 0.0;                 // standard deviation of one reading, from second differences
    double resolution_Sm = 0.0;            // smallest step between readings
    Findings findings;
};

// Our own choice. A spike is one or two readings that stand out from both neighbours by more than 3 times what the
// neighbourhood changes, plus 8 times the noise or 3 % of the level.
inline constexpr double kSpikeOverChange = 3.0;
inline constexpr double kSpikeOverNoise = 8.0;
inline constexpr double kSpikeOverLevel = 0.03;
inline constexpr std::size_t kShortestTrace = 5;
inline constexpr std::size_t kLongestTrace = 1'000'000;

/// Cleans a trace: corrects it for temperature, marks and leaves out what is no reading, unwraps midnight.
///
/// Left out, with a mark: struck, missing, at or below zero, over the range, spikes, and a second reading at one time.
/// What is left out is bridged by the straight line between its neighbours. A fall of the time by more than 12 h within
/// 0 to 24 h is taken as midnight and noted; times may be unequal. Cost: a few passes, and sums that make every later
/// integration a matter of microseconds.
///
/// Notes: readings left out (`flow.readings_left_out`), midnight (`flow.trace_midnight`). Warns of readings over the
/// range at the top of the peak (`flow.trace_clipped`). Refuses: fewer than 5 readings left (`flow.trace_too_short`),
/// more than a million (`flow.trace_too_long`), times that run backwards (`flow.trace_time_backwards`) or are not
/// finite (`flow.bad_trace_time`), a temperature that is missing or out of range where it is needed
/// (`flow.bad_water_temperature`), readings above 20 S/m (`flow.bad_conductivity`), bad options. Each names the row.
[[nodiscard]] Expected<PreparedTrace> prepare_trace(const std::vector<TraceReading>& readings,
                                                    const TraceOptions& options = {});

struct TimeWindow {
    double from_s = 0.0;
    double to_s = 0.0;
};

/// Where the salt goes by, and where the background is read. At least one of the two backgrounds is needed.
struct TraceWindows {
    double start_s = 0.0;
    double end_s = 0.0;
    std::optional<TimeWindow> before;
    std::optional<TimeWindow> after;
};

/// Start and end of the salt as a person would set them, to be looked at and changed.
///
/// From the peak (of the running median of three) out to where three readings lie within 3 times the noise, half a per
/// cent of the rise, or one step of the display of the background; then a tenth of that time further on either side, at
/// most half-way to the end of the trace and into the last tenth after the peak. The background there is the line from
/// the median of the first tenth before the peak to that of the last tenth after it; the windows of the backgrounds are
/// all that is before and after. Our own rule.
[[nodiscard]] TraceWindows suggest_windows(const PreparedTrace& trace);

/// The area under a trace above its background, and what it rests on.
struct TraceIntegral {
    double area_Ss_m = 0.0;    // S s/m
    double noise_u = 0.0;      // standard uncertainties of the area: noise of the readings,
    double background_u = 0.0; // of the background's level,
    double drift_u = 0.0;      // of the shape of its drift
    double background_start_Sm = 0.0;
    double background_end_Sm = 0.0;
    double peak_rise_Sm = 0.0;
    double peak_Sm = 0.0;
    double peak_time_s = 0.0;
    double above_s = 0.0; // time for which the rise is above kCountedRise_Sm
    Findings findings;
};

// ETH Zurich VAW, glacier field course, field rules: rise of at least 10 uS/cm, 15 s above 5 uS/cm, 1 s logging, no
// more than 200 uS/cm (taken here of the rise: many streams have that as background).
inline constexpr double kSmallestRise_Sm = 0.001;
inline constexpr double kCountedRise_Sm = 0.0005;
inline constexpr double kShortestAbove_s = 15.0;
inline constexpr double kGoodInterval_s = 1.0;
inline constexpr double kLargestRise_Sm = 0.02;
// Our own choice: what stands at an end of the window, as a part of the peak's rise, that is warned of.
inline constexpr double kLargeRestAtEnd = 0.02;
// Our own choice: the longest gap, as a part of the time from start to end, that is warned of.
inline constexpr double kLargeGap = 0.1;

/// Integrates a prepared trace: trapezoids of the readings less the background.
///
/// Background: the time-weighted mean over each window; with two windows the line through their middles, with one a
/// constant (noted). Start and end may lie between readings. Uncertainty: noise, from each reading's weight (white
/// noise is assumed; the resolution counts as rectangular where it is larger); level of the background, from its
/// scatter and the resolution; its drift, taken as monotone and of unknown shape: triangular, half-width half of the
/// drift times the time. Accuracy of the arithmetic: 1e-12 of the area.
///
/// Warns: the tail still runs (`flow.tail_running`), a start or end on the salt (`flow.start_on_salt`,
/// `flow.end_on_salt`), a gap
/// (`flow.trace_gap`), the rules above (`flow.rise_small`, `flow.peak_brief`); notes `flow.rise_large`,
/// `flow.logging_slow`, `flow.background_one_side`.
/// Refuses windows outside the trace or out of order (`flow.bad_window`), no background (`flow.no_background`), a rise
/// that does not stand out of noise and resolution (`flow.no_peak`), a trace that ends before it falls
/// (`flow.peak_not_passed`).
[[nodiscard]] Expected<TraceIntegral> integrate_trace(const PreparedTrace& trace, const TraceWindows& windows);

} // namespace rillmark
