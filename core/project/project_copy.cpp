// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/files.h"
#include "project/migrate.h"
#include "project/project_impl.h"
#include "project/tables.h"
#include "project/verify.h"

namespace rillmark {

namespace {

using sqlite::Access;
using sqlite::Database;

/// What gpkg_contents says of each table: the time of its last change and the box of its positions. Only kept in the
/// copy, because a booking should not pay for it; the standard calls the box informative.
void refresh_contents(Database& database, const std::string& now) {
    sqlite::Transaction transaction(database);
    database
        .run("UPDATE gpkg_contents SET last_change = coalesce((SELECT max(at) FROM edit_log "
             "WHERE edit_log.table_name = gpkg_contents.table_name), ?) WHERE table_name IN "
             "(SELECT table_name FROM edit_log)")
        .bind(1, now)
        .step();
    for (const Table& table : tables())
        if (table.geometry)
            database
                .run("UPDATE gpkg_contents SET (min_x, min_y, max_x, max_y) = (SELECT min(longitude_deg), "
                     "min(latitude_deg), max(longitude_deg), max(latitude_deg) FROM " +
                     table.name + ") WHERE table_name = ?")
                .bind(1, table.name)
                .step();
    transaction.commit();
}

} // namespace

Findings Project::verify() const {
    return verify_database(m_impl->database, m_impl->where());
}

Expected<void> Project::save_copy(const std::filesystem::path& to) const {
    if (const auto place = check_free_place(to); !place)
        return place;
    const std::string where = to.filename().string();
    PassingFile passing(passing_name(to, m_impl->context.new_id()));
    const auto copied = guarded(where, [&] {
        vacuum_into(m_impl->database, passing.path());
        Database copy(passing.path(), Access::Write);
        if (!m_impl->newer)
            refresh_contents(copy, m_impl->context.now_utc());
        if (const Findings faults = verify_database(copy, where); !faults.empty())
            throw Refused{refusal("project.copy_failed", where, {{"detail", faults.front().code, Quantity::Number}})};
    });
    if (!copied)
        return copied;
    return passing.put_in_place(to);
}

} // namespace rillmark
