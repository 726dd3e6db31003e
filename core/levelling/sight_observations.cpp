// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/sight_observations.h"

#include <cmath>

namespace rillmark {

namespace {

/// ASCII unit separator: no keyboard has it, so no point can be called like a set-up.
constexpr char kInstrumentMark = '\x1f';

double uncertainty_m(const Sight& sight, const SightPrecision& precision) {
    return std::hypot(precision.staff_reading_m, precision.per_metre * sight.distance_m.value_or(0.0));
}

} // namespace

std::string instrument_node(const std::string& book, std::size_t setup) {
    return kInstrumentMark + book + "#" + std::to_string(setup);
}

bool is_instrument_node(const std::string& point) {
    return !point.empty() && point.front() == kInstrumentMark;
}

Expected<std::vector<HeightDifference>> observations_of(const std::vector<Sight>& sights, const std::string& book,
                                                        const SightPrecision& precision) {
    if (!std::isfinite(precision.staff_reading_m) || precision.staff_reading_m <= 0.0)
        return refusal("levels.uncertainty_impossible", book,
                       {{"uncertainty", precision.staff_reading_m, Quantity::Length}});
    if (!std::isfinite(precision.per_metre) || precision.per_metre < 0.0)
        return refusal("levels.uncertainty_impossible", book, {{"uncertainty", precision.per_metre, Quantity::Slope}});
    // The book's own rules: which sight belongs to which set-up must be beyond doubt.
    if (const Expected<ReducedBook> reduced = reduce(sights, 0.0); !reduced)
        return reduced.error();
    std::vector<HeightDifference> observations;
    observations.reserve(sights.size());
    std::size_t setup = 0;
    std::string instrument;
    for (const Sight& sight : sights) {
        if (sight.struck)
            continue;
        HeightDifference o;
        o.id = sight.id;
        o.standard_uncertainty_m = uncertainty_m(sight, precision);
        o.source = "levels.staff_reading";
        o.subject = sight.point;
        if (sight.kind == SightKind::Backsight) {
            instrument = instrument_node(book, ++setup);
            o.from = sight.point;
            o.to = instrument;
            o.rise_m = sight.reading_m;
        } else {
            o.from = instrument;
            o.to = sight.point;
            o.rise_m = -sight.reading_m;
        }
        observations.push_back(std::move(o));
    }
    return observations;
}

} // namespace rillmark
