// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/merge_rows.h"

#include "project/merge_items.h"
#include "project/project_impl.h"
#include "project/tables.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <variant>

namespace rillmark {

namespace {

using sqlite::Database;
using sqlite::Run;

using Blob = std::vector<unsigned char>;
using Cell = std::variant<std::monostate, std::int64_t, double, std::string, Blob>;
using Cells = std::vector<Cell>;

Cell read_cell(const Run& run, int index, CellKind kind) {
    if (run.null(index))
        return {};
    switch (kind) {
    case CellKind::Integer:
    case CellKind::Boolean: return run.integer(index);
    case CellKind::Real: return run.real(index);
    case CellKind::Text: return run.text(index);
    case CellKind::Blob:
    case CellKind::Point: break;
    }
    const auto bytes = run.blob(index);
    return Blob(bytes.begin(), bytes.end());
}

Cells read_cells(const Run& run, const Table& table) {
    Cells cells;
    for (const TableColumn& column : table.columns)
        cells.push_back(read_cell(run, static_cast<int>(cells.size()), column.kind));
    return cells;
}

void bind_cell(Run& run, int index, const Cell& cell) {
    std::visit(
        [&]<class Value>(const Value& value) {
            if constexpr (std::is_same_v<Value, std::monostate>)
                run.bind_null(index);
            else if constexpr (std::is_same_v<Value, std::string>)
                run.bind(index, std::string_view(value));
            else if constexpr (std::is_same_v<Value, Blob>)
                run.bind(index, std::span<const unsigned char>(value));
            else
                run.bind(index, value);
        },
        cell);
}

/// As the edit log keeps it.
CellText cell_text(const Cell& cell) {
    return std::visit(
        []<class Value>(const Value& value) -> CellText {
            if constexpr (std::is_same_v<Value, std::string>)
                return value;
            else if constexpr (std::is_arithmetic_v<Value>)
                return number_text(value);
            else
                return std::nullopt;
        },
        cell);
}

std::string column_list(const Table& table) {
    std::string list;
    for (const TableColumn& column : table.columns)
        list += (list.empty() ? "" : ", ") + column.name;
    return list;
}

void insert_cells(Database& database, const Table& table, const Cells& cells) {
    std::string marks = "?";
    for (std::size_t i = 1; i < cells.size(); ++i)
        marks += ", ?";
    write_to(table.name.c_str(), [&] {
        Run run = database.run("INSERT INTO " + table.name + " (" + column_list(table) + ") VALUES (" + marks + ")");
        for (std::size_t i = 0; i < cells.size(); ++i)
            bind_cell(run, static_cast<int>(i) + 1, cells[i]);
        run.step();
    });
}

Id site_id(Database& database) {
    return database.integer("SELECT id FROM site ORDER BY booked_order, id LIMIT 1");
}

/// One merge of one other file.
class RowMerge {
public:
    RowMerge(Database& mine, Database& other, std::string file, MergeReport& report)
        : m_mine(mine), m_other(other), m_file(std::move(file)), m_report(report) {}

    void run(const MergeOptions& options) {
        m_my_site = site_id(m_mine);
        if (site_id(m_other) != m_my_site && !options.allow_other_site)
            throw Refused{refusal("project.other_site", m_file,
                                  {{"mine", m_mine.text("SELECT name FROM site ORDER BY booked_order, id LIMIT 1"),
                                    Quantity::Number},
                                   {"other", m_other.text("SELECT name FROM site ORDER BY booked_order, id LIMIT 1"),
                                    Quantity::Number}})};
        m_my_changes = read_changes(m_mine);
        m_other_changes = read_changes(m_other);
        for (const Table& table : tables())
            if (table.name == "station_photo")
                unite_photo_links();
            else if (table.name != "schema_version")
                unite(table);
        for (const auto& [table, id] : m_shared_items)
            settle_item(*table, id);
    }

private:
    Database& m_mine;
    Database& m_other;
    std::string m_file;
    MergeReport& m_report;
    Id m_my_site = 0;
    LoggedChanges m_my_changes;
    LoggedChanges m_other_changes;
    std::vector<std::pair<const Table*, Id>> m_shared_items; // in both, and different or with changes in the log

    void count_added(const Table& table, std::int64_t rows) {
        if (rows == 0)
            return;
        m_report.added.push_back({m_file, table.name, rows});
        m_report.changed = true;
    }

    /// The row of another site, and what was done to it, stays out.
    [[nodiscard]] bool of_other_site(const Table& table, const Cells& cells) const {
        if (table.name == SiteRow::kTable)
            return std::get<Id>(cells.front()) != m_my_site;
        if (table.name != "edit_log")
            return false;
        const auto at = [&](std::string_view name) -> const Cell& {
            const auto found = std::ranges::find(table.columns, name, &TableColumn::name);
            return cells[static_cast<std::size_t>(found - table.columns.begin())];
        };
        return at("table_name") == Cell(std::string(SiteRow::kTable)) && at("row_id") != Cell(m_my_site);
    }

    void unite(const Table& table) {
        const std::string select = "SELECT " + column_list(table) + " FROM " + table.name;
        std::int64_t added = 0;
        Run others = m_other.run(select + " ORDER BY id");
        while (others.step()) {
            const Cells theirs = read_cells(others, table);
            if (of_other_site(table, theirs))
                continue;
            const auto& id = std::get<Id>(theirs.front());
            std::optional<Cells> ours;
            {
                Run run = m_mine.run(select + " WHERE id = ?");
                if (run.bind(1, id).step())
                    ours = read_cells(run, table);
            }
            if (!ours) {
                insert_cells(m_mine, table, theirs);
                ++added;
            } else {
                compare(table, id, *ours, theirs);
            }
        }
        count_added(table, added);
    }

