// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/csv.h"
#include "exchange/reduce_table.h"
#include "finding.h"
#include "uncertainty/estimate.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace rillmark {

/// One figure that a reduction gives. `code` is worded by the UI; what follows its last point is a stable name for
/// other programs ("exchange.result.discharge").
struct NamedResult {
    std::string code;
    std::string subject; // the case of a file that holds several; else empty
    Estimate estimate;   // SI
    Quantity quantity = Quantity::Number;
};

/// A table of intermediate figures: levels, fills, panels.
struct ResultTable {
    struct Column {
        std::string code; // as NamedResult::code
        std::optional<Quantity> quantity; // none: text
    };
    using Cell = std::variant<std::monostate, std::string, Estimate>; // monostate: not known
    std::string code;
    std::vector<Column> columns;
    std::vector<std::vector<Cell>> rows;
};

/// What one method makes of one file.
struct Reduction {
    std::string method;
    std::vector<NamedResult> results;
    std::vector<ResultTable> tables;
    Findings findings; // warnings and notes; those about one row carry its place, see at_place
};

/// A way to compute from a text table, with all that a person must know to make the table.
struct ReduceMethod {
    std::string_view id;   // typed at the desk command; never changed
    std::string_view what; // code, worded by the UI
    std::span<const ReduceField> columns;
    std::span<const ReduceField> parameters;
    Expected<Reduction> (*reduce)(const ReduceTable& table);
};

/// All methods. A new one is one file and one line of this table.
[[nodiscard]] std::span<const ReduceMethod> reduce_methods();
[[nodiscard]] const ReduceMethod* find_reduce_method(std::string_view id);

/// Computes one method from a table. Parameters are as typed, `name` or `name_unit` and a value that may carry a unit.
///
/// Refuses what read_reduce_table refuses and what the method's own computation refuses; each refusal that is about a
/// cell has its place, see at_place, the column under its plain name. Nothing is stored anywhere.
[[nodiscard]] Expected<Reduction> reduce_table(const ReduceMethod& method, const CsvTable& table,
                                               const std::vector<TypedParameter>& parameters = {});

} // namespace rillmark
