// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/records.h"
#include "project/tables.h"

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

/// Which value of a column holds, by the changes that the edit logs tell.
namespace rillmark {

using CellText = std::optional<std::string>;

/// A changed column of an item: one row of the edit log.
struct LoggedChange {
    Id id = 0;
    std::int64_t sequence = 0;
    Id action_id = 0;
    std::string at;
    std::string device;
    std::string column;
    CellText before;
    CellText after;
};

/// The changes of each row, by table and key.
using LoggedChanges = std::map<std::pair<std::string, Id>, std::vector<LoggedChange>>;
[[nodiscard]] LoggedChanges read_changes(sqlite::Database& database);

/// Columns that only make sense together; most stand alone.
using ColumnGroup = std::vector<std::string>;
[[nodiscard]] std::vector<ColumnGroup> column_groups(const Table& table);

/// The values of a group of columns and the change that made them last; no stamp when nothing in the log did.
struct Settled {
    std::map<std::string, CellText> values;
    std::optional<LoggedChange> last;
};

/// What a set of changes makes of a group. `unlogged` holds the values for columns of which the log says nothing.
/// The result depends on the set alone, not on its order.
[[nodiscard]] Settled settle(const ColumnGroup& group, const std::vector<LoggedChange>& changes,
                             const std::map<std::string, CellText>& unlogged);

} // namespace rillmark
