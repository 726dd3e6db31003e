// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/average.h"

#include "position/local_frame.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

namespace rillmark {

namespace {

// Scatter of this many times the claim is not noise of a receiver at rest (own choice).
constexpr double kMovedFactor = 3.0;

// A claimed standard uncertainty of one axis from which a fix no longer tells one bank from the other (own choice).
constexpr double kUnsureAxis_m = 15.0;

std::vector<PositionFix> usable_by_time(std::span<const PositionFix> fixes) {
    std::vector<PositionFix> used;
    std::copy_if(fixes.begin(), fixes.end(), std::back_inserter(used),
                 [](const PositionFix& fix) { return plausible(fix).ok(); });
    std::stable_sort(used.begin(), used.end(),
                     [](const PositionFix& a, const PositionFix& b) { return a.time_s < b.time_s; });
    return used;
}

struct Column {
    std::vector<double> values;

    [[nodiscard]] double mean() const {
        double sum = 0.0;
        for (const double value : values)
            sum += value - values.front(); // keeps the digits of a small scatter about a large value
        return values.front() + sum / static_cast<double>(values.size());
    }
    [[nodiscard]] double scatter() const {
        if (values.size() < 2)
            return 0.0;
        const double centre = mean();
        double sum = 0.0;
        for (const double value : values)
            sum += (value - centre) * (value - centre);
        return std::sqrt(sum / static_cast<double>(values.size() - 1));
    }
    [[nodiscard]] double root_mean_square() const {
        double sum = 0.0;
        for (const double value : values)
            sum += value * value;
        return std::sqrt(sum / static_cast<double>(values.size()));
    }
};

std::optional<double> mean_of_known(const std::vector<PositionFix>& fixes, std::optional<double> PositionFix::*member) {
    Column column;
    for (const PositionFix& fix : fixes)
        if (fix.*member)
            column.values.push_back(*(fix.*member));
    return column.values.empty() ? std::optional<double>{} : column.mean();
}

// Time on the station and what it is worth in independent fixes; see average_position().
void count_time(const std::vector<PositionFix>& fixes, double correlation_time_s, AveragedPosition& average) {
    double independent = 0.0;
    double spell_start_s = fixes.front().time_s;
    for (std::size_t i = 0; i < fixes.size(); ++i) {
        const bool last_of_spell =
            i + 1 == fixes.size() || fixes[i + 1].time_s - fixes[i].time_s > correlation_time_s;
        if (!last_of_spell)
            continue;
        const double spell_s = fixes[i].time_s - spell_start_s;
        average.seconds += spell_s;
        independent += std::max(1.0, spell_s / correlation_time_s);
        if (i + 1 < fixes.size())
            spell_start_s = fixes[i + 1].time_s;
    }
    average.effective_n = std::min(independent, static_cast<double>(fixes.size()));
}

// Mean position and its scatter, in local metres. False when the fixes are not of one place.
bool fill_plan(const std::vector<PositionFix>& fixes, AveragedPosition& average) {
    const GeoPoint origin{fixes.front().latitude_deg, fixes.front().longitude_deg};
    const LocalFrame frame = LocalFrame::make(origin).value(); // plausible() has checked it
    Column east;
    Column north;
    for (const PositionFix& fix : fixes) {
        const LocalPoint local = frame.to_local({fix.latitude_deg, fix.longitude_deg});
        if (!(std::hypot(local.east_m, local.north_m) <= kWidestSpread_m))
            return false;
        east.values.push_back(local.east_m);
        north.values.push_back(local.north_m);
    }
    const GeoPoint mean = frame.to_geo({east.mean(), north.mean()});
    average.latitude_deg = mean.latitude_deg;
    average.longitude_deg = mean.longitude_deg;
    average.scatter_east_m = east.scatter();
    average.scatter_north_m = north.scatter();
    return true;
}

void fill_claims(const std::vector<PositionFix>& fixes, AveragedPosition& average) {
    Column east;
    Column north;
    for (const PositionFix& fix : fixes) {
        const FixUncertainty claimed = claimed_uncertainty(fix);
        east.values.push_back(claimed.east_m);
        north.values.push_back(claimed.north_m);
    }
    average.claimed_east_m = east.root_mean_square();
    average.claimed_north_m = north.root_mean_square();
    const double root_n = std::sqrt(average.effective_n);
    average.u_east_m = std::max(average.scatter_east_m, average.claimed_east_m) / root_n;
    average.u_north_m = std::max(average.scatter_north_m, average.claimed_north_m) / root_n;
}

void fill_heights(const std::vector<PositionFix>& fixes, AveragedPosition& average) {
    Column height;
    Column claim;
    for (const PositionFix& fix : fixes) {
        const std::optional<double> one = fix.height_msl_m ? fix.height_msl_m : fix.height_ellipsoid_m;
        if (!one)
            continue;
        height.values.push_back(*one);
        claim.values.push_back(claimed_uncertainty(fix).up_m);
    }
    average.n_height = height.values.size();
    if (height.values.empty())
        return;
    average.height_msl_m = mean_of_known(fixes, &PositionFix::height_msl_m);
    average.height_ellipsoid_m = mean_of_known(fixes, &PositionFix::height_ellipsoid_m);
    average.geoid_separation_m = mean_of_known(fixes, &PositionFix::geoid_separation_m);
    average.scatter_up_m = height.scatter();
    average.claimed_up_m = claim.root_mean_square();
    const double independent = std::min(average.effective_n, static_cast<double>(average.n_height));
    average.u_up_m = std::max(*average.scatter_up_m, *average.claimed_up_m) / std::sqrt(independent);
}

void fill_qualities(const std::vector<PositionFix>& fixes, AveragedPosition& average) {
    average.best_quality = average.worst_quality = fixes.front().quality;
    for (const PositionFix& fix : fixes) {
        if (better(fix.quality, average.best_quality))
            average.best_quality = fix.quality;
        if (better(average.worst_quality, fix.quality))
            average.worst_quality = fix.quality;
    }
}

void remark(AveragedPosition& average) {
    Findings& findings = average.findings;
    const double scatter_m = std::max(average.scatter_east_m, average.scatter_north_m);
    const double claimed_m = std::max(average.claimed_east_m, average.claimed_north_m);
    if (average.left_out > 0)
        findings.push_back(warning("position.fixes_left_out", {},
                                   {{"left_out", static_cast<std::int64_t>(average.left_out)},
                                    {"used", static_cast<std::int64_t>(average.n)}}));
    if (average.scatter_east_m > kMovedFactor * average.claimed_east_m ||
        average.scatter_north_m > kMovedFactor * average.claimed_north_m)
        findings.push_back(warning("position.moved_while_averaging", {},
                                   {{"scatter", scatter_m, Quantity::Length},
                                    {"claimed", claimed_m, Quantity::Length}}));
    if (claimed_m > kUnsureAxis_m)
        findings.push_back(warning("position.receiver_unsure", {},
                                   {{"claimed", claimed_m, Quantity::Length},
                                    {"limit", kUnsureAxis_m, Quantity::Length}}));
    if (average.best_quality != average.worst_quality)
        findings.push_back(warning("position.mixed_quality", {},
                                   {{"best", std::string(fix_quality_id(average.best_quality))},
                                    {"worst", std::string(fix_quality_id(average.worst_quality))}}));
    if (average.n_height == 0)
        findings.push_back(warning("position.no_height"));
    if (average.seconds < kAdvisedAveraging_s)
        findings.push_back(note("position.short_average", {},
                                {{"seconds", average.seconds, Quantity::Time},
                                 {"limit", kAdvisedAveraging_s, Quantity::Time}}));
}

std::optional<Estimate> with_uncertainty(const std::optional<double>& value, const std::optional<double>& u) {
    return value && u ? std::optional<Estimate>{Estimate{*value, *u}} : std::nullopt;
}

} // namespace

std::optional<Estimate> AveragedPosition::ellipsoid_height() const {
    return with_uncertainty(height_ellipsoid_m, u_up_m);
}

std::optional<Estimate> AveragedPosition::msl_height() const {
    return with_uncertainty(height_msl_m, u_up_m);
}

Expected<AveragedPosition> average_position(std::span<const PositionFix> fixes, const AveragingOptions& options) {
    if (!std::isfinite(options.correlation_time_s) || options.correlation_time_s <= 0.0)
        return refusal("position.bad_correlation_time", {},
                       {{"correlation_time", options.correlation_time_s, Quantity::Time}});
    const std::vector<PositionFix> used = usable_by_time(fixes);
    if (used.empty())
        return refusal("position.nothing_to_average", {}, {{"fixes", static_cast<std::int64_t>(fixes.size())}});
    AveragedPosition average;
    average.n = used.size();
    average.left_out = fixes.size() - used.size();
    if (!fill_plan(used, average))
        return refusal("position.spread_too_wide", {}, {{"limit", kWidestSpread_m, Quantity::Length}});
    count_time(used, options.correlation_time_s, average);
    fill_claims(used, average);
    fill_heights(used, average);
    fill_qualities(used, average);
    average.time_utc = used.back().time_utc;
    average.source = used.back().source;
    remark(average);
    return average;
}

} // namespace rillmark
