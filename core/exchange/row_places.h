// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/reduce_table.h"
#include "finding.h"

#include <span>
#include <string_view>
#include <vector>

namespace rillmark {

/// The column that a field of a computation came from.
struct PlacedField {
    std::string_view where; // Finding::where of the computation
    std::string_view column;
};

/// Gives the findings of a computation their place in the file: the item that a computation counts in its argument `row`
/// (from 1) came from one row of the file.
struct RowPlaces {
    const ReduceTable& table;
    const std::vector<std::size_t>& rows; // of the file, for each item
    std::span<const PlacedField> fields;

    /// `row` becomes the line of the file, so that the sentence and the place say the same.
    [[nodiscard]] Finding put(Finding finding) const;
};

} // namespace rillmark
