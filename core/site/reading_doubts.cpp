// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/reading_doubts.h"

#include "levelling/sight_judgement.h"
#include "site/height_runs.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr Id kNotBooked = -1; // no row has such an id

/// The part of the survey that a run is computed from.
Survey survey_of_run(const Survey& survey, const HeightRunRow& run) {
    Survey part;
    part.site = survey.site;
    part.stations = survey.stations;
    part.height_readings = survey.readings(run.id);
    return part;
}

bool told(const Findings& findings, const Finding& wanted) {
    return std::ranges::any_of(
        findings, [&](const Finding& one) { return one.code == wanted.code && one.where == wanted.where; });
}

Estimate with_shared(const HeightDifference& difference) {
    double variance = difference.standard_uncertainty_m * difference.standard_uncertainty_m;
    for (const SharedEffect& one : difference.shared)
        variance += one.effect_m * one.effect_m;
    return {difference.rise_m, std::sqrt(variance)};
}

} // namespace

Findings reading_doubts(const Survey& survey, const SiteHeights& heights, HeightReadingRow reading) {
    const HeightRunRow* run = survey.height_run(reading.run_id);
    if (run == nullptr)
        return {};
    Survey part = survey_of_run(survey, *run);
    const Findings before = run_result(part, *run).findings;
    reading.id = kNotBooked;
    part.height_readings.push_back({std::move(reading), false, {}});
    const RunResult with = run_result(part, *run);
    Findings doubts;
    for (const Finding& one : with.findings)
        if (one.severity != Severity::Note && !told(before, one))
            doubts.push_back(one);
    if (!heights.network)
        return doubts;
    for (const HeightDifference& difference : with.differences) {
        if (difference.id != kNotBooked)
            continue;
        const Expected<Estimate> known = heights.network->difference(difference.from, difference.to);
        if (!known)
            continue;
        const Estimate measured = with_shared(difference);
        const Estimate expected{known->value, std::hypot(known->standard_uncertainty, measured.standard_uncertainty)};
        if (std::optional<Finding> doubt = judge_against_expected(measured.value, expected))
            doubts.push_back(std::move(*doubt));
    }
    return doubts;
}

} // namespace rillmark
