// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/hand_level.h"

#include "heights/input_range.h"

#include <cmath>

namespace rillmark {

Expected<MeasuredRise> hand_level(const HandLevelLine& line) {
    const double eye_m = line.eye_height_m.value;
    if (const auto bad = first_out_of_range(
            {{"levels.sights", static_cast<double>(line.sights), 0.0, 10000.0, Quantity::Number},
             {"levels.eye_height", eye_m, 0.3, 2.5, Quantity::Length},
             {"levels.eye_height_uncertainty", line.eye_height_m.standard_uncertainty, 0.0, 0.5, Quantity::Length},
             {"levels.part", line.part_m, 0.0, 10.0, Quantity::Length},
             {"levels.last_staff_reading", line.last_staff_reading_m.value_or(0.0), 0.0, 10.0, Quantity::Length},
             {"levels.pointing", line.pointing_m, 0.0001, 1.0, Quantity::Length}}))
        return *bad;
    if (line.part_m > 0.0 && line.last_staff_reading_m)
        return refusal("levels.part_given_twice", "levels.part");
    const bool has_part = line.part_m > 0.0 || line.last_staff_reading_m;
    if (line.sights == 0 && !has_part)
        return refusal("levels.nothing_measured");

    const double sign = line.downwards ? -1.0 : 1.0;
    const double eye_heights = line.sights + (line.last_staff_reading_m ? 1.0 : 0.0);
    const double pointings = line.sights + (has_part ? 1.0 : 0.0);
    MeasuredRise result;
    result.rise_m = sign * (eye_heights * eye_m + line.part_m - line.last_staff_reading_m.value_or(0.0));
    result.random_m = line.pointing_m * std::sqrt(pointings);
    const double eye_effect_m = sign * eye_heights * line.eye_height_m.standard_uncertainty;
    result.shared.push_back({"eye-height:" + line.run, "levels.eye_height", eye_effect_m});
    if (std::abs(eye_effect_m) > result.random_m)
        result.findings.push_back(note(
            "levels.eye_height_governs", "levels.eye_height",
            {{"effect", std::abs(eye_effect_m), Quantity::Length}, {"random", result.random_m, Quantity::Length}}));
    if (line.part_m > eye_m)
        result.findings.push_back(
            warning("levels.part_above_eye_height", "levels.part",
                    {{"part", line.part_m, Quantity::Length}, {"eye_height", eye_m, Quantity::Length}}));
    return result;
}

} // namespace rillmark
