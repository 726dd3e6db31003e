// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <filesystem>

namespace rillmark {

/// A file under a passing name: removed with its side files when it goes out of scope, unless it was put in place.
class PassingFile {
public:
    explicit PassingFile(std::filesystem::path path) : m_path(std::move(path)) {}
    PassingFile(const PassingFile&) = delete;
    PassingFile& operator=(const PassingFile&) = delete;
    ~PassingFile();
    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }

    /// Syncs the file, gives it its lasting name and syncs the folder. Refuses: `project.exists` (never writes over a
    /// file), `project.disk_full`, `project.read_only`, `project.io`.
    Expected<void> put_in_place(const std::filesystem::path& to);
    /// The same, but takes the place of the file `to` and its permissions: whoever looks finds the old file or the new.
    Expected<void> replace(const std::filesystem::path& to);

private:
    std::filesystem::path m_path;
};

/// A name beside `path` for a file that is not finished.
[[nodiscard]] std::filesystem::path passing_name(const std::filesystem::path& path, std::int64_t random);
/// `path` with `suffix` added to the whole name, as SQLite names its side files.
[[nodiscard]] std::filesystem::path with_suffix(const std::filesystem::path& path, const char* suffix);

/// Reads the header of a database file without SQLite.
/// Refuses: `project.missing`, `project.not_a_database`, `project.damaged` (shorter than its header says), `project.io`.
Expected<void> check_header(const std::filesystem::path& path);

/// May a file be made at `path`? Refuses: `project.exists`, `project.read_only`, `project.io` (no such folder).
/// SQLite itself only says that it could not open the file.
Expected<void> check_free_place(const std::filesystem::path& path);

/// Does a -wal file with content or a -journal file lie beside the database?
[[nodiscard]] bool has_side_files(const std::filesystem::path& path);

} // namespace rillmark
