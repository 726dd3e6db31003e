// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/specific_speed.h"
#include "power/turbine_tables.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace rillmark {

// Jet speed over sqrt(2 g H), 0.97 to 0.98, and bucket speed over sqrt(2 g H), 0.45 to 0.48 (textbooks of
// turbomachines; some take the bucket speed over that of the jet: 2 % smaller wheels).
inline constexpr double kJetCoefficient = 0.98;
inline constexpr double kBucketRatio = 0.46;
// Wheel over jet, 10 to 15 usual (common practice, no source): below it the buckets crowd, efficiency falls.
inline constexpr double kWheelToJetMin = 10.0;
inline constexpr int kMostJets = 6; // common practice, no source

struct Jets {
    double net_head_m = 0.0; // at the nozzle, > 0
    double flow_m3s = 0.0;   // of the whole wheel, > 0
    int count = 1;           // 1 to kMostJets
    double speed_rpm = 0.0;  // of the wheel, > 0
    double gravity_ms2 = 0.0;
    double jet_coefficient = kJetCoefficient; // > 0, at most 1
    double bucket_ratio = kBucketRatio;       // > 0, below 1
};
struct ImpulseWheel {
    double jet_speed_ms = 0.0;
    double jet_m = 0.0;   // diameter of each jet
    double wheel_m = 0.0; // pitch circle
    Findings findings;    // `power.wheel_small_for_jet`
};
/// A Pelton wheel: v = c sqrt(2 g H), D = 60 k sqrt(2 g H) / (pi N). Accuracy: 2 % of the jet, 5 % of the wheel.
/// Refuses what is not above zero, ratios above one (`power.ratio_above_one`), a count out of range (`power.bad_jets`)
/// and what is not finite.
[[nodiscard]] Expected<ImpulseWheel> impulse_wheel(const Jets& jets);

struct AxialRunner {
    double net_head_m = 0.0;  // > 0
    double flow_m3s = 0.0;    // > 0
    double speed_ratio = 2.0; // tip speed over sqrt(2 g H), 1.4 to 2.25 (from memory, unconfirmed)
    double flow_ratio = 0.6;  // axial speed over sqrt(2 g H), 0.35 to 0.75 (from memory, unconfirmed)
    double hub_ratio = 0.4;   // hub over runner, 0.35 to 0.6 (from memory, unconfirmed), below 1
    double gravity_ms2 = 0.0;
};
struct AxialSize {
    double diameter_m = 0.0;
    double speed_rpm = 0.0;
};
/// A propeller or Kaplan runner from its ratios. Accuracy: 10 to 20 %, by the spread of the ratios. Refuses as
/// impulse_wheel.
[[nodiscard]] Expected<AxialSize> axial_runner(const AxialRunner& runner);

/// Runaway speed over rated speed by 0.85 ns^0.2, ns in rpm, horsepower, ft (US Department of the Interior, 1976,
/// quoted in a course on hydropower engineering). Refuses what is not above zero.
[[nodiscard]] Expected<double> runaway_ratio(double ns_us);

struct RunnerSetting {
    double air_pressure_Pa = 0.0;    // > 0
    double vapour_pressure_Pa = 0.0; // >= 0, below the air's
    double net_head_m = 0.0;         // > 0
    double sigma = 0.0;              // critical Thoma number, >= 0
    double density_kgm3 = 0.0;       // > 0
    double gravity_ms2 = 0.0;        // > 0
};
/// Greatest height (m) of a reaction runner above tailwater, negative: it must lie below. (p_air - p_vapour)/(rho g) -
/// sigma H (D. Thoma). No safety is in it: makers keep 0.5 to 1 m more (common practice, no source).
[[nodiscard]] Expected<double> greatest_setting_m(const RunnerSetting& setting);

/// Best point of a pump to look for in catalogues.
struct PumpPoint {
    double head_m = 0.0;
    double flow_m3s = 0.0;
};
struct PumpChoice {
    PumpPoint sharma;
    PumpPoint stepanoff;
};
// Spread of pumps around such rules, part of head and flow (common practice, from memory, unconfirmed).
inline constexpr double kPumpRuleError = 0.2;
/// The pump whose best point turns into this head (m) and flow as a turbine: head as a pump = head eta^1.2, flow as a
/// pump = flow eta^0.8 (K. R. Sharma 1985), and with eta and eta^0.5 (A. J. Stepanoff 1957); both from memory,
/// unconfirmed. `efficiency` is the pump's best, 0 (excluded) to 1. Accuracy kPumpRuleError: a test by the maker
/// decides.
[[nodiscard]] Expected<PumpChoice> pump_as_turbine(double net_head_m, double flow_m3s, double efficiency);

struct TurbineSite {
    double net_head_m = 0.0; // at the design flow, > 0
    double flow_m3s = 0.0;   // design flow, > 0
    double frequency_Hz = 50.0;
    double altitude_m = 0.0;           // standard air, for the setting
    double water_temperature_C = 15.0; // 0..40, for the setting
    double gravity_ms2 = 0.0;          // > 0
};
enum class TurbineFit : std::uint8_t { Fits, HeadTooLow, HeadTooHigh, NoDirectSpeed, NotChecked };

/// What one kind of turbine would be at a site. Fits: head in range and, where the kind has specific speeds, a direct
/// drive exists. NotChecked: head in range, no specific speeds known for the kind. NoDirectSpeed: head in range but no
/// direct drive of up to kMostPoles poles, so it needs a belt, gear, more or fewer machines, or another kind.
struct TurbineOption {
    TurbineKind kind;
    TurbineFit fit = TurbineFit::NotChecked;
    double shaft_W = 0.0; // at the design flow
    std::optional<double> speed_rpm;
    std::optional<int> jets;
    std::optional<SpecificSpeed> specific; // per jet
    std::optional<ImpulseWheel> wheel;     // Pelton
    std::optional<double> runaway_min_rpm;
    std::optional<double> runaway_max_rpm;
    std::optional<double> sigma;     // reaction, where the table reaches
    std::optional<double> setting_m; // reaction: greatest height above tailwater
};
// Poles of direct generators that are looked at; common practice, no source.
inline constexpr int kFewestPoles = 4;
inline constexpr int kMostPoles = 24;

/// All kinds at a site, in the order of the table, misfits included. Choice: the fewest jets, then the fastest direct
/// speed whose specific speed lies in the kind's range and, for Pelton, whose wheel is not below kWheelToJetMin jets;
/// for a reaction runner the fastest that may sit above tailwater, or, where none may, the fastest. Accuracy: a first
/// choice; the maker decides. Refuses sizes that are not above zero, and what water and air properties refuse.
[[nodiscard]] Expected<std::vector<TurbineOption>> turbine_options(const TurbineSite& site,
                                                                   const TurbineTables& tables);

} // namespace rillmark
