// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "finding.h"
#include "uncertainty/estimate.h"

#include <optional>
#include <span>
#include <string_view>

namespace rillmark {

// ETH Zurich VAW, glacier field course, field rules: at least 20 stream widths; 25 is the other common figure.
inline constexpr double kLeastMixing_widths = 20.0;
inline constexpr double kGoodMixing_widths = 25.0;
// From memory, unconfirmed: kg of dry salt per m3/s with good mixing over a short reach, and over a long one.
inline constexpr double kLeastDose_kg_per_m3s = 1.0;
inline constexpr double kUsualDose_kg_per_m3s = 2.0;
inline constexpr double kLongReachDose_kg_per_m3s = 5.0;
// Molar masses of NaCl and Cl, g/mol.
inline constexpr double kSaltPerChloride = 58.443 / 35.453;

/// A reach for the salt to mix in.
struct MixingReach {
    double width_m = 0.0;       // 0.05 to 1000
    double depth_m = 0.0;       // mean; 0.005 to 100
    double velocity_ms = 0.0;   // mean; 0.001 to 10
    double slope = 0.0;         // of the water surface; 1e-6 to 1
    bool from_the_bank = false; // poured in at a bank, not in the middle
};

/// Length after which the salt is evenly spread over the width:
/// L = c v w^2 / (0.6 d u*), u* = sqrt(g d S), c = 0.1 from the middle, 0.4 from the bank.
///
/// Source: Fischer and others, Mixing in Inland and Coastal Waters (1979), from memory, unconfirmed. It holds for a
/// natural, gently winding channel; falls, bends and steps shorten the length, dead water lengthens it. The plain rule
/// is 20 to 25 widths (kLeastMixing_widths); where the two differ take the longer, and compare two probes on opposite
/// banks. Refuses values that are not finite or out of range (`flow.bad_option`).
[[nodiscard]] Expected<double> mixing_length_m(const MixingReach& reach);

/// Dry salt to throw for a guessed flow.
struct SaltDoseAdvice {
    double least_kg = 0.0; // short reach, good mixing
    double usual_kg = 0.0;
    double long_reach_kg = 0.0;
    /// For the wanted rise: half of flow x factor x rise x time, a triangle. Only with a guess of the cloud's time.
    std::optional<double> for_rise_kg;
};

/// Advice on the dose: kg by the flow (rule of thumb from memory, unconfirmed; courses have used 0.5 to 0.7 kg per m3/s
/// on a glacier stream and 5 to 17 on a river), and by the rise that the probe should see.
/// @param flow_m3s guess, 0.0001 to 1000
/// @param cloud_s  guess of the time that the salt takes to go by, 1 to 86400
/// @param rise_Sm  wanted rise, 0.0001 to 1; ten times the least rise of the field rules is plenty
/// @param factor   calibration factor, (kg/m3)/(S/m)
/// Refuses what is not finite or out of range (`flow.bad_option`).
[[nodiscard]] Expected<SaltDoseAdvice> salt_dose(double flow_m3s, std::optional<double> cloud_s, double rise_Sm,
                                                 double factor);

/// A limit of chloride for the life in fresh water.
struct ChlorideLimit {
    std::string_view name_code; // worded by the UI
    double chloride_kgm3;
    bool short_term; // for an hour or as a maximum; else the mean over days
    bool confirmed;  // false: from memory
};
/// The limits known here, each with its source in salt_advice.cpp.
[[nodiscard]] std::span<const ChlorideLimit> chloride_limits();

/// Chloride in a salt concentration, both kg/m3.
[[nodiscard]] double chloride_of_salt(double salt_kgm3);

/// Holds the peak of a salt cloud against the short-term limits: `flow.chloride_above_limit`, a warning with the lowest
/// that it exceeds. The long-term limits do not bind on a cloud of minutes. Upstream of the probe there is more than at
/// it.
[[nodiscard]] Findings judge_chloride(double peak_salt_kgm3);

/// Holds the plateau of a steady injection against the limits for days: `flow.chloride_above_long_limit`, a warning with the
/// lowest that it exceeds.
[[nodiscard]] Findings judge_lasting_chloride(double salt_kgm3);

} // namespace rillmark
