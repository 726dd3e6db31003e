// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/project_impl.h"
#include "project/tables.h"

namespace rillmark {

namespace {

using sqlite::Database;
using sqlite::Run;

// The reason of a strike-out or restoration that undo() makes; the screen words it.
constexpr const char* kUndone = "undone";

/// Refuses tables whose rows cannot be struck out, rows that are not there and an empty reason.
void check_strike(Database& database, const std::string& table, Id id, const std::string& reason) {
    const Arg table_arg{"table", table, Quantity::Number};
    const Table* known = find_table(table);
    if (!known || known->sort == Table::Sort::Bookkeeping || table == SiteRow::kTable || table == StrikeOutRow::kTable)
        throw Refused{refusal("project.no_such_table", table, {table_arg})};
    if (!row_exists(database, table, id))
        throw Refused{refusal("project.no_such_row", table, {table_arg, {"id", id, Quantity::Number}})};
    if (reason.empty())
        throw Refused{refusal("project.reason_missing", table, {table_arg})};
}

/// More than one strike-out where the row was taken back more often than struck: in two files before they were merged.
void strike_row(Deed& deed, const std::string& table, Id id, const std::string& reason) {
    for (std::int64_t left = strikes_in_force(deed.database(), table, id); left <= 0; ++left)
        insert_strike_out(deed, {0, table, id, reason, false, {}});
}

/// Takes back every strike-out in force: two people may have struck the same row before their files were merged.
void restore_row(Deed& deed, const std::string& table, Id id, const std::string& reason) {
    for (std::int64_t left = strikes_in_force(deed.database(), table, id); left > 0; --left)
        insert_strike_out(deed, {0, table, id, reason, true, {}});
}

/// The first entry of the last action that neither undoes another nor was undone.
std::optional<Project::Action> find_last_action(Database& database, Id* action_id) {
    Run last = database.run("SELECT action_id FROM edit_log AS entry WHERE undoes IS NULL AND NOT EXISTS "
                            "(SELECT 1 FROM edit_log AS undoing WHERE undoing.undoes = entry.action_id) "
                            "ORDER BY sequence DESC LIMIT 1");
    if (!last.step())
        return std::nullopt;
    *action_id = last.integer(0);
    // An action bears the key of its first entry.
    Run first = database.run("SELECT verb, table_name, row_id, at FROM edit_log WHERE id = ?");
    first.bind(1, *action_id);
    if (!first.step())
        return std::nullopt;
    return Project::Action{first.text(0), first.text(1), first.integer(2), first.text(3)};
}

struct Entry {
    std::string verb;
    std::string table;
    Id row_id = 0;
    std::string column;
    std::optional<std::string> before;
    std::optional<std::string> after;
};

std::vector<Entry> entries_backwards(Database& database, Id action_id) {
    std::vector<Entry> entries;
    Run run = database.run("SELECT verb, table_name, row_id, column_name, before, after FROM edit_log "
                           "WHERE action_id = ? ORDER BY sequence DESC");
    run.bind(1, action_id);
    while (run.step())
        entries.push_back({run.text(0), run.text(1), run.integer(2), run.text_or_empty(3),
                           run.null(4) ? std::nullopt : std::optional(run.text(4)),
                           run.null(5) ? std::nullopt : std::optional(run.text(5))});
    return entries;
}

/// What a column holds now, as the edit log keeps it. After a merge that need not be what the change to take back made
/// of it.
std::optional<std::string> text_now(Database& database, const Table& table, const TableColumn& column, Id id) {
    Run run = database.run("SELECT " + column.name + " FROM " + table.name + " WHERE id = ?");
    run.bind(1, id);
    if (!run.step() || run.null(0))
        return std::nullopt;
    switch (column.kind) {
    case CellKind::Integer:
    case CellKind::Boolean: return number_text(run.integer(0));
    case CellKind::Real: return number_text(run.real(0));
    default: return run.text(0);
    }
}

/// Reverses all changed columns of one row in one statement, so that limits between columns hold.
void change_back(Deed& deed, const std::vector<const Entry*>& changes) {
    const Table* table = find_table(changes.front()->table);
    std::string assignments;
    std::vector<CellKind> kinds;
    for (const Entry* change : changes) {
        const TableColumn* column = table ? find_column(*table, change->column) : nullptr;
        if (!column)
            throw Refused{refusal("project.no_such_table", change->table,
                                  {{"table", change->table, Quantity::Number}})};
        kinds.push_back(column->kind);
        assignments += (assignments.empty() ? "" : ", ") + column->name + " = ?";
        deed.log({"changed", change->table, change->row_id, change->column,
                  text_now(deed.database(), *table, *column, change->row_id), change->before});
    }
    const Id id = changes.front()->row_id;
    write_to(table->name.c_str(), [&] {
        Run run = deed.database().run("UPDATE " + table->name + " SET " + assignments + " WHERE id = ?");
        int index = 1;
        for (const Entry* change : changes) {
            if (change->before)
                bind_text(run, index, kinds[static_cast<std::size_t>(index - 1)], *change->before);
            ++index;
        }
        run.bind(index, id).step();
    });
    if (table->geometry)
        refresh_geometry(deed.database(), table->name, id);
}

void take_back(Deed& deed, const std::vector<Entry>& entries) {
    std::vector<const Entry*> changes;
    for (const Entry& entry : entries) {
        if (entry.verb == "changed") {
            changes.push_back(&entry); // all of one row: change() is one action
        } else if (entry.verb == "struck") {
            restore_row(deed, entry.table, entry.row_id, kUndone);
        } else if (strikes_in_force(deed.database(), entry.table, entry.row_id) <= 0) {
            strike_row(deed, entry.table, entry.row_id, kUndone); // booked or restored
        }
    }
    if (!changes.empty())
        change_back(deed, changes);
}

} // namespace

bool row_exists(Database& database, const std::string& table, Id id) {
    Run run = database.run("SELECT 1 FROM " + table + " WHERE id = ?");
    run.bind(1, id);
    return run.step();
}

void insert_strike_out(Deed& deed, const StrikeOutRow& row) {
    StrikeOutRow record = row;
    complete(deed, record);
    write_to(StrikeOutRow::kTable, [&] {
        const std::int64_t order =
            deed.log({record.restores ? "restored" : "struck", record.struck_table, record.struck_id, {}, {}, record.reason});
        Run run = deed.database().run(insert_sql<StrikeOutRow>());
        bind_record(run, record, order);
        run.step();
    });
}

std::int64_t strikes_in_force(Database& database, const std::string& table, Id id) {
    Run run = database.run("SELECT coalesce(sum(CASE WHEN restores THEN -1 ELSE 1 END), 0) FROM strike_out "
                           "WHERE struck_table = ? AND struck_id = ?");
    run.bind(1, table).bind(2, id);
    return run.step() ? run.integer(0) : 0;
}

Expected<void> Project::strike(std::string_view table, Id id, const std::string& reason) {
    return strike(table, std::vector{id}, reason);
}

Expected<void> Project::restore(std::string_view table, Id id, const std::string& reason) {
    return restore(table, std::vector{id}, reason);
}

Expected<void> Project::strike(std::string_view table, const std::vector<Id>& ids, const std::string& reason) {
    const std::string name(table);
    return m_impl->write([&](Deed& deed) {
        for (const Id id : ids) {
            check_strike(deed.database(), name, id, reason);
            if (strikes_in_force(deed.database(), name, id) > 0)
                throw Refused{refusal("project.already_struck", name, {{"table", name, Quantity::Number}})};
            strike_row(deed, name, id, reason);
        }
    });
}

Expected<void> Project::restore(std::string_view table, const std::vector<Id>& ids, const std::string& reason) {
    const std::string name(table);
    return m_impl->write([&](Deed& deed) {
        for (const Id id : ids) {
            check_strike(deed.database(), name, id, reason);
            if (strikes_in_force(deed.database(), name, id) <= 0)
                throw Refused{refusal("project.not_struck", name, {{"table", name, Quantity::Number}})};
            restore_row(deed, name, id, reason);
        }
    });
}

std::optional<Project::Action> Project::last_action() const {
    Id action_id = 0;
    const auto found = guarded(m_impl->where(), [&] { return find_last_action(m_impl->database, &action_id); });
    return found ? found.value() : std::nullopt;
}

Expected<Project::Action> Project::undo() {
    Id action_id = 0;
    const auto found = guarded(m_impl->where(), [&] { return find_last_action(m_impl->database, &action_id); });
    if (!found)
        return found.error();
    if (!found.value())
        return refusal("project.nothing_to_undo", m_impl->where());
    const auto undone = m_impl->write(
        [&](Deed& deed) { take_back(deed, entries_backwards(deed.database(), action_id)); }, action_id);
    if (!undone)
        return undone.error();
    return *found.value();
}

Expected<std::vector<Project::EditLogEntry>> Project::edit_log() const {
    return guarded(m_impl->where(), [&] {
        std::vector<EditLogEntry> entries;
        Run run = m_impl->database.run("SELECT id, at, device, verb, table_name, row_id, column_name, before, after "
                                       "FROM edit_log ORDER BY sequence, id");
        while (run.step())
            entries.push_back({run.integer(0), run.text(1), run.text(2), run.text(3), run.text(4), run.integer(5),
                               run.text_or_empty(6), run.text_or_empty(7), run.text_or_empty(8)});
        return entries;
    });
}

} // namespace rillmark
