// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/sight_judgement.h"

#include "units/units.h"

#include <cmath>
#include <utility>
#include <vector>

namespace rillmark {

namespace {

/// A slip is named only where the evidence is at least this many times finer than the slip (our choice, no source).
constexpr double kEvidenceFinerThanSlip = 5.0;

/// Digits of a reading that can be swapped: 99.999 of whatever unit is more than any staff has.
constexpr int kDigits = 5;

double foot_m() {
    return find_unit(Quantity::Length, "ft")->factor;
}

/// Every reading that comes from this one when two neighbouring digits change places.
std::vector<double> swapped_readings(double reading_m, double last_digit_m) {
    std::vector<double> readings;
    const long long digits = std::llround(std::abs(reading_m) / last_digit_m);
    long long place = 1;
    for (int i = 0; i + 1 < kDigits; ++i, place *= 10) {
        const long long low = digits / place % 10;
        const long long high = digits / (place * 10) % 10;
        if (low == high)
            continue;
        const long long swapped = digits + (low - high) * place * 10 + (high - low) * place;
        readings.push_back(std::copysign(static_cast<double>(swapped) * last_digit_m, reading_m));
    }
    return readings;
}

/// Every reading that comes from this one when a 6 is a 9, or a 9 a 6.
std::vector<double> six_nine_readings(double reading_m, double last_digit_m) {
    std::vector<double> readings;
    const long long digits = std::llround(std::abs(reading_m) / last_digit_m);
    long long place = 1;
    for (int i = 0; i < kDigits; ++i, place *= 10) {
        const long long digit = digits / place % 10;
        if (digit != 6 && digit != 9)
            continue;
        const long long other = digits + (digit == 6 ? 3 : -3) * place;
        readings.push_back(std::copysign(static_cast<double>(other) * last_digit_m, reading_m));
    }
    return readings;
}

std::vector<Slip> possible_slips(const ReadingInDoubt& doubt) {
    std::vector<Slip> slips;
    const double towards = doubt.discrepancy_m > 0.0 ? -1.0 : 1.0;
    slips.push_back({SlipKind::WholeMetre, doubt.reading_m + towards * 1.0});
    slips.push_back({SlipKind::WholeFoot, doubt.reading_m + towards * foot_m()});
    slips.push_back({SlipKind::TenthOfMetre, doubt.reading_m + towards * 0.1});
    slips.push_back({SlipKind::InvertedStaff, -doubt.reading_m});
    for (const double reading_m : swapped_readings(doubt.reading_m, doubt.last_digit_m))
        slips.push_back({SlipKind::SwappedDigits, reading_m});
    for (const double reading_m : six_nine_readings(doubt.reading_m, doubt.last_digit_m))
        slips.push_back({SlipKind::SixForNine, reading_m});
    slips.push_back({SlipKind::FeetAsMetres, doubt.reading_m * foot_m()});
    return slips;
}

const char* code_of(SlipKind kind) {
    switch (kind) {
    case SlipKind::WholeMetre:
        return "levels.reading_maybe_metre";
    case SlipKind::WholeFoot:
        return "levels.reading_maybe_foot";
    case SlipKind::TenthOfMetre:
        return "levels.reading_maybe_tenth";
    case SlipKind::InvertedStaff:
        return "levels.reading_maybe_inverted";
    case SlipKind::SwappedDigits:
        return "levels.reading_maybe_swapped";
    case SlipKind::SixForNine:
        return "levels.reading_maybe_six_nine";
    case SlipKind::FeetAsMetres:
        return "levels.reading_maybe_feet";
    case SlipKind::Exchanged:
        return "levels.reading_maybe_exchanged";
    }
    return "levels.reading_improbable";
}

bool judges(double measured, const Estimate& expected) {
    return std::isfinite(measured) && std::isfinite(expected.value) && std::isfinite(expected.standard_uncertainty) &&
           expected.standard_uncertainty > 0.0;
}

} // namespace

std::optional<Slip> guess_slip(const ReadingInDoubt& doubt) {
    // Beyond the longest reading the digits would not fit an integer either.
    if (!(std::abs(doubt.reading_m) <= kLongestReading_m) || !std::isfinite(doubt.discrepancy_m) ||
        !(doubt.tolerance_m >= 0.0) || !(doubt.last_digit_m >= 1e-5))
        return std::nullopt;
    const double expected_m = doubt.reading_m - doubt.discrepancy_m;
    std::optional<Slip> best;
    double best_misfit_m = doubt.tolerance_m;
    for (const Slip& slip : possible_slips(doubt)) {
        const double size_m = std::abs(slip.suggested_reading_m - doubt.reading_m);
        const double misfit_m = std::abs(slip.suggested_reading_m - expected_m);
        const bool sharper = best ? misfit_m < best_misfit_m : misfit_m <= best_misfit_m;
        if (sharper && size_m > 0.0 && doubt.tolerance_m * kEvidenceFinerThanSlip <= size_m) {
            best = slip;
            best_misfit_m = misfit_m;
        }
    }
    // backsight and foresight exchanged: the set-up is wrong by twice their difference, so the reading by itself seems
    // to
    if (doubt.backsight_m) {
        const double step_m = 2.0 * (doubt.reading_m - *doubt.backsight_m);
        const double misfit_m = std::abs(step_m - doubt.discrepancy_m);
        const bool sharper = best ? misfit_m < best_misfit_m : misfit_m <= best_misfit_m;
        if (sharper && step_m != 0.0 && doubt.tolerance_m * kEvidenceFinerThanSlip <= std::abs(step_m))
            best = Slip{SlipKind::Exchanged, *doubt.backsight_m};
    }
    return best;
}

std::optional<Finding> judge_sight(const Sight& sight, const Estimate& expected_reading, double last_digit_m,
                                   std::optional<double> backsight_m) {
    if (!judges(sight.reading_m, expected_reading))
        return std::nullopt;
    const double discrepancy_m = sight.reading_m - expected_reading.value;
    if (std::abs(discrepancy_m) <= kOutlierLimit * expected_reading.standard_uncertainty)
        return std::nullopt;
    std::vector<Arg> args{{"reading", sight.reading_m, Quantity::Length},
                          {"expected", expected_reading.value, Quantity::Length},
                          {"plus_minus", expected_reading.expanded(), Quantity::Length},
                          {"off_by", discrepancy_m, Quantity::Length}};
    const std::optional<Slip> slip =
        guess_slip({sight.reading_m, discrepancy_m, expected_reading.expanded(), last_digit_m, backsight_m});
    if (!slip)
        return warning("levels.reading_improbable", sight.point, std::move(args));
    args.push_back({"suggested", slip->suggested_reading_m, Quantity::Length});
    return warning(code_of(slip->kind), sight.point, std::move(args));
}

/// A slip that would explain the rise; one that chance explains as well is none.
const char* rise_slip_code(double measured_rise_m, const Estimate& expected_rise) {
    const double tolerance_m = expected_rise.expanded();
    const auto explains = [&](double would_be_m) {
        return std::abs(would_be_m - expected_rise.value) <= tolerance_m &&
               std::abs(measured_rise_m - would_be_m) > kEvidenceFinerThanSlip * tolerance_m;
    };
    if (explains(-measured_rise_m))
        return "levels.rise_maybe_turned";
    if (explains(measured_rise_m * foot_m()))
        return "levels.rise_maybe_feet";
    return "levels.rise_improbable";
}

std::optional<Finding> judge_against_expected(double measured_rise_m, const Estimate& expected_rise) {
    if (!judges(measured_rise_m, expected_rise))
        return std::nullopt;
    const double off_by_m = measured_rise_m - expected_rise.value;
    if (std::abs(off_by_m) <= kOutlierLimit * expected_rise.standard_uncertainty)
        return std::nullopt;
    return warning(rise_slip_code(measured_rise_m, expected_rise), "",
                   {{"measured", measured_rise_m, Quantity::Length},
                    {"expected", expected_rise.value, Quantity::Length},
                    {"plus_minus", expected_rise.expanded(), Quantity::Length},
                    {"off_by", off_by_m, Quantity::Length}});
}

} // namespace rillmark
