// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/flow_result.h"
#include "flow/point_velocity.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace rillmark {

/// Whether a vertical is where the water ends.
enum class BankEdge : std::uint8_t {
    None,     // a vertical in the water
    Sloping,  // the water's edge, depth 0
    Vertical, // a wall: depth at its foot, no velocity measured there as a rule
};

/// One vertical of a gauged section.
struct Vertical {
    std::int64_t id = 0;
    double distance_m = 0.0; // along the tape from any zero, -10000 to 10000; at least 1 mm from any other
    double depth_m = 0.0;    // 0, or 0.001 to 100
    std::vector<PointReading> points;
    double angle_rad = 0.0; // between the flow and the normal of the section, less than a quarter turn either way
    BankEdge edge = BankEdge::None;
    bool struck = false;
};

// From memory, unconfirmed (Rantz and others, USGS Water-Supply Paper 2175): the mean velocity close to a smooth side
// wall as a share of that in the stream. A rough wall asks for less.
inline constexpr double kWallVelocityShare = 0.65;
// Our own estimate of its standard uncertainty.
inline constexpr double kWallVelocityShare_u = 0.10;
// Our own estimate: the bed of a creek is stony, and the foot of the rod stands on a stone or between two.
inline constexpr double kDepthReading_m = 0.02;

struct VelocityAreaOptions {
    MeterRating meter;                               // without ranges: a meter that shows the velocity
    double wall_velocity_share = kWallVelocityShare; // 0 to 1, of the vertical next to a wall without a reading
    double surface_share = kSurfaceVelocityShare;    // above 0 to 1, of verticals read at the surface only
    double depth_u_m = kDepthReading_m;              // standard uncertainty of one depth, 0 to 1 m
    bool waded = true;                               // look at depth x velocity for the person in the water
};

/// The part of the section that one vertical stands for (mid-section).
struct Panel {
    std::int64_t vertical_id = 0;
    std::int64_t row = 0; // place of the vertical in the list given, from 1
    std::size_t part = 0; // of the section, from 0: islands and ice part it
    double distance_m = 0.0;
    double depth_m = 0.0;
    double velocity_ms = 0.0; // mean in the vertical, normal to the section
    double width_m = 0.0;
    double area_m2 = 0.0;
    double discharge_m3s = 0.0;
    double share = 0.0;          // of the discharge; 0 where there is none
    double variance_share = 0.0; // of the variance that the panels bring in: the largest is the one to repeat
};

struct VelocityAreaResult {
    FlowResult flow; // by mid-section
    double mean_section_m3s = 0.0;
    std::optional<Budgeted>
        by_interpolation;      // the same flow, its doubt from how well each vertical's neighbours foretell it
    Findings improvements;     // what would make it surer, the most helpful first
    std::vector<Panel> panels; // by rising distance, the banks included
    double width_m = 0.0;      // of the water: without islands
    double area_m2 = 0.0;
    double mean_depth_m = 0.0;
    double mean_velocity_ms = 0.0;
};

/// Discharge of a section gauged with a current meter at verticals across it.
///
/// Mid-section (the result): q = v d (x[i+1] - x[i-1]) / 2, an end vertical having one half-interval.
/// Mean-section (beside it): q = dx (d[i] + d[i+1]) / 2 (v[i] + v[i+1]) / 2. Both have the same area; their difference
/// is 0.5 to 4 % (computed on two course examples; Morgenschweis, Hydrometrie, sec. 4.5, one example of 3.7 %). The
/// variant that folds the bank triangles into the first and last inner vertical (+0.3 % in one example) is not taken.
/// Source of both: Morgenschweis as above; USBR Water Measurement Manual, ch. 10.
///
/// Islands and ice: a bank followed by a bank, both inside the section, end one part of it and begin the next; between
/// them nothing flows. Each part is reckoned by itself, one discharge comes out.
///
/// Verticals may come in any order. Those that are struck are not looked at. The velocity is multiplied by the cosine
/// of its angle. Banks: a sloping edge has depth 0 and velocity 0; at a wall without a reading the velocity is
/// wall_velocity_share times that of its neighbour (practice differs: 0.65 and more close to a smooth wall, less to a
/// rough one). An end vertical with depth that is not marked as a bank is warned of: water beyond it is not
/// counted. Depth 0 within the section (a rock) is allowed.
///
/// Uncertainty: see velocity_area_uncertainty.h (the result), interpolated_variance.h (beside it, where enough
/// verticals have neighbours) and gauging_improvements.h. Accuracy of the arithmetic: rounding.
///
/// Warns or notes, each with its limit: see platform/words/flow_words.cpp.
/// Refuses: fewer than two distances (`flow.no_width`), no vertical with depth and velocity (`flow.no_velocity`), depth
/// without a velocity (`flow.vertical_without_velocity`), two
/// verticals at one distance (`flow.same_distance`), values that are not finite or out of range (`flow.bad_distance`,
/// `flow.bad_depth`, `flow.bad_angle`, `flow.bad_option`), a single bank inside the section (`flow.bank_inside`), a
/// part of the section with one vertical (`flow.part_of_one`) or no velocity (`flow.part_without_velocity`), depth at a
/// sloping edge (`flow.edge_with_depth`), a wall without depth (`flow.wall_without_depth`), a velocity without depth
/// (`flow.velocity_without_depth`), a total that runs backwards (`flow.runs_backwards`), more than 2000 verticals
/// (`flow.too_many_rows`), and what check_rating and vertical_velocity refuse. Each names the row.
[[nodiscard]] Expected<VelocityAreaResult> velocity_area(const std::vector<Vertical>& verticals,
                                                         const VelocityAreaOptions& options = {});

} // namespace rillmark
