// SPDX-License-Identifier: GPL-3.0-or-later
// Handing over: the copy against copying the file twice, a merge against bare INSERT ... SELECT, the export of a long
// track against ogr2ogr. Prints each time and ratio; medians of an odd number of runs. Needs some 5 GB of room for its
// files.
#include "big_site.h"

#include "export/export_files.h"
#include "project/merge.h"
#include "project/tables.h"

#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <functional>
#include <random>
#include <string>
#include <unistd.h>

namespace {

using namespace rillmark;
using namespace rillmark::bench;
namespace fs = std::filesystem;

constexpr int kStations = 1000;
constexpr int kPhotos = 200;
constexpr std::size_t kPhoto_bytes = 4'000'000;
constexpr int kFixes = 100'000;

/// What a person hands over; `seed` makes the pictures of two books differ.
void add_book(Project& project, unsigned seed) {
    add_levelled_stations(project, kStations, 3000);
    std::mt19937_64 random(seed);
    PhotoData photo;
    photo.picture.resize(kPhoto_bytes);
    photo.thumbnail.resize(8000, 0x55);
    for (int i = 0; i < kPhotos; ++i) {
        for (std::size_t at = 0; at + 8 <= photo.picture.size(); at += 8) {
            const std::uint64_t bits = random();
            std::copy_n(reinterpret_cast<const unsigned char*>(&bits), 8,
                        photo.picture.begin() + static_cast<std::ptrdiff_t>(at));
        }
        must(project.book_photo(photo, 0));
    }
}

double seconds_of(const std::function<void()>& work) {
    const auto before = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - before).count();
}

/// Each run of the one follows a run of the other, so that both see the same machine.
std::array<double, 2> medians(int runs, const std::function<void()>& one, const std::function<void()>& other,
                              const std::function<void()>& between) {
    std::array<std::vector<double>, 2> times;
    for (int i = 0; i < runs; ++i) {
        between();
        times[0].push_back(seconds_of(one));
        between();
        times[1].push_back(seconds_of(other));
    }
    between();
    for (std::vector<double>& list : times)
        std::ranges::sort(list);
    return {times[0][times[0].size() / 2], times[1][times[1].size() / 2]};
}

void tell(const char* what, const std::array<double, 2>& times, double most) {
    std::printf("%-44s %8.2f s against %8.2f s: %.2f times (at most %.1f)\n", what, times[0], times[1],
                times[0] / times[1], most);
    std::fflush(stdout);
}

/// A plain copy that is on the disk when it returns, as a hand-over is.
void copy_durably(const fs::path& from, const fs::path& to) {
    fs::copy_file(from, to, fs::copy_options::overwrite_existing);
    const int file = ::open(to.c_str(), O_RDONLY | O_CLOEXEC);
    ::fsync(file);
    ::close(file);
}

void bare_merge(const fs::path& mine, const fs::path& other) {
    sqlite3* db = nullptr;
    if (sqlite3_open(mine.c_str(), &db) != SQLITE_OK)
        throw std::runtime_error("cannot open");
    std::string sql = "PRAGMA synchronous=FULL; ATTACH '" + other.string() + "' AS other; BEGIN;";
    for (const Table& table : tables())
        if (table.name != "site" && table.name != "schema_version")
            sql += "INSERT OR IGNORE INTO main." + table.name + " SELECT * FROM other." + table.name + ";";
    sql += "COMMIT; DETACH other;";
    char* message = nullptr;
    if (sqlite3_exec(db, sql.c_str(), nullptr, nullptr, &message) != SQLITE_OK)
        throw std::runtime_error(message != nullptr ? message : "merge failed");
    sqlite3_close(db);
}

void run(const fs::path& folder) {
    const fs::path mine = folder / "mine.gpkg";
    const fs::path other = folder / "other.gpkg";
    const fs::path out = folder / "out.gpkg";
    const fs::path second = folder / "second.gpkg";
    { Project project = must(Project::create(mine, "Bench")); }
    fs::copy_file(mine, other);
    for (const auto& [path, seed] : {std::pair{mine, 1U}, std::pair{other, 2U}}) {
        Project project = must(Project::open(path));
        add_book(project, seed);
    }
    const auto clear = [&] {
        fs::remove(out);
        fs::remove(second);
    };
    const Project project = must(Project::open(mine, OpenMode::ReadOnly));
    tell("handing over against copying twice",
         medians(
             3, [&] { must(project.save_copy(out)); },
             [&] {
                 copy_durably(mine, out);
                 copy_durably(mine, second);
             },
             clear),
         1.5);

    const fs::path target = folder / "target.gpkg";
    const auto fresh = [&] { fs::copy_file(mine, target, fs::copy_options::overwrite_existing); };
    tell("merge against INSERT ... SELECT",
         medians(
             3, [&] { must(merge_into(target, {other})); }, [&] { bare_merge(target, other); }, fresh),
         3.0);
    fs::remove(target);
}

void run_export(const fs::path& folder) {
    const fs::path site = folder / "track.gpkg";
    {
        Project project = must(Project::create(site, "Track"));
        add_walk(project, 10, kFixes);
    }
    const fs::path out = folder / "track.geojson";
    const auto clear = [&] { fs::remove(out); };
    const std::string ogr = "ogr2ogr -f GeoJSON '" + out.string() + "' '" + site.string() + "' fix";
    ExportOrder order;
    order.format = "geojson";
    order.site = site;
    order.to = out;
    tell("GeoJSON of 100,000 fixes against ogr2ogr",
         medians(
             5, [&] { must(export_files(order)); },
             [&] {
                 if (std::system(ogr.c_str()) != 0)
                     throw std::runtime_error("ogr2ogr failed");
             },
             clear),
         1.5);
}

} // namespace

int main() {
    try {
        const Scratch scratch;
        run_export(scratch.path());
        run(scratch.path());
        return 0;
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
