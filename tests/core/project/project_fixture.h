// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/project.h"

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

namespace rillmark::testing {

namespace fs = std::filesystem;

/// A folder of its own for each test, removed afterwards; a clock and keys that repeat.
class ProjectTest : public ::testing::Test {
protected:
    ProjectTest() {
        // In memory where there is such a place: these tests sync thousands of times (tests/kill uses the disk).
        const fs::path memory = "/dev/shm";
        const fs::path base = ::access(memory.c_str(), W_OK) == 0 ? memory : fs::temp_directory_path();
        std::string pattern = (base / "rillmark-XXXXXX").string();
        folder = ::mkdtemp(pattern.data());
        path = folder / "creek.gpkg";
    }
    ~ProjectTest() override {
        std::error_code ignored;
        fs::remove_all(folder, ignored);
    }

    [[nodiscard]] ProjectContext context() {
        return {[] { return std::string("2026-11-25T10:30:00.000Z"); },
                [this] { return std::uniform_int_distribution<Id>(1, (Id{1} << 52) - 1)(engine); }, "test device"};
    }
    Project create() {
        auto made = Project::create(path, "Test Creek", context());
        if (!made)
            throw std::runtime_error("create: " + made.error().code);
        return std::move(made).value();
    }
    Project reopen(OpenMode mode = OpenMode::ReadWrite) {
        auto opened = Project::open(path, mode, context());
        if (!opened)
            throw std::runtime_error("open: " + opened.error().code);
        return std::move(opened).value();
    }

    fs::path folder;
    fs::path path;
    std::mt19937_64 engine{20261125};
};

/// A plain SQLite connection, as another program would have. Not hardened.
class RawDatabase {
public:
    explicit RawDatabase(const fs::path& path) { sqlite3_open(path.c_str(), &m_handle); }
    RawDatabase(const RawDatabase&) = delete;
    RawDatabase& operator=(const RawDatabase&) = delete;
    ~RawDatabase() { sqlite3_close(m_handle); }
    /// Empty when it worked, else SQLite's message.
    std::string execute(const std::string& sql) {
        char* message = nullptr;
        const int code = sqlite3_exec(m_handle, sql.c_str(), nullptr, nullptr, &message);
        std::string text = message ? message : (code == SQLITE_OK ? "" : "failed");
        sqlite3_free(message);
        return text;
    }
    std::vector<std::vector<std::string>> rows(const std::string& sql) {
        std::vector<std::vector<std::string>> result;
        sqlite3_stmt* statement = nullptr;
        if (sqlite3_prepare_v2(m_handle, sql.c_str(), -1, &statement, nullptr) != SQLITE_OK)
            throw std::runtime_error(sqlite3_errmsg(m_handle));
        while (sqlite3_step(statement) == SQLITE_ROW) {
            std::vector<std::string> row;
            for (int column = 0; column < sqlite3_column_count(statement); ++column) {
                const void* text = sqlite3_column_text(statement, column);
                row.emplace_back(text ? static_cast<const char*>(text) : "NULL");
            }
            result.push_back(std::move(row));
        }
        sqlite3_finalize(statement);
        return result;
    }

private:
    sqlite3* m_handle = nullptr;
};

inline std::string file_bytes(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

inline void write_bytes(const fs::path& path, const std::string& bytes) {
    std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

inline StationRow station(const std::string& name) {
    StationRow row;
    row.name = name;
    row.kind = "route-point";
    return row;
}

inline LevelBookRow level_book(const std::string& name) {
    LevelBookRow row;
    row.name = name;
    row.allowance = "common-12";
    return row;
}

inline SightRow sight(Id book_id, std::int64_t position, double reading_m) {
    SightRow row;
    row.book_id = book_id;
    row.position = position;
    row.kind = "backsight";
    row.reading_m = reading_m;
    row.typed = "as typed";
    return row;
}

inline NoteRow note(const std::string& text) {
    NoteRow row;
    row.text = text;
    return row;
}

} // namespace rillmark::testing
