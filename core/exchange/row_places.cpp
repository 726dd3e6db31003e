// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/row_places.h"

#include <algorithm>

namespace rillmark {

Finding RowPlaces::put(Finding finding) const {
    std::optional<std::size_t> file_row;
    for (Arg& arg : finding.args) {
        if (arg.name != "row" && arg.name != "other")
            continue;
        const auto* const item = std::get_if<std::int64_t>(&arg.value);
        if (item == nullptr || *item < 1 || static_cast<std::size_t>(*item) > rows.size())
            continue;
        const std::size_t row = rows[static_cast<std::size_t>(*item) - 1];
        if (arg.name == "row")
            file_row = row;
        arg.value = table.line(row);
    }
    if (!file_row)
        return finding;
    const auto field = std::ranges::find(fields, finding.where, &PlacedField::where);
    return table.at(std::move(finding), *file_row, field == fields.end() ? std::string_view{} : field->column);
}

} // namespace rillmark
