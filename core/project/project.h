// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "project/records.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

/// What a project needs from outside; tests pass their own.
struct ProjectContext {
    std::function<std::string()> now_utc; // "2026-11-25T10:30:00.000Z"
    std::function<Id()> new_id;           // random, 1..2^52-1
    std::string device;                   // who writes, for the edit log; may be empty
};
[[nodiscard]] ProjectContext system_context(std::string device = {});

enum class OpenMode { ReadWrite, ReadOnly };

/// A row together with whether it counts.
template <class Record>
struct Booked {
    Record row;
    bool struck = false;
    std::string struck_reason;
};

/// One photo to store: the picture and its small version as encoded bytes.
struct PhotoData {
    PhotoRow row;
    std::vector<unsigned char> picture;
    std::vector<unsigned char> thumbnail; // JPEG, may be empty
};

/// A project file: the only door to it.
///
/// Every call that writes is one transaction (WAL, synchronous FULL): when it returns ok, the row is on the disk.
/// Refusals: `project.busy` (another program holds the file; nothing was stored, try again), `project.read_only`,
/// `project.disk_full`, `project.io` and those named at each call. After a refusal the file is as it was before.
class Project {
public:
    /// Makes a new file with its site row. Refuses to write over an existing file (`project.exists`).
    static Expected<Project> create(const std::filesystem::path& path, const std::string& site_name,
                                    ProjectContext context = system_context());
    /// Opens an existing file as untrusted input: it is not written before its schema was compared with ours.
    /// An older schema is migrated after a copy was made beside it; a newer one opens read-only (see newer()).
    /// Refuses: `project.missing`, `project.not_a_database`, `project.damaged`, `project.foreign_geopackage`,
    /// `project.not_a_geopackage`, `project.schema_differs`.
    static Expected<Project> open(const std::filesystem::path& path, OpenMode mode = OpenMode::ReadWrite,
                                  ProjectContext context = system_context());

    Project(Project&&) noexcept;
    Project& operator=(Project&&) noexcept;
    ~Project();

    [[nodiscard]] const std::filesystem::path& path() const;
    [[nodiscard]] bool read_only() const;
    [[nodiscard]] bool newer() const; // written by a newer program: read-only, and the user is told why

    /// Books one observation or item; fills its id (when 0) and its time (when empty). Returns the id.
    /// Refuses values that the schema's limits forbid (`project.out_of_range` with table and column).
    template <class Record>
    Expected<Id> book(Record record);
    /// Books several rows in one transaction: a stay at a station with its fixes, a vertical with its velocities.
    /// The function gets a handle with the same book(); when it returns a refusal nothing is stored.
    class Batch;
    Expected<void> together(const std::function<Expected<void>(Batch&)>& bookings);

    /// Changes an item: the columns that differ from the stored row are written and their earlier values are kept in
    /// the edit log. Refuses observations (`project.never_changed`) and unknown ids (`project.no_such_row`).
    template <class Record>
    Expected<void> change(const Record& item);

    /// Strikes an observation or item out, or takes a strike-out back.
    Expected<void> strike(std::string_view table, Id id, const std::string& reason);
    Expected<void> restore(std::string_view table, Id id, const std::string& reason);
    /// The same with many rows of one table: one action, all of it or nothing.
    Expected<void> strike(std::string_view table, const std::vector<Id>& ids, const std::string& reason);
    Expected<void> restore(std::string_view table, const std::vector<Id>& ids, const std::string& reason);

    /// Takes back the last action that is not yet undone: a booking is struck out with reason "undone", a change or
    /// strike-out is reversed. Nothing is deleted. Returns what was undone.
    struct Action {
        std::string verb; // booked, changed, struck, restored
        std::string table;
        Id id = 0;
        std::string at;
    };
    [[nodiscard]] std::optional<Action> last_action() const;
    Expected<Action> undo();

    /// All rows of a table in the order of booking, struck ones included and marked.
    template <class Record>
    [[nodiscard]] Expected<std::vector<Booked<Record>>> all() const;
    template <class Record>
    [[nodiscard]] Expected<Booked<Record>> get(Id id) const;
    [[nodiscard]] Expected<SiteRow> site() const;

    /// Stores a photo and links it to a station (0: to none) through the media relation.
    Expected<Id> book_photo(const PhotoData& photo, Id station_id);
    [[nodiscard]] Expected<std::vector<unsigned char>> picture(Id photo_id) const;
    [[nodiscard]] Expected<std::vector<unsigned char>> thumbnail(Id photo_id) const;
    /// Station id of each photo that is linked to one.
    struct PhotoLink {
        Id photo_id = 0;
        Id station_id = 0;
    };
    [[nodiscard]] Expected<std::vector<PhotoLink>> photo_links() const;

    /// The versions that a row has had, oldest first: one entry per changed column.
    struct EditLogEntry {
        Id id = 0;
        std::string at;
        std::string device;
        std::string verb;
        std::string table;
        Id row_id = 0;
        std::string column; // empty unless changed
        std::string before; // as text
        std::string after;
    };
    [[nodiscard]] Expected<std::vector<EditLogEntry>> edit_log() const;

    /// Finds faults: integrity_check, foreign_key_check, schema, registered tables, geometry blobs. Empty: none found.
    /// On a read-only connection SQLite leaves the limits of values (CHECK) out of integrity_check.
    [[nodiscard]] Findings verify() const;
    /// Writes one closed, verified file without side files (VACUUM INTO) for handing over. Refuses to write over a file
    /// (`project.exists`); a copy that fails its check is removed (`project.copy_failed`).
    Expected<void> save_copy(const std::filesystem::path& to) const;

private:
    struct Impl;
    explicit Project(std::unique_ptr<Impl> impl);
    std::unique_ptr<Impl> m_impl;
};

/// The handle inside together().
class Project::Batch {
public:
    template <class Record>
    Expected<Id> book(Record record);
    Expected<Id> book_photo(const PhotoData& photo, Id station_id);

private:
    friend class Project;
    explicit Batch(Impl& impl) : m_impl(impl) {}
    Impl& m_impl;
};

} // namespace rillmark
