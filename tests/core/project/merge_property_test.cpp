// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/project/merge_fixture.h"

#include "project/merge_items.h"

#include <algorithm>
#include <array>
#include <cstdlib>

/// Random histories of devices whose clocks disagree. The environment variable RILLMARK_MERGE_HISTORIES sets the number
/// of histories with real files (12 without it, some ten seconds; 2000 is the long form, before a release).
namespace rillmark::testing {
namespace {

// ---- the values alone, without files: fast, so many ---------------------------------------------------------------

const ColumnGroup kPosition{"longitude_deg", "latitude_deg"};

/// What one device knows of one row.
struct Replica {
    std::vector<LoggedChange> log;
    std::map<std::string, CellText> values{{"longitude_deg", "0"}, {"latitude_deg", "0"}};
};

Replica unite(const Replica& a, const Replica& b) {
    Replica both = a;
    for (const LoggedChange& change : b.log)
        if (std::ranges::find(a.log, change.id, &LoggedChange::id) == a.log.end())
            both.log.push_back(change);
    both.values = settle(kPosition, both.log, a.values).values;
    return both;
}

class SettleTest : public ::testing::Test {
protected:
    int draw(int largest) { return std::uniform_int_distribution<int>(0, largest)(engine); }

    void change(Replica& replica, const std::string& device) {
        std::int64_t sequence = 0;
        for (const LoggedChange& change : replica.log)
            sequence = std::max(sequence, change.sequence);
        const bool clear = draw(4) == 0;
        const Id action = next_id + 1;
        // Few values and few times, so that they meet by chance as well.
        const std::string at = "t" + std::to_string(draw(9));
        for (const std::string& column : kPosition) {
            const CellText before = replica.values[column];
            CellText after = clear ? std::nullopt : CellText(std::to_string(draw(3)));
            if (!clear && before && draw(2) == 0)
                after = before;
            if (after == before)
                continue;
            replica.log.push_back({++next_id, ++sequence, action, at, device, column, before, after});
            replica.values[column] = after;
        }
    }

    std::mt19937_64 engine{20261125};
    Id next_id = 0;
};

TEST_F(SettleTest, DependsOnTheSetOfChangesAlone) {
    for (int history = 0; history < 3000; ++history) {
        next_id = 0;
        std::array<Replica, 3> devices;
        for (int step = 0; step < 10; ++step) {
            const auto one = static_cast<std::size_t>(draw(2));
            if (draw(3) == 0)
                devices[one] = unite(devices[one], devices[static_cast<std::size_t>(draw(2))]);
            else
                change(devices[one], "device " + std::to_string(one));
            // What the log says is what stands in the row.
            ASSERT_EQ(settle(kPosition, devices[one].log, {{"longitude_deg", "0"}, {"latitude_deg", "0"}}).values,
                      devices[one].values)
                << history;
        }
        const auto& [a, b, c] = devices;
        const auto all = unite(unite(a, b), c).values;
        ASSERT_EQ(unite(a, unite(b, c)).values, all) << history;
        ASSERT_EQ(unite(c, unite(b, a)).values, all) << history;
        ASSERT_EQ(unite(a, a).values, a.values) << history;
        ASSERT_EQ(all.at("longitude_deg").has_value(), all.at("latitude_deg").has_value()) << history;
    }
}

// ---- whole files --------------------------------------------------------------------------------------------------

class MergePropertyTest : public MergeTest {
protected:
    int draw(int largest) { return std::uniform_int_distribution<int>(0, largest)(engine); }

    template <class Row>
    std::optional<Row> any(const Project& project) {
        const auto rows = project.all<Row>();
        if (!rows.ok() || rows->empty())
            return std::nullopt;
        return rows->at(static_cast<std::size_t>(draw(static_cast<int>(rows->size()) - 1))).row;
    }

