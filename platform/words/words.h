// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"

#include <functional>
#include <span>
#include <string>
#include <string_view>

namespace rillmark::words {

/// Marks a sentence for translation without needing Qt: lupdate is told of this alias (see assets/i18n/README.md).
#define RILLMARK_TR(text) text

/// The English sentence for one code of core. `{name}` stands for the argument of that name, shown in the user's units;
/// `{where}` for the place. `source` is the title of the text that a limit comes from, "common practice, no source",
/// or empty where no limit is named.
struct Word {
    std::string_view code;
    const char* text;
    const char* source;
};

// One table a topic, each in its own file of this folder. A new topic is added here and in words.cpp.
std::span<const Word> uncertainty_words();
std::span<const Word> units_words();
std::span<const Word> position_words();
std::span<const Word> levels_words();
std::span<const Word> height_method_words();
std::span<const Word> level_instrument_words();
std::span<const Word> barometer_words();
std::span<const Word> sensor_words();
std::span<const Word> heights_words();
std::span<const Word> flow_words();
std::span<const Word> gauging_words();
std::span<const Word> flow_method_words();
std::span<const Word> season_words();
std::span<const Word> site_season_words();
std::span<const Word> flow_structures_words();
std::span<const Word> reduce_tracer_words();
std::span<const Word> flow_tracer_words();
std::span<const Word> power_words();
std::span<const Word> plant_words();
std::span<const Word> turbine_words();
std::span<const Word> pipe_pressure_words();
std::span<const Word> project_words();
std::span<const Word> export_words();
std::span<const Word> merge_words();
std::span<const Word> exchange_words();
std::span<const Word> logger_words();
std::span<const Word> site_words();
std::span<const Word> readiness_words();
std::span<const Word> import_words();
std::span<const Word> label_words();
std::span<const Word> photo_words();
std::span<const Word> source_words();
std::span<const Word> sync_words();

/// The word for a code, or nullptr (a test makes sure that every code in core has one).
[[nodiscard]] const Word* find(std::string_view code);

/// Shows one argument of a finding; the UI passes one that knows the user's units and locale.
using ArgFormatter = std::function<std::string(const Arg&)>;
/// Turns an English template into the user's language; the desk command passes none.
using Translator = std::function<std::string(const char*)>;

/// The sentence for a finding. A code without a word comes out as the code itself with its arguments.
[[nodiscard]] std::string sentence(const Finding& finding, const ArgFormatter& format,
                                   const Translator& translate = {});

} // namespace rillmark::words
