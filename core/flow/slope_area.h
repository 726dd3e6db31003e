// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/flow_result.h"
#include "flow/settings.h"
#include "flow/surveyed_section.h"
#include "units/constants.h"

#include <cstdint>
#include <vector>

namespace rillmark {

/// A mark that the water left, or its edge while it is there.
struct HighWaterMark {
    std::int64_t id = 0;
    double distance_m = 0.0; // along the stream, as of the sections
    double height_m = 0.0;
    bool struck = false;
};

struct SlopeAreaOptions {
    double mark_u_m = 0.03;     // standard uncertainty of a mark, 0.001 to 1; common practice, no source
    double area_u_rel = 0.05;   // of the areas (scour since, survey), 0 to 0.5; common practice, no source
    double method_u_rel = 0.10; // of the method (unsteady, curved, sediment), 0 to 0.5; common practice, no source
    // Loss of the change of velocity head, 0 to 1. From memory, unconfirmed: USGS TWRI 3-A2.
    double expansion_loss = 0.5;
    double contraction_loss = 0.0;
    double gravity_ms2 = kStandardGravity_ms2; // 9.7 to 9.9
};

/// What one section came to.
struct SlopeAreaSection {
    double distance_m = 0.0;
    double level_m = 0.0; // water, from the line through the marks
    WettedSection wetted;
    double conveyance_m3s = 0.0;
    double velocity_ms = 0.0;
    double froude = 0.0; // with the mean depth
};

struct SlopeAreaResult {
    FlowResult flow;
    double slope = 0.0; // of the water surface
    std::vector<SlopeAreaSection> sections;
};

inline constexpr std::size_t kMostSections = 3;
// From memory, unconfirmed: USGS TWRI 3-A2 (0.5 ft, 75 depths).
inline constexpr double kLeastReachFall_m = 0.15;
inline constexpr double kLeastReachInDepths = 75.0;

// Common practice, no source: scatter about the line, in uncertainties of a mark, from which the marks do not agree.
inline constexpr double kMarksScatter = 2.0;

/// Manning's conveyance K = A R^(2/3) / n [m3/s]; Q = K sqrt(S).
[[nodiscard]] double manning_conveyance_m3s(double area_m2, double hydraulic_radius_m, double n);

/// Discharge of a flood from the marks it left, by Manning's formula. Never a flow to design a plant on.
///
/// The water surface is the straight line that fits all marks best (practice differs: some take each bank or each
/// section by itself). One section: Q = K sqrt(S). Two or three, in any order: the energy equation between the first
/// and the last, friction by the geometric mean of the conveyances of neighbours, velocity heads (alpha 1), and a part
/// of their change lost, half where the flow widens and nothing where it narrows: fall = Q^2 [ sum L/(K1 K2) + sum
/// (1/A2^2 - 1/A1^2)/2g + sum k |1/A2^2 - 1/A1^2|/2g ]. Source: methods page after USGS TWRI 3-A2 (Dalrymple and Benson
/// 1967), from memory, unconfirmed. One n serves all sections. Where the water stands above an end of a section a
/// vertical wall is taken there.
///
/// Uncertainty: first order from n and its spread (see roughness_table.h), the line through the marks (level and slope,
/// a scatter that is more than mark_u_m enlarged by student_factor), the areas and the method. Accuracy: 15 to 30 %
/// (one standard uncertainty) at best.
///
/// Always says that it is a flood estimate (`flow.slope_area_flood_only`). Warns of one section
/// (`flow.slope_area_one_section`), a small fall (`flow.slope_area_fall_small`), a short reach
/// (`flow.slope_area_reach_short`), marks that scatter (`flow.marks_scatter`), supercritical flow
/// (`flow.slope_area_supercritical`), a section that the water overtops (`flow.section_open`).
/// Refuses: no or more than kMostSections sections (`flow.slope_area_sections`), a section of fewer than three points
/// or whose offsets fall (`flow.section_bad`), numbers not finite or beyond 1e5 m (`flow.section_bad`,
/// `flow.bad_mark`), two sections at one distance (`flow.same_section`), fewer than two marks at different distances
/// (`flow.few_marks`), a slope not clear of its own doubt, k = 2 (`flow.slope_not_clear`), a dry section
/// (`flow.section_dry`), more velocity head gained than there is fall (`flow.slope_area_no_solution`), options out
/// of range, n outside 0.01 to 0.3 (`flow.bad_option`).
[[nodiscard]] Expected<SlopeAreaResult> slope_area(const std::vector<SurveyedSection>& sections,
                                                   const std::vector<HighWaterMark>& marks, const Estimate& manning_n,
                                                   const SlopeAreaOptions& options = {});

} // namespace rillmark
