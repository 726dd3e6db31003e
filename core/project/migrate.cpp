// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/migrate.h"

#include "project/files.h"
#include "project/sqlite_finding.h"
#include "project/tables.h"

#include <algorithm>
#include <charconv>

namespace rillmark {

std::vector<MigrationStep> migration_steps(std::span<const EmbeddedText> texts) {
    std::vector<MigrationStep> steps;
    for (const EmbeddedText& text : texts) {
        MigrationStep step;
        std::from_chars(text.file.data(), text.file.data() + text.file.size(), step.version);
        step.sql = text.text;
        steps.push_back(std::move(step));
    }
    std::ranges::sort(steps, {}, &MigrationStep::version);
    return steps;
}

void apply_steps(sqlite::Database& database, std::span<const MigrationStep> steps, std::int64_t from,
                 const std::function<std::string()>& now_utc) {
    for (const MigrationStep& step : steps) {
        if (step.version <= from)
            continue;
        sqlite::Transaction transaction(database);
        database.execute(step.sql);
        if (&step == &steps.back())
            describe_columns(database);
        database.run("INSERT INTO schema_version (version, applied_at) VALUES (?, ?)")
            .bind(1, step.version)
            .bind(2, now_utc())
            .step();
        transaction.commit();
    }
}

Expected<std::filesystem::path> copy_before_migration(const std::filesystem::path& path, std::int64_t from,
                                                      std::int64_t random) {
    PassingFile passing(passing_name(path, random));
    const auto copied = guarded(path.filename().string(), [&] {
        sqlite::Database original(path, sqlite::Access::Read);
        vacuum_into(original, passing.path());
    });
    if (!copied)
        return copied.error();
    // A copy of an earlier, failed try stays: look for a free name.
    constexpr int kMostCopies = 1000;
    for (int number = 1; number <= kMostCopies; ++number) {
        const std::string ending = number == 1 ? "" : "-" + std::to_string(number);
        const std::filesystem::path copy =
            path.parent_path() / (path.stem().string() + ".version-" + std::to_string(from) + ending + ".gpkg");
        const auto placed = passing.put_in_place(copy);
        if (placed)
            return copy;
        if (placed.error().code != "project.exists")
            return placed.error();
    }
    return refusal("project.exists", path.filename().string());
}

void vacuum_into(sqlite::Database& database, const std::filesystem::path& to) {
    database.allow_attach(true);
    struct Forbid {
        sqlite::Database& database;
        ~Forbid() { database.allow_attach(false); }
    } const forbid{database};
    // Absolute, because SQLite would take a name that starts with "file:" for a URI.
    database.run("VACUUM INTO ?").bind(1, std::filesystem::absolute(to).string()).step();
}

} // namespace rillmark