    void compare(const Table& table, Id id, const Cells& ours, const Cells& theirs) {
        const bool item = table.sort == Table::Sort::Item;
        // Never changed: all of an observation, the place in the order of booking of an item.
        if (item ? ours.back() != theirs.back() : ours != theirs)
            throw Refused{refusal("project.row_differs", m_file,
                                  {{"table", table.name, Quantity::Number}, {"id", id, Quantity::Number}})};
        if (item && (ours != theirs || m_other_changes.contains({table.name, id})))
            m_shared_items.emplace_back(&table, id);
    }

    void unite_photo_links() {
        const Table& table = *find_table("station_photo");
        std::int64_t added = 0;
        Run others = m_other.run("SELECT base_id, related_id FROM station_photo ORDER BY base_id, related_id");
        while (others.step()) {
            const Cells cells = read_cells(others, table);
            {
                Run run = m_mine.run("SELECT 1 FROM station_photo WHERE base_id = ? AND related_id = ?");
                bind_cell(run, 1, cells[0]);
                bind_cell(run, 2, cells[1]);
                if (run.step())
                    continue;
            }
            insert_cells(m_mine, table, cells);
            ++added;
        }
        count_added(table, added);
    }

    static std::map<std::string, CellText> values_of(Database& database, const Table& table, Id id) {
        std::map<std::string, CellText> values;
        Run run = database.run("SELECT " + column_list(table) + " FROM " + table.name + " WHERE id = ?");
        if (run.bind(1, id).step()) {
            int index = 0;
            for (const TableColumn& column : table.columns)
                values[column.name] = cell_text(read_cell(run, index++, column.kind));
        }
        return values;
    }

    void settle_item(const Table& table, Id id) {
        const auto ours = values_of(m_mine, table, id);
        const auto theirs = values_of(m_other, table, id);
        const std::vector<LoggedChange>& my_changes = m_my_changes[{table.name, id}];
        const std::vector<LoggedChange>& their_changes = m_other_changes[{table.name, id}];
        std::vector<LoggedChange> all = my_changes;
        std::set<Id> known;
        for (const LoggedChange& change : my_changes)
            known.insert(change.id);
        std::ranges::copy_if(their_changes, std::back_inserter(all),
                             [&](const LoggedChange& change) { return !known.contains(change.id); });
        std::map<std::string, CellText> written;
        for (const ColumnGroup& group : column_groups(table)) {
            std::map<std::string, CellText> unlogged;
            for (const std::string& column : group)
                unlogged[column] = std::max(ours.at(column), theirs.at(column));
            const Settled kept = settle(group, all, unlogged);
            const Settled mine = settle(group, my_changes, ours);
            const Settled other = settle(group, their_changes, theirs);
            for (const std::string& column : group) {
                if (kept.values.at(column) != ours.at(column))
                    written[column] = kept.values.at(column);
                if (in_conflict(column, {ours, mine, my_changes}, {theirs, other, their_changes}, kept))
                    m_report.conflicts.push_back({m_file, table.name, id, column, side(column, ours, mine),
                                                  side(column, theirs, other), kept.values.at(column)});
            }
        }
        write_item(table, id, written);
    }

    /// One file's view of a row: its values, what its log makes of a group of columns, and that log.
    struct View {
        const std::map<std::string, CellText>& values;
        const Settled& settled;
        const std::vector<LoggedChange>& changes;
    };

    /// Does the log say why the column holds what it holds? Other programs change a file without a log.
    static bool explained(const std::string& column, const std::map<std::string, CellText>& values,
                          const Settled& settled) {
        return settled.values.at(column) == values.at(column);
    }

    /// Was the last change of this side made without the other knowing of it?
    static bool unseen(const View& side, const View& by) {
        return side.settled.last &&
               std::ranges::find(by.changes, side.settled.last->id, &LoggedChange::id) == by.changes.end();
    }

    static bool in_conflict(const std::string& column, const View& mine, const View& other, const Settled& kept) {
        if (mine.values.at(column) == other.values.at(column))
            return false;
        const bool logged = explained(column, mine.values, mine.settled) && explained(column, other.values, other.settled);
        return !logged || !kept.last || (unseen(mine, other) && unseen(other, mine));
    }

    static MergeSide side(const std::string& column, const std::map<std::string, CellText>& values,
                          const Settled& settled) {
        MergeSide side{values.at(column), {}, {}};
        if (settled.last && explained(column, values, settled)) {
            side.at = settled.last->at;
            side.device = settled.last->device;
        }
        return side;
    }

    void write_item(const Table& table, Id id, const std::map<std::string, CellText>& values) {
        if (values.empty())
            return;
        std::string assignments;
        for (const auto& [column, value] : values)
            assignments += (assignments.empty() ? "" : ", ") + column + " = ?";
        write_to(table.name.c_str(), [&] {
            Run run = m_mine.run("UPDATE " + table.name + " SET " + assignments + " WHERE id = ?");
            int index = 1;
            for (const auto& [column, value] : values) {
                if (value)
                    bind_text(run, index, find_column(table, column)->kind, *value);
                ++index;
            }
            run.bind(index, id).step();
        });
        if (table.geometry)
            refresh_geometry(m_mine, table.name, id);
        m_report.changed_cells += static_cast<std::int64_t>(values.size());
        m_report.changed = true;
    }
};

} // namespace

void merge_rows(Database& mine, Database& other, const std::string& other_file, const MergeOptions& options,
                MergeReport& report) {
    RowMerge(mine, other, other_file, report).run(options);
}

} // namespace rillmark
