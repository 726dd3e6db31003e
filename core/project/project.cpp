// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/project.h"

#include "embedded_text.h"
#include "project/files.h"
#include "project/migrate.h"
#include "project/open_checks.h"
#include "project/project_impl.h"

#include <sqlite3.h>

#include <array>
#include <chrono>
#include <ctime>
#include <fmt/chrono.h>
#include <random>

namespace rillmark {

namespace {

using sqlite::Access;
using sqlite::Database;
using sqlite::SqliteError;

std::string system_now_utc() {
    using namespace std::chrono;
    const auto now = floor<milliseconds>(system_clock::now());
    const auto second = floor<seconds>(now);
    return fmt::format("{:%Y-%m-%dT%H:%M:%S}.{:03}Z", fmt::gmtime(system_clock::to_time_t(second)),
                       (now - second).count());
}

/// A writer's connection in WAL mode, or a reader's where the file or its folder cannot be written.
Database open_to_write(const std::filesystem::path& path) {
    try {
        Database database(path, Access::Write);
        if (!database.read_only()) {
            database.execute("PRAGMA journal_mode = WAL");
            database.touch();
            return database;
        }
    } catch (const SqliteError& error) {
        if (error.code() != SQLITE_CANTOPEN && error.code() != SQLITE_READONLY && error.code() != SQLITE_PERM)
            throw;
    }
    return open_to_read(path);
}

/// Migrates an older file after a copy of it was made.
Expected<void> bring_up_to_date(Database& database, const std::filesystem::path& path, std::int64_t from,
                                std::span<const MigrationStep> steps, const ProjectContext& context) {
    const std::string where = path.filename().string();
    if (database.read_only())
        return refusal("project.older_read_only", where);
    if (const auto copy = copy_before_migration(path, from, context.new_id()); !copy)
        return copy.error();
    return guarded(where, [&] { apply_steps(database, steps, from, context.now_utc); });
}

} // namespace

ProjectContext system_context(std::string device) {
    std::random_device device_of_chance;
    std::seed_seq seed{device_of_chance(), device_of_chance(), device_of_chance(), device_of_chance(),
                       device_of_chance(), device_of_chance(), device_of_chance(), device_of_chance()};
    auto new_id = [engine = std::mt19937_64(seed)]() mutable -> Id {
        constexpr Id kLargestId = (Id{1} << 52) - 1; // stays exact as a double
        return std::uniform_int_distribution<Id>(1, kLargestId)(engine);
    };
    return {system_now_utc, std::move(new_id), std::move(device)};
}

Project::Project(std::unique_ptr<Impl> impl) : m_impl(std::move(impl)) {}
Project::Project(Project&&) noexcept = default;
Project& Project::operator=(Project&&) noexcept = default;
Project::~Project() = default;

Project::Impl::~Impl() {
    if (read_only)
        return;
    try {
        database.execute("PRAGMA journal_mode = DELETE");
    } catch (const SqliteError&) {
        // Another program reads the file: it stays in WAL mode, nothing is lost.
    }
}

Expected<Project> Project::create(const std::filesystem::path& path, const std::string& site_name,
                                  ProjectContext context) {
    if (const auto place = check_free_place(path); !place)
        return place.error();
    const std::string where = path.filename().string();
    PassingFile passing(passing_name(path, context.new_id()));
    const auto made = guarded(where, [&] {
        Database database(passing.path(), Access::Create);
        apply_steps(database, migration_steps(schema_texts()), 0, context.now_utc);
        SiteRow site;
        site.name = site_name;
        sqlite::Transaction transaction(database);
        Deed deed(database, context);
        complete(deed, site);
        // Not in the edit log: the first row of the file is no deed that could be taken back.
        write_to(SiteRow::kTable, [&] {
            sqlite::Run run = database.run(insert_sql<SiteRow>());
            bind_record(run, site, 0);
            run.step();
        });
        transaction.commit();
    });
    if (!made)
        return made.error();
    if (const auto placed = passing.put_in_place(path); !placed)
        return placed.error();
    return open(path, OpenMode::ReadWrite, std::move(context));
}

Expected<Project> Project::open(const std::filesystem::path& path, OpenMode mode, ProjectContext context) {
    const auto steps = migration_steps(schema_texts());
    const auto state = look_at_file(path, steps);
    if (!state)
        return state.error();
    const bool to_write = mode == OpenMode::ReadWrite && !state->newer;
    auto opened = guarded(path.filename().string(), [&] {
        Database database = to_write ? open_to_write(path) : open_to_read(path);
        if (state->older)
            if (const auto done = bring_up_to_date(database, path, state->version, steps, context); !done)
                throw Refused{done.error()};
        const bool read_only = !to_write || database.read_only();
        return std::unique_ptr<Impl>(
            new Impl{path, std::move(context), std::move(database), read_only, state->newer, nullptr, {}});
    });
    if (!opened)
        return opened.error();
    return Project(std::move(opened).value());
}

const std::filesystem::path& Project::path() const {
    return m_impl->path;
}

bool Project::read_only() const {
    return m_impl->read_only;
}

bool Project::newer() const {
    return m_impl->newer;
}

} // namespace rillmark
