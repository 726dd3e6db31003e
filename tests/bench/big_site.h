// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/project.h"

#include <filesystem>
#include <stdexcept>
#include <string>

namespace rillmark::bench {

/// Throws what a step of setting up says when it is refused: a benchmark must not measure a failure.
template <class T>
T must(Expected<T> result) {
    if (!result)
        throw std::runtime_error(result.error().code + " " + result.error().where);
    return std::move(result).value();
}
inline void must(const Expected<void>& result) {
    if (!result)
        throw std::runtime_error(result.error().code + " " + result.error().where);
}

/// A level line down a creek: `stations` on the line, read with as many set-ups as give `readings` sights.
inline Id add_levelled_stations(Project& project, int stations, int readings) {
    LevelBookRow book;
    book.name = "Book 1";
    const Id page = must(project.book(book));
    must(project.together([&](Project::Batch& batch) -> Expected<void> {
        std::vector<Id> ids;
        for (int i = 0; i < stations; ++i) {
            StationRow station;
            station.name = "Station " + std::to_string(i);
            station.kind = i == 0 ? "intake" : i + 1 == stations ? "powerhouse" : "route-point";
            station.latitude_deg = 47.29 + 1e-4 * i;
            station.longitude_deg = 13.86 + 5e-5 * (i % 7);
            const Expected<Id> id = batch.book(station);
            if (!id)
                return id.error();
            ids.push_back(*id);
        }
        SightRow sight;
        sight.book_id = page;
        const auto read = [&](const char* kind, Id at, double reading_m) -> Expected<void> {
            sight.kind = kind;
            sight.station_id = at;
            sight.reading_m = reading_m;
            sight.typed = "1.525 m";
            ++sight.position;
            const Expected<Id> booked = batch.book(sight);
            if (!booked)
                return booked.error();
            return {};
        };
        // down the line and back again until there are enough readings: loops, as a field network has them
        std::size_t at = 0;
        bool down = true;
        while (sight.position + 2 <= readings) {
            const std::size_t next = down ? at + 1 : at - 1;
            const double noise = 0.001 * static_cast<double>((sight.position * 7919) % 5 - 2);
            if (Expected<void> done = read("backsight", ids[at], down ? 0.5 + noise : 3.0); !done)
                return done;
            if (Expected<void> done = read("foresight", ids[next], down ? 3.0 : 0.5 + noise); !done)
                return done;
            at = next;
            if (at == 0 || at + 1 == ids.size())
                down = at == 0;
        }
        return {};
    }));
    return page;
}

/// A walk of `fixes` fixes and `stations` stations without levels.
inline void add_walk(Project& project, int stations, int fixes) {
    must(project.together([&](Project::Batch& batch) -> Expected<void> {
        for (int i = 0; i < stations; ++i) {
            StationRow station;
            station.name = "Station " + std::to_string(i);
            station.kind = i % 3 == 0 ? "boundary-corner" : "route-point";
            station.latitude_deg = 47.29 + 2e-5 * (i % 700);
            station.longitude_deg = 13.86 + 3e-5 * (i / 7);
            const Expected<Id> id = batch.book(station);
            if (!id)
                return id.error();
        }
        FixRow fix;
        fix.quality = "autonomous";
        fix.source = "bench";
        for (int i = 0; i < fixes; ++i) {
            fix.latitude_deg = 47.29 + 1e-6 * (i % 20000) + 1e-5 * ((i * 31) % 17);
            fix.longitude_deg = 13.86 + 2e-6 * (i / 3) + 1e-5 * ((i * 17) % 13);
            fix.height_msl_m = 1000.0;
            fix.u_east_m = fix.u_north_m = 2.0;
            fix.observed_at = "2026-05-14T08:00:00.000Z";
            const Expected<Id> id = batch.book(fix);
            if (!id)
                return id.error();
        }
        return {};
    }));
}

/// A folder that goes with its owner.
class Scratch {
public:
    Scratch() {
        std::string pattern = (std::filesystem::temp_directory_path() / "rillmark-bench-XXXXXX").string();
        if (mkdtemp(pattern.data()) == nullptr)
            throw std::runtime_error("no scratch folder");
        m_path = pattern;
    }
    ~Scratch() { std::filesystem::remove_all(m_path); }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }

private:
    std::filesystem::path m_path;
};

} // namespace rillmark::bench
