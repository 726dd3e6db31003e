// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/columns.h"
#include "project/geometry.h"
#include "project/project.h"
#include "project/rows.h"
#include "project/sqlite.h"
#include "project/sqlite_finding.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>

/// What the parts of Project share; not for use outside core/project.
namespace rillmark {

/// One line to come in the edit log.
struct LogLine {
    const char* verb;
    std::string_view table;
    Id row_id = 0;
    std::optional<std::string> column;
    std::optional<std::string> before;
    std::optional<std::string> after;
};

/// One deed of the user inside a transaction: its edit-log rows count up and carry one action id.
class Deed {
public:
    Deed(sqlite::Database& database, const ProjectContext& context, std::optional<Id> undoes = std::nullopt);
    /// Writes the line and returns its place in the order of booking.
    std::int64_t log(const LogLine& line);
    [[nodiscard]] const std::string& now() const { return m_now; }
    [[nodiscard]] sqlite::Database& database() { return m_database; }
    [[nodiscard]] Id new_id() const { return m_context.new_id(); }

private:
    sqlite::Database& m_database;
    const ProjectContext& m_context;
    std::optional<Id> m_undoes;
    std::string m_now;
    std::int64_t m_sequence = 0;
    Id m_action_id = 0;
};

struct Project::Impl {
    std::filesystem::path path;
    ProjectContext context;
    sqlite::Database database;
    bool read_only = false;
    bool newer = false;
    // While together() runs:
    Deed* deed = nullptr;
    std::optional<Finding> batch_refusal;

    /// Leaves one file without side files behind, unless another program has it open.
    ~Impl();

    [[nodiscard]] std::string where() const { return path.filename().string(); }

    /// Runs work(deed) in one transaction; a refusal or an error inside rolls everything back.
    template <class Work>
    auto write(Work&& work, std::optional<Id> undoes = std::nullopt) -> Expected<std::invoke_result_t<Work, Deed&>> {
        if (read_only)
            return refusal(newer ? "project.newer_version" : "project.read_only", where());
        return guarded(where(), [&] {
            sqlite::Transaction transaction(database);
            Deed one(database, context, undoes);
            if constexpr (std::is_void_v<std::invoke_result_t<Work, Deed&>>) {
                work(one);
                transaction.commit();
            } else {
                auto result = work(one);
                transaction.commit();
                return result;
            }
        });
    }
};

/// The member that holds when the row was made.
template <class Record>
std::string& time_of(Record& record) {
    if constexpr (kIsItem<Record>)
        return record.created_at;
    else
        return record.observed_at;
}

/// Fills id and time, checks the numbers. Throws Refused.
template <class Record>
void complete(Deed& deed, Record& record) {
    if (record.id == 0)
        record.id = deed.new_id();
    if (time_of(record).empty())
        time_of(record) = deed.now();
    if (const char* column = rows::not_finite(record))
        throw Refused{refusal("project.out_of_range", std::string(Record::kTable) + "." + column,
                              {{"table", std::string(Record::kTable), Quantity::Number},
                               {"column", std::string(column), Quantity::Number}})};
}

/// Runs a write to one table; its broken limits come out as refusals that name the column.
template <class Work>
void write_to(const char* table, Work&& work) {
    try {
        work();
    } catch (const sqlite::SqliteError& error) {
        throw Refused{write_finding(error, table)};
    }
}

/// The point of a record with a geometry, as its blob; empty when it has no position yet.
template <class Record>
std::optional<std::array<unsigned char, kPointBlobBytes>> geometry_of(const Record& record) {
    const std::optional<double> longitude = record.longitude_deg;
    const std::optional<double> latitude = record.latitude_deg;
    if (!longitude || !latitude)
        return std::nullopt;
    return point_blob({*longitude, *latitude});
}

/// "INSERT INTO t (columns, geom, booked_order) VALUES (?, ...)" with `extra` columns at the end.
template <class Record>
std::string insert_sql(const std::string& extra = {}) {
    std::size_t count = columns<Record>().size() + 1;
    std::string list = rows::column_list<Record>() + ", booked_order";
    for (const std::string& more : {std::string(kHasGeometry<Record> ? "geom" : ""), extra})
        if (!more.empty()) {
            list += ", " + more;
            count += 1 + static_cast<std::size_t>(std::count(more.begin(), more.end(), ','));
        }
    std::string marks = "?";
    for (std::size_t i = 1; i < count; ++i)
        marks += ", ?";
    return "INSERT INTO " + std::string(Record::kTable) + " (" + list + ") VALUES (" + marks + ")";
}

/// Binds a record and its place in the order of booking; returns the next free parameter.
template <class Record>
int bind_record(sqlite::Run& run, const Record& record, std::int64_t order) {
    int index = 1;
    for (const Column<Record>& column : columns<Record>())
        rows::bind(run, index++, column, record);
    run.bind(index++, order);
    return index;
}

/// Is there such a row?
bool row_exists(sqlite::Database& database, const std::string& table, Id id);

/// Inserts a strike-out or a restoration (already checked) under the log line of that name.
void insert_strike_out(Deed& deed, const StrikeOutRow& row);

/// How often a row was struck out less how often that was taken back: it counts while this is 0.
std::int64_t strikes_in_force(sqlite::Database& database, const std::string& table, Id id);

/// Writes the geometry of a row anew from its longitude and latitude.
void refresh_geometry(sqlite::Database& database, const std::string& table, Id id);

} // namespace rillmark
