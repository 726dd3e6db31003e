// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/project/project_fixture.h"

#include "project/merge.h"
#include "project/tables.h"

namespace rillmark::testing {

/// Devices that each have a clock of their own; copies of a file that go their own ways.
class MergeTest : public ProjectTest {
protected:
    [[nodiscard]] ProjectContext device(const std::string& name) {
        return {[this] { return stamp(clock_ms); },
                [this] { return std::uniform_int_distribution<Id>(1, (Id{1} << 52) - 1)(engine); }, name};
    }
    /// A time of one day, in milliseconds.
    static std::string stamp(int milliseconds) {
        char text[40];
        const int seconds = milliseconds / 1000;
        std::snprintf(text, sizeof text, "2026-11-25T%02d:%02d:%02d.%03dZ", seconds / 3600 % 24, seconds / 60 % 60,
                      seconds % 60, milliseconds % 1000);
        return text;
    }
    Project open_as(const std::string& name, const fs::path& file) {
        auto opened = Project::open(file, OpenMode::ReadWrite, device(name));
        if (!opened)
            throw std::runtime_error("open: " + opened.error().code);
        return std::move(opened).value();
    }
    fs::path copy_of(const fs::path& file, const std::string& name) const {
        const fs::path copy = folder / name;
        fs::copy_file(file, copy, fs::copy_options::overwrite_existing);
        return copy;
    }
    /// mine with the others merged into it, as a new file.
    fs::path merged(const std::string& name, const fs::path& mine, const std::vector<fs::path>& others) {
        const fs::path result = copy_of(mine, name);
        const auto report = merge_into(result, others);
        if (!report)
            throw std::runtime_error("merge: " + report.error().code + " " + report.error().where);
        return result;
    }
    /// Every row of every table of ours but schema_version, as hexadecimal text in the order of all columns.
    static std::string content(const fs::path& file) {
        RawDatabase raw(file);
        std::string dump;
        for (const Table& table : tables()) {
            if (table.name == "schema_version")
                continue;
            std::string cells;
            for (const TableColumn& column : table.columns)
                cells += (cells.empty() ? "" : ", ") + ("quote(" + column.name + ")");
            dump += table.name + "\n";
            for (const auto& row : raw.rows("SELECT " + cells + " FROM " + table.name + " ORDER BY 1, 2")) {
                for (const std::string& cell : row)
                    dump += cell + "|";
                dump += "\n";
            }
        }
        return dump;
    }

    int clock_ms = 36'000'000;
};

} // namespace rillmark::testing