    void change_something(Project& project) {
        if (auto row = any<StationRow>(project); row && draw(1) == 0) {
            row->name = "S" + std::to_string(draw(3));
            row->route_order = draw(3);
            if (draw(2) == 0) {
                row->longitude_deg = draw(2) == 0 ? std::nullopt : std::optional(8.0 + draw(2) * 0.1);
                row->latitude_deg = row->longitude_deg ? std::optional(46.0 + draw(2) * 0.1) : std::nullopt;
            }
            ASSERT_TRUE(project.change(*row).ok());
        } else if (auto book = any<LevelBookRow>(project); book && draw(1) == 0) {
            book->observer = "O" + std::to_string(draw(3));
            book->length_m = draw(3) == 0 ? std::nullopt : std::optional(draw(3) * 0.1);
            ASSERT_TRUE(project.change(*book).ok());
        } else {
            SiteRow site = *project.site();
            site.note = "N" + std::to_string(draw(3));
            ASSERT_TRUE(project.change(site).ok());
        }
    }

    void do_something(Project& project) {
        clock_ms = 36'000'000 + draw(100); // every device has its own idea of the time
        const int what = draw(11);
        if (what == 0) {
            ASSERT_TRUE(project.book(station("S")).ok());
        } else if (what == 1) {
            ASSERT_TRUE(project.book(level_book("L")).ok());
        } else if (what == 2) {
            ASSERT_TRUE(project.book(note("a remark")).ok());
        } else if (what == 3) {
            if (const auto book = any<LevelBookRow>(project)) {
                ASSERT_TRUE(project.book(sight(book->id, draw(9), 1.5)).ok());
            }
        } else if (what == 4) {
            const auto place = any<StationRow>(project);
            ASSERT_TRUE(project.book_photo({{}, {1, 2, static_cast<unsigned char>(draw(9))}, {}}, place ? place->id : 0).ok());
        } else if (what == 5) {
            if (const auto row = any<StationRow>(project))
                static_cast<void>(project.strike("station", row->id, "doubt")); // refused when it is struck already
        } else if (what == 6) {
            if (const auto row = any<StationRow>(project))
                static_cast<void>(project.restore("station", row->id, "no doubt"));
        } else if (what == 7) {
            static_cast<void>(project.undo());
        } else {
            change_something(project);
        }
    }

    void live(const std::string& device, const fs::path& file, int deeds) {
        Project project = open_as(device, file);
        for (int deed = 0; deed < deeds; ++deed)
            do_something(project);
    }
};

TEST_F(MergePropertyTest, TheOrderOfMergesDoesNotMatter) {
    const char* asked = std::getenv("RILLMARK_MERGE_HISTORIES");
    const int histories = asked ? std::atoi(asked) : 12;
    for (int history = 0; history < histories; ++history) {
        SCOPED_TRACE("history " + std::to_string(history));
        fs::remove(path);
        { Project project = create(); }
        live("base", path, draw(8));
        const std::vector<fs::path> files{copy_of(path, "a.gpkg"), copy_of(path, "b.gpkg"), copy_of(path, "c.gpkg")};
        const auto& a = files[0];
        const auto& b = files[1];
        const auto& c = files[2];
        for (int round = 0; round < 2; ++round) {
            for (std::size_t i = 0; i < files.size(); ++i)
                live("device " + std::to_string(i), files[i], draw(6));
            const auto mine = static_cast<std::size_t>(draw(2));
            if (round == 0) {
                ASSERT_TRUE(merge_into(files[mine], {files[(mine + 1) % 3]}).ok());
            }
        }
        if (HasFatalFailure())
            return;
        const fs::path ab = merged("ab.gpkg", a, {b});
        ASSERT_TRUE(content(merged("ba.gpkg", b, {a})) == content(ab));
        const std::string all = content(merged("ab_c.gpkg", ab, {c}));
        ASSERT_TRUE(content(merged("a_bc.gpkg", a, {merged("bc.gpkg", b, {c})})) == all);
        ASSERT_TRUE(content(merged("cba.gpkg", c, {b, a})) == all);
        ASSERT_FALSE(merge_into(ab, {a, b, copy_of(ab, "copy.gpkg")})->changed);
        Project project = open_as("A", folder / "ab_c.gpkg");
        ASSERT_TRUE(project.verify().empty());
    }
}

} // namespace
} // namespace rillmark::testing
