// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/roughness_table.h"

#include "exchange/csv.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <numbers>

namespace rillmark {

namespace {

constexpr std::string_view kFile = "manning_n.csv";
constexpr std::array<std::string_view, 7> kColumns{"id", "label", "n_min", "n_normal", "n_max", "source", "provenance"};

double number(const std::string& cell) {
    double value = 0.0; // what is no number stays zero, which the caller refuses
    const auto [stop, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
    return error == std::errc() && stop == cell.data() + cell.size() ? value : 0.0;
}

} // namespace

Estimate ChannelRoughness::estimate() const {
    return {usual, 0.5 * (highest - lowest) / std::numbers::sqrt3};
}

Expected<std::vector<ChannelRoughness>> read_channel_roughness(std::span<const EmbeddedText> texts) {
    const auto text = std::ranges::find(texts, kFile, &EmbeddedText::file);
    if (text == texts.end())
        return refusal("flow.table_missing", std::string(kFile));
    const Expected<CsvTable> csv = read_csv(text->text, std::string(kFile));
    if (!csv)
        return csv.error();
    if (!std::ranges::equal(csv->header, kColumns))
        return refusal("flow.table_bad_row", std::string(kFile), {{"line", csv->header_line}});
    std::vector<ChannelRoughness> table;
    for (std::size_t row = 0; row < csv->size(); ++row) {
        const auto text_of = [&](std::size_t column) { return std::string(csv->cell(row, column)); };
        const ChannelRoughness one{text_of(0),         text_of(1), number(text_of(2)), number(text_of(3)),
                                   number(text_of(4)), text_of(5), text_of(6)};
        if (!(one.lowest > 0.0 && one.lowest <= one.usual && one.usual <= one.highest && one.highest < 1.0))
            return refusal("flow.table_bad_row", std::string(kFile), {{"line", csv->line(row)}});
        table.push_back(one);
    }
    return table;
}

Expected<ChannelRoughness> channel_roughness(std::string_view id) {
    const Expected<std::vector<ChannelRoughness>> table = read_channel_roughness();
    if (!table)
        return table.error();
    std::string accepted;
    for (const ChannelRoughness& one : *table) {
        if (one.id == id)
            return one;
        accepted += (accepted.empty() ? "" : ", ") + one.id;
    }
    return refusal("flow.unknown_channel", {}, {{"id", std::string(id)}, {"accepted", accepted}});
}

} // namespace rillmark
