// SPDX-License-Identifier: GPL-3.0-or-later
// kill_booker FILE SEED: books rows of many kinds without end and prints "table id" for each once it is acknowledged.
#include "project/project.h"

#include <cstdio>
#include <cstdlib>
#include <random>

namespace {

using namespace rillmark;

class Booker {
public:
    Booker(Project& project, unsigned seed) : m_project(project), m_random(seed) {}

    /// False when a booking was refused.
    bool prepare() {
        StationRow station;
        station.name = "Station";
        station.kind = "route-point";
        LevelBookRow book;
        book.name = "Line";
        FlowTestRow test;
        test.method = "velocity-area";
        test.name = "Test";
        return booked(m_station, station) && booked(m_book, book) && booked(m_test, test);
    }

    bool step() {
        switch (m_random() % 7) {
        case 0: return stay();
        case 1: return vertical();
        case 2: return photo();
        case 3: return note();
        case 4: return fill();
        default: return sight();
        }
    }

private:
    Project& m_project;
    std::mt19937 m_random;
    Id m_station = 0;
    Id m_book = 0;
    Id m_test = 0;
    Id m_last = 0;
    int m_position = 0;

    static bool acknowledge(const char* table, const Expected<Id>& id) {
        if (!id) {
            std::fprintf(stderr, "%s: %s %s\n", table, id.error().code.c_str(), id.error().where.c_str());
            return false;
        }
        std::printf("%s %lld\n", table, static_cast<long long>(*id));
        return std::fflush(stdout) == 0;
    }

    template <class Record>
    bool booked(Id& id, const Record& record) {
        const auto result = m_project.book(record);
        if (result)
            id = *result;
        return acknowledge(Record::kTable, result);
    }

    bool sight() {
        SightRow row;
        row.book_id = m_book;
        row.position = ++m_position;
        row.kind = "intermediate";
        row.reading_m = 1.234;
        row.typed = "1.234 m";
        return booked(m_last, row);
    }

    bool fill() {
        FillRow row;
        row.test_id = m_test;
        row.volume_m3 = 0.02;
        row.time_s = 7.5;
        return booked(m_last, row);
    }

    bool note() {
        NoteRow row;
        row.station_id = m_station;
        row.text = std::string(m_random() % 3000 + 1, 'n');
        return booked(m_last, row);
    }

    bool photo() {
        PhotoData data;
        data.picture.assign(m_random() % 60'000 + 1, 0x55);
        return acknowledge(PhotoRow::kTable, m_project.book_photo(data, m_station));
    }

    bool vertical() {
        Id vertical_id = 0;
        Id velocity_id = 0;
        const auto done = m_project.together([&](Project::Batch& batch) -> Expected<void> {
            VerticalRow row;
            row.test_id = m_test;
            row.depth_m = 0.4;
            const auto id = batch.book(row);
            if (!id)
                return id.error();
            VelocityRow velocity;
            velocity.vertical_id = vertical_id = *id;
            velocity.velocity_ms = 0.3;
            const auto second = batch.book(velocity);
            if (!second)
                return second.error();
            velocity_id = *second;
            return {};
        });
        return done.ok() && acknowledge(VerticalRow::kTable, vertical_id) &&
               acknowledge(VelocityRow::kTable, velocity_id);
    }

    /// A stay with its fixes: one of them is lost only if all are.
    bool stay() {
        Id occupation_id = 0;
        const auto done = m_project.together([&](Project::Batch& batch) -> Expected<void> {
            OccupationRow row;
            row.station_id = m_station;
            row.fixes = 10;
            const auto id = batch.book(row);
            if (!id)
                return id.error();
            occupation_id = *id;
            for (int i = 0; i < 10; ++i) {
                FixRow fix;
                fix.occupation_id = occupation_id;
                fix.longitude_deg = 8.0 + 1e-6 * i;
                fix.latitude_deg = 46.0;
                if (const auto booked_fix = batch.book(fix); !booked_fix)
                    return booked_fix.error();
            }
            return {};
        });
        return done.ok() && acknowledge(OccupationRow::kTable, occupation_id);
    }
};

} // namespace

int main(int count, char** arguments) {
    if (count != 3)
        return 2;
    auto project = rillmark::Project::open(arguments[1]);
    if (!project) {
        std::fprintf(stderr, "open: %s\n", project.error().code.c_str());
        return 1;
    }
    Booker booker(*project, static_cast<unsigned>(std::strtoul(arguments[2], nullptr, 10)));
    if (!booker.prepare())
        return 1;
    while (booker.step()) {
    }
    return 1;
}
