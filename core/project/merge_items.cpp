// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/merge_items.h"

#include "project/sqlite.h"

#include <algorithm>
#include <tuple>

namespace rillmark {

namespace {

/// One deed on the columns of a group.
struct Step {
    LoggedChange first; // stands for the deed
    std::map<std::string, std::pair<CellText, CellText>> cells; // before and after
    std::string effective_at;
    std::map<std::string, CellText> values; // of the whole group after it
};

std::vector<Step> steps_in_sequence(const ColumnGroup& group, const std::vector<LoggedChange>& changes) {
    std::vector<const LoggedChange*> ours;
    for (const LoggedChange& change : changes)
        if (std::ranges::find(group, change.column) != group.end())
            ours.push_back(&change);
    const auto place = [](const LoggedChange* change) { return std::tuple(change->sequence, change->id); };
    std::ranges::sort(ours, {}, place);
    std::map<Id, Step> by_action;
    for (const LoggedChange* change : ours) {
        Step& step = by_action[change->action_id];
        if (step.cells.empty())
            step.first = *change;
        step.cells[change->column] = {change->before, change->after};
    }
    std::vector<Step> steps;
    for (auto& [action, step] : by_action)
        steps.push_back(std::move(step));
    std::ranges::sort(steps, {}, [&](const Step& step) { return place(&step.first); });
    return steps;
}

/// Can `step` have been made on top of `earlier`? The log does not name the change that one replaces, but its values do.
bool may_follow(const Step& step, const Step& earlier) {
    return earlier.first.sequence < step.first.sequence && std::ranges::all_of(step.cells, [&](const auto& cell) {
               return earlier.values.at(cell.first) == cell.second.first;
           });
}

auto rank(const Step& step) {
    return std::tie(step.effective_at, step.first.sequence, step.first.device, step.first.id);
}

} // namespace

LoggedChanges read_changes(sqlite::Database& database) {
    LoggedChanges changes;
    sqlite::Run run = database.run("SELECT id, sequence, action_id, at, device, table_name, row_id, column_name, before, "
                                   "after FROM edit_log WHERE verb = 'changed' AND column_name IS NOT NULL");
    while (run.step())
        changes[{run.text(5), run.integer(6)}].push_back(
            {run.integer(0), run.integer(1), run.integer(2), run.text(3), run.text(4), run.text(7),
             run.null(8) ? std::nullopt : CellText(run.text(8)), run.null(9) ? std::nullopt : CellText(run.text(9))});
    return changes;
}

std::vector<ColumnGroup> column_groups(const Table& table) {
    std::vector<ColumnGroup> groups;
    for (const TableColumn& column : table.columns) {
        if (column.name == "id" || column.name == "booked_order" || column.kind == CellKind::Point)
            continue;
        // A place made of one person's longitude and another's latitude is a place where nobody was.
        if (column.name == "latitude_deg")
            continue;
        groups.push_back(column.name == "longitude_deg" ? ColumnGroup{column.name, "latitude_deg"}
                                                        : ColumnGroup{column.name});
    }
    return groups;
}

Settled settle(const ColumnGroup& group, const std::vector<LoggedChange>& changes,
               const std::map<std::string, CellText>& unlogged) {
    std::vector<Step> steps = steps_in_sequence(group, changes);
    // Nothing came before the first change of a column: it replaced the value that the row was booked with.
    std::map<std::string, CellText> start = unlogged;
    for (auto step = steps.rbegin(); step != steps.rend(); ++step)
        for (const auto& [column, cell] : step->cells)
            start[column] = cell.first;
    const Step* winner = nullptr;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        Step& step = steps[i];
        step.effective_at = step.first.at;
        step.values = start;
        const Step* base = nullptr;
        for (std::size_t j = 0; j < i; ++j)
            if (may_follow(step, steps[j]) && (!base || rank(*base) < rank(steps[j])))
                base = &steps[j];
        if (base) {
            step.effective_at = std::max(step.effective_at, base->effective_at);
            step.values = base->values;
        }
        for (const auto& [column, cell] : step.cells)
            step.values[column] = cell.second;
        if (!winner || rank(*winner) < rank(step))
            winner = &step;
    }
    if (!winner)
        return {start, std::nullopt};
    return {winner->values, winner->first};
}

} // namespace rillmark
