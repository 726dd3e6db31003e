// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

#include <array>
#include <map>

namespace rillmark::words {

namespace {

std::map<std::string_view, const Word*> index_all() {
    std::map<std::string_view, const Word*> index;
    const std::array tables{uncertainty_words(),
                            units_words(),
                            position_words(),
                            levels_words(),
                            flow_words(),
                            gauging_words(),
                            power_words(),
                            plant_words(),
                            project_words(),
                            exchange_words(),
                            logger_words(),
                            site_words(), readiness_words(), import_words(),
                            label_words(),
                            photo_words(),
                            source_words(),
                            turbine_words(),
                            pipe_pressure_words(),
                            export_words(),
                            merge_words(),
                            flow_method_words(),
                            season_words(),
                            site_season_words(),
                            flow_structures_words(),
                            reduce_tracer_words(),
                            flow_tracer_words(),
                            heights_words(),
                            sensor_words(),
                            barometer_words(),
                            level_instrument_words(),
                            height_method_words(),
                            sync_words()};
    for (const std::span<const Word> table : tables)
        for (const Word& word : table)
            index.emplace(word.code, &word);
    return index;
}

void replace_all(std::string& text, std::string_view key, const std::string& with) {
    for (std::size_t at = text.find(key); at != std::string::npos; at = text.find(key, at + with.size()))
        text.replace(at, key.size(), with);
}

} // namespace

const Word* find(std::string_view code) {
    static const std::map<std::string_view, const Word*> index = index_all();
    const auto hit = index.find(code);
    return hit == index.end() ? nullptr : hit->second;
}

std::string sentence(const Finding& finding, const ArgFormatter& format, const Translator& translate) {
    const Word* word = find(finding.code);
    if (word == nullptr) {
        std::string bare = finding.code;
        for (const Arg& arg : finding.args)
            bare += " " + arg.name + "=" + format(arg);
        return bare;
    }
    std::string text = translate ? translate(word->text) : word->text;
    for (const Arg& arg : finding.args)
        replace_all(text, "{" + arg.name + "}", format(arg));
    // A place that is itself a code (an input of a computation) has a word of its own.
    const Word* place = find(finding.where);
    const std::string place_name = place == nullptr ? finding.where : translate ? translate(place->text) : place->text;
    replace_all(text, "{where}", place_name);
    return text;
}

} // namespace rillmark::words
