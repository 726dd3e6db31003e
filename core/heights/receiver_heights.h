// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "heights/geoid.h"
#include "levelling/height_network.h"
#include "position/position_fix.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// A stay of a receiver on one point, averaged (average.h).
struct ReceiverStay {
    std::int64_t id = 0;
    std::string point;
    double latitude_deg = 0.0;
    double longitude_deg = 0.0;
    std::optional<double> height_ellipsoid_m; // h
    std::optional<double> height_msl_m;       // H above the receiver's own geoid
    std::optional<double> geoid_separation_m; // N of the receiver
    std::optional<double> u_up_m;             // standard uncertainty; default: that of the quality, default_claim()
    FixQuality quality = FixQuality::Unknown;
    std::string source; // receiver: those of one share its geoid model
};

/// Where the ellipsoidal height came from.
enum class HeightOrigin {
    Ellipsoidal,    // given as such
    FromSeparation, // H + N, both of the receiver
    FromModel,      // H of the receiver + N of EGM96
};

/// Height of a point above the geoid EGM96.
struct GeoidHeight {
    std::int64_t id = 0;
    std::string point;
    double height_m = 0.0;
    double random_m = 0.0;            // standard uncertainty of this stay alone
    std::vector<SharedEffect> shared; // of the geoid models
    HeightOrigin origin = HeightOrigin::Ellipsoidal;

    /// As a height of its own above the sea, all effects in it.
    [[nodiscard]] Estimate estimate() const;
};

struct GeoidHeights {
    std::vector<GeoidHeight> heights; // in the order of the stays; those left out are not there
    Findings findings;
};

/// How far the geoid of a receiver lies from EGM96, standard uncertainty: root mean square of twenty receiver logs, the
/// worst 5.5 m (computed).
inline constexpr double kReceiverGeoid_u_m = 2.7;
/// h and H + N of one receiver agree within rounding; more is told of (our choice, no source).
inline constexpr double kHeightsAgree_m = 0.15;

/// Heights of ONE kind from receivers that give different kinds: each is brought to the ellipsoid, then to the geoid
/// EGM96. h as given, else H + N of the receiver, else H + N of EGM96, which moves all heights of that receiver alike
/// by what its own geoid is off: shared effect "receiver-geoid:<source>" of kReceiverGeoid_u_m. All heights share the
/// error of EGM96 over the site ("geoid:egm96", model and interpolation): a difference of two heights is free of it, as
/// it is of the former between two stays of one receiver. The slope of the error of EGM96, centimetres per kilometre,
/// is not in it.
///
/// Successive fixes of one stay are correlated; average_position() has dealt with that, and u_up_m is taken as it is.
/// Two stays of one receiver closer in time than kGnssCorrelationTime_s have part of their errors in common. They are
/// taken as independent here: for their difference, the head, that is the careful side; for their mean it is not, so
/// that a point is not improved by a second stay at once.
///
/// Left out and told of, `where` the point: what plausible() refuses (no fix, not measured, typed in, simulated, no
/// place on earth), with its code as a warning; no height (`levels.receiver_no_height`), which is a 2D fix; an
/// uncertainty that is not finite and above zero (`levels.receiver_uncertainty_impossible`). Notes
/// `levels.receiver_heights_converted` (count); warns `levels.receiver_heights_by_model` (count) and
/// `levels.receiver_heights_disagree` (h against H + N; h is used). Refuses where none is left
/// (`levels.receiver_no_heights`).
[[nodiscard]] Expected<GeoidHeights> geoid_heights(const std::vector<ReceiverStay>& stays,
                                                   const GeoidGrid& geoid = egm96());

} // namespace rillmark
