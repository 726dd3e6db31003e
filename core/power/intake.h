// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

namespace rillmark {

// Coefficient of an ideal broad crest without its root of gravity: Q = (2/3)^1.5 Cd sqrt(g) b H^1.5. Real crests carry
// less: long ones C = 2.63 in feet against 3.09, which is Cd = 0.85 (Brater and King 1976, as printed in US EPA, Storm
// Water Management Model Reference Manual, vol. II, table 6-3).
inline constexpr double kRoughBroadCrest = 0.85;
// Energy head over breadth of the crest between which the broad-crest formula holds (common practice, no source); above
// kActsSharp the nappe springs clear and the crest acts as a sharp one (table 6-3 as above).
inline constexpr double kBroadHeadMin = 0.1;
inline constexpr double kBroadHeadMax = 0.33;
inline constexpr double kActsSharp = 2.0;
// T. Rehbock's coefficient Cd = 0.602 + 0.075 H/P (from memory, unconfirmed) and H/P up to which it is used here (our
// choice; textbooks go to 2 with other constants).
inline constexpr double kRehbockBase = 0.602;
inline constexpr double kRehbockRise = 0.075;
inline constexpr double kRehbockHeadMax = 2.0;
// Each side contraction narrows a sharp crest by 0.1 H (J. B. Francis; form confirmed in a public worksheet).
inline constexpr double kSideContraction = 0.1;

enum class CrestKind { Broad, Sharp };

/// The crest of a diversion wall that water passes over freely (tailwater below the crest).
struct Crest {
    CrestKind kind = CrestKind::Broad;
    double width_m = 0.0;   // across the stream, > 0
    double breadth_m = 0.0; // Broad: along the flow, > 0
    double height_m = 0.0;  // Sharp: crest above the bed upstream, > 0
    int contractions = 0;   // Sharp: 0, 1 or 2 sides that stand out from the banks
    double broad_coefficient = kRoughBroadCrest; // Cd, > 0; 1 is the ideal crest
    double sharp_base = kRehbockBase;            // Cd = base + rise H/P
    double sharp_rise = kRehbockRise;
};

struct Overflow {
    double head_m = 0.0; // above the crest
    double discharge_m3s = 0.0;
    Findings findings; // `power.crest_out_of_range`, `power.crest_acts_sharp`, `power.rehbock_out_of_range`
};

/// Flow over a crest at a head (m, >= 0), gravity in m/s2. Broad: (2/3)^1.5 Cd sqrt(g) b H^1.5; sharp: 2/3 Cd sqrt(2g)
/// (b - 0.1 n H) H^1.5. The head of a broad crest is that of the energy line: add v2/2g where the water does not stand. Accuracy:
/// sharp crests 3 % where clean and aired, broad ones 10 % (common practice, no source). Refuses sizes that are not above
/// zero (`power.not_positive`), a negative head (`power.negative`), contractions other than 0 to 2 or that close the crest
/// (`power.bad_contractions`) and what is not finite.
[[nodiscard]] Expected<Overflow> overflow_at_head(const Crest& crest, double head_m, double gravity_ms2);
/// The head at which a flow (m3/s, >= 0) passes: the root of overflow_at_head to 1e-9 m, searched up to
/// kHighestOverflow_m. Refuses as it does, and more flow than the crest passes there (`power.overflow_too_large`).
[[nodiscard]] Expected<Overflow> overflow_of_flow(const Crest& crest, double discharge_m3s, double gravity_ms2);
inline constexpr double kHighestOverflow_m = 20.0; // our choice: far above any wall of this kind

// Freeboard that small walls usually have above the flood; common practice, no source.
inline constexpr double kFreeboardUsual_m = 0.3;

/// A diversion wall: heights in one datum. The flows are those over the crest; the flood is a hydrologist's number.
struct Wall {
    Crest crest;
    double crest_level_m = 0.0;
    double top_level_m = 0.0; // of the abutments, above the crest
    double design_overflow_m3s = 0.0;
    double flood_m3s = 0.0; // >= design_overflow_m3s
};
struct WallLevels {
    double design_level_m = 0.0;
    double flood_level_m = 0.0;
    double freeboard_m = 0.0; // top above flood; negative where the flood overtops
    Findings findings;        // those of both overflows, `power.flood_overtops`, `power.freeboard_small`
};
/// Water levels upstream of a wall. Refuses as overflow_of_flow, a top that is not above the crest and a flood below the
/// design overflow (`power.wall_contradiction`).
[[nodiscard]] Expected<WallLevels> wall_levels(const Wall& wall, double gravity_ms2);

// O. Kirschmer's bar shapes; the numbers from memory, unconfirmed.
inline constexpr double kBarSharpRectangle = 2.42;
inline constexpr double kBarRoundedUpstream = 1.83;
inline constexpr double kBarRoundedBothEnds = 1.67;
inline constexpr double kBarRound = 1.79;
inline constexpr double kBarStreamlined = 0.76;
// Approach speed up to which a rack can be raked by hand, 0.3 to 0.6 m/s (common practice, no source). For fish the
// local rule decides.
inline constexpr double kApproachHigh_ms = 0.6;
// Part of the rack that debris is taken to close; common practice, no source.
inline constexpr double kRackClogged = 0.5;

struct Rack {
    double flow_m3s = 0.0;       // >= 0
    double wetted_area_m2 = 0.0; // along the bars, bars and gaps, > 0
    double bar_m = 0.0;          // thickness, > 0
    double gap_m = 0.0;          // clear, > 0
    double slope_rad = 0.0;      // of the bars from the horizontal, 0 (excluded) to pi/2
    double shape = kBarSharpRectangle; // > 0
};
struct RackLoss {
    double approach_ms = 0.0; // on the whole rack
    double clean_m = 0.0;
    double clogged_m = 0.0; // kRackClogged of the area closed: the speed on the rest is doubled
    Findings findings;      // `power.rack_approach_fast`
};
/// Head lost at a trash rack: h = K (s/b)^(4/3) sin(a) v2/2g (O. Kirschmer 1926; form confirmed, shapes from memory).
/// Accuracy: 20 to 50 % clean (methods for round bars differ widely). Refuses sizes that are not above zero, a negative
/// flow, a slope beyond the upright (`power.slope_out_of_range`) and what is not finite.
[[nodiscard]] Expected<RackLoss> rack_loss(const Rack& rack, double gravity_ms2);

// No more of a maker's clean capacity is counted on; our own rule, supported by through-flow losses of up to 55 % when
// clogged (D. May, 2015, DOI 10.5923/j.ijhe.20150402.01).
inline constexpr double kScreenShare = 0.5;
/// Width (m) of an inclined screen for a flow (m3/s, >= 0) from the maker's clean capacity (m3/s per metre, > 0):
/// Q / (kScreenShare q). No capacity is proposed: it is the maker's.
[[nodiscard]] Expected<double> screen_width_m(double flow_m3s, double capacity_m2s);

// J. L. Gordon, Vortices at intakes, Water Power, April 1970, in SI; from memory, unconfirmed.
inline constexpr double kGordonSymmetric = 0.543;
inline constexpr double kGordonLateral = 0.724;

struct PipeMouth {
    double speed_ms = 0.0; // >= 0
    double bore_m = 0.0;   // > 0
    bool lateral = false;  // the water comes from one side
};
enum class SubmergenceRule { Gordon, HydraulicInstitute, Knauss };
struct Submergence {
    double gordon_m = 0.0;              // C V sqrt(D)
    double hydraulic_institute_m = 0.0; // D (1 + 2.3 Fr), ANSI/HI 9.8, quoted on a secondary page
    double knauss_m = 0.0;              // the larger of 1.5 D and D (2 Fr + 1/2), less D/2
    double needed_m = 0.0;              // the largest
    SubmergenceRule governs = SubmergenceRule::Gordon;
};
/// Water needed above the top of a pipe's mouth against vortices that draw air. Fr = V/sqrt(g D). J. Knauss's rule (from
/// memory, unconfirmed) counts to the centre line; half a bore is taken off. Accuracy: experience with large intakes. Refuses
/// a bore that is not above zero, a negative speed and what is not finite.
[[nodiscard]] Expected<Submergence> submergence(const PipeMouth& mouth, double gravity_ms2);

struct Grain {
    double diameter_m = 0.0;                        // sieve size, > 0 and at most kGrainMax_m
    double submerged_density = 1.65;                // (grain - water) / water, > 0; quartz 1.65
    double kinematic_viscosity_m2s = 0.0;           // > 0
};
inline constexpr double kGrainMax_m = 0.01; // our choice: gravel is not settled but flushed
/// Settling velocity of natural sand, m/s: R g d2 / (18 nu + sqrt(0.75 R g d3)), R. I. Ferguson and M. Church, J. Sedimentary
/// Research 74(6), 2004, 933-937, C1 = 18, C2 = 1.0. Accuracy: 25 % between laws, and real sand by as much.
[[nodiscard]] Expected<double> settling_velocity_ms(const Grain& grain, double gravity_ms2);

// Enlargement of the ideal basin for turbulence, 1.5 to 2, the cautious one taken; and the speed along it, 0.2 to 0.3
// m/s. Common practice, no source.
inline constexpr double kBasinTurbulence = 2.0;
inline constexpr double kBasinSpeedMax_ms = 0.2;
struct Basin {
    double area_m2 = 0.0;   // plan
    double length_m = 0.0;
    double depth_m = 0.0;   // that keeps the speed, without the room for what has settled
};
/// Settling basin of a width (m, > 0) for a flow (m3/s, > 0) and settling velocity (m/s, > 0): A = 2 Q/w (A. Hazen's ideal
/// basin, twice). Usual grains: 0.2 to 0.3 mm at low and medium head, 0.1 to 0.2 mm at high head (common practice, no source).
[[nodiscard]] Expected<Basin> settling_basin(double flow_m3s, double settling_ms, double width_m);

} // namespace rillmark
