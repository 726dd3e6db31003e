// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/project/project_fixture.h"

#include "project/tables.h"

namespace rillmark::testing {
namespace {

class HistoryTest : public ProjectTest {};

/// (struck, reason) of the only note.
std::pair<bool, std::string> state(const Project& project) {
    const auto all = project.all<NoteRow>();
    return {all->at(0).struck, all->at(0).struck_reason};
}

TEST_F(HistoryTest, StrikeAndRestoreTakeTurns) {
    Project project = create();
    const Id id = *project.book(note("slippery"));
    EXPECT_EQ(state(project), std::pair(false, std::string()));
    ASSERT_TRUE(project.strike("note", id, "wrong place").ok());
    EXPECT_EQ(state(project), std::pair(true, std::string("wrong place")));
    EXPECT_EQ(project.strike("note", id, "again").error().code, "project.already_struck");
    ASSERT_TRUE(project.restore("note", id, "right after all").ok());
    EXPECT_EQ(state(project), std::pair(false, std::string()));
    EXPECT_EQ(project.restore("note", id, "again").error().code, "project.not_struck");
    ASSERT_TRUE(project.strike("note", id, "wrong for good").ok());
    EXPECT_EQ(state(project), std::pair(true, std::string("wrong for good")));
    EXPECT_TRUE(project.get<NoteRow>(id)->struck);
    EXPECT_EQ(project.all<StrikeOutRow>()->size(), 3U);
}

TEST_F(HistoryTest, ManyRowsAreStruckOutInOneAction) {
    Project project = create();
    std::vector<Id> ids;
    for (const char* text : {"a", "b", "c"})
        ids.push_back(*project.book(note(text)));
    const auto struck = [&] {
        const auto all = project.all<NoteRow>();
        return std::ranges::count(*all, true, &Booked<NoteRow>::struck);
    };
    ASSERT_TRUE(project.strike("note", ids, "wrong place").ok());
    EXPECT_EQ(struck(), 3);
    ASSERT_TRUE(project.undo().ok()); // all of it
    EXPECT_EQ(struck(), 0);
    ASSERT_TRUE(project.strike("note", ids[1], "wrong").ok());
    EXPECT_EQ(project.strike("note", ids, "again").error().code, "project.already_struck");
    EXPECT_EQ(struck(), 1); // none of it
    EXPECT_EQ(project.restore("note", ids, "right").error().code, "project.not_struck");
    ASSERT_TRUE(project.restore("note", std::vector{ids[1]}, "right").ok());
    EXPECT_EQ(struck(), 0);
}

TEST_F(HistoryTest, StrikeRefusesWhatItCannotStrike) {
    Project project = create();
    const Id id = *project.book(note("x"));
    EXPECT_EQ(project.strike("note", id, "").error().code, "project.reason_missing");
    EXPECT_EQ(project.strike("note", id + 1, "r").error().code, "project.no_such_row");
    for (const char* table : {"nothing", "edit_log", "site", "strike_out", "note; DROP TABLE note", ""})
        EXPECT_EQ(project.strike(table, id, "r").error().code, "project.no_such_table") << table;
    EXPECT_TRUE(project.all<StrikeOutRow>()->empty());
}

TEST_F(HistoryTest, ChangeKeepsEarlierValuesAndGeometryInStep) {
    Project project = create();
    StationRow row = station("Intake");
    row.longitude_deg = 8.5;
    row.latitude_deg = 46.25;
    row.id = *project.book(row);
    row.name = "Upper intake";
    row.longitude_deg = 8.75;
    row.route_order = 3;
    ASSERT_TRUE(project.change(row).ok());
    EXPECT_EQ(project.get<StationRow>(row.id)->row.name, "Upper intake");
    EXPECT_TRUE(project.verify().empty()); // compares geom with the columns

    const auto log = project.edit_log();
    ASSERT_EQ(log->size(), 4U); // booked, three columns
    EXPECT_EQ((*log)[0].verb, "booked");
    EXPECT_EQ((*log)[1].column, "name");
    EXPECT_EQ((*log)[1].before, "Intake");
    EXPECT_EQ((*log)[1].after, "Upper intake");
    EXPECT_EQ((*log)[2].column, "longitude_deg");
    EXPECT_EQ((*log)[2].before, "8.5");
    EXPECT_EQ((*log)[3].before, "");
    EXPECT_EQ((*log)[3].after, "3");
    EXPECT_EQ((*log)[3].device, "test device");
}

TEST_F(HistoryTest, ChangeRefusesObservationsUnknownRowsAndBadValues) {
    Project project = create();
    NoteRow text = note("x");
    text.id = *project.book(text);
    text.text = "y";
    EXPECT_EQ(project.change(text).error().code, "project.never_changed");
    StationRow row = station("A");
    row.id = 99;
    EXPECT_EQ(project.change(row).error().code, "project.no_such_row");
    row.id = 0;
    row.id = *project.book(row);
    row.name = "";
    EXPECT_EQ(project.change(row).error().where, "station.name");
    EXPECT_EQ(project.get<StationRow>(row.id)->row.name, "A");
    EXPECT_EQ(project.edit_log()->size(), 2U); // nothing of the refused change
}

TEST_F(HistoryTest, ChangeWithoutDifferenceLeavesNoTrace) {
    Project project = create();
    StationRow row = station("A");
    row.id = *project.book(row);
    row = project.get<StationRow>(row.id)->row;
    ASSERT_TRUE(project.change(row).ok());
    EXPECT_EQ(project.edit_log()->size(), 1U);
    EXPECT_EQ(project.last_action()->verb, "booked");
}

TEST_F(HistoryTest, UndoGoesBackStepByStepAndDeletesNothing) {
    Project project = create();
    EXPECT_FALSE(project.last_action().has_value());
    EXPECT_EQ(project.undo().error().code, "project.nothing_to_undo");

    StationRow row = station("First name");
    row.latitude_deg = 46.0;
    row.longitude_deg = 0.1 + 0.2;
    row.id = *project.book(row);
    row = project.get<StationRow>(row.id)->row;
    StationRow changed = row;
    changed.name = "Second name";
    changed.longitude_deg = std::nullopt;
    changed.latitude_deg = std::nullopt;
    ASSERT_TRUE(project.change(changed).ok());
    const Id id = *project.book(note("x"));
    ASSERT_TRUE(project.strike("note", id, "wrong").ok());

    EXPECT_EQ(project.undo()->verb, "struck");
    EXPECT_FALSE(project.get<NoteRow>(id)->struck);
    EXPECT_EQ(project.last_action()->verb, "booked");
    EXPECT_EQ(project.undo()->id, id);
    EXPECT_TRUE(project.get<NoteRow>(id)->struck);
    EXPECT_EQ(project.get<NoteRow>(id)->struck_reason, "undone");
    EXPECT_EQ(project.undo()->verb, "changed");
    const StationRow back = project.get<StationRow>(row.id)->row;
    EXPECT_EQ(back.name, "First name");
    EXPECT_EQ(back.longitude_deg, row.longitude_deg); // to the last bit
    EXPECT_EQ(back.latitude_deg, row.latitude_deg);
    EXPECT_EQ(project.undo()->table, "station");
    EXPECT_TRUE(project.get<StationRow>(row.id)->struck);
    EXPECT_EQ(project.undo().error().code, "project.nothing_to_undo");
    EXPECT_TRUE(project.verify().empty());
}

TEST_F(HistoryTest, UndoOfARestorationStrikesAgain) {
    Project project = create();
    const Id id = *project.book(note("x"));
    ASSERT_TRUE(project.strike("note", id, "wrong").ok());
    ASSERT_TRUE(project.restore("note", id, "right").ok());
    EXPECT_EQ(project.undo()->verb, "restored");
    EXPECT_TRUE(project.get<NoteRow>(id)->struck);
}

TEST_F(HistoryTest, AfterAnUndoNewDeedsAreUndoneFirst) {
    Project project = create();
    const Id first = *project.book(note("1"));
    const Id second = *project.book(note("2"));
    ASSERT_TRUE(project.undo().ok()); // 2
    const Id third = *project.book(note("3"));
    EXPECT_EQ(project.undo()->id, third);
    EXPECT_EQ(project.undo()->id, first);
    EXPECT_FALSE(project.undo().ok());
    EXPECT_TRUE(project.get<NoteRow>(second)->struck);
}

TEST_F(HistoryTest, TogetherIsOneDeed) {
    Project project = create();
    const Id station_id = *project.book(station("A"));
    const auto stay = [&](Project::Batch& batch) -> Expected<void> {
        OccupationRow occupation;
        occupation.station_id = station_id;
        const auto id = batch.book(occupation);
        if (!id)
            return id.error();
        for (int i = 0; i < 5; ++i) {
            FixRow fix;
            fix.occupation_id = *id;
            fix.longitude_deg = 8.0;
            fix.latitude_deg = 46.0;
            if (const auto booked = batch.book(fix); !booked)
                return booked.error();
        }
        return {};
    };
    ASSERT_TRUE(project.together(stay).ok());
    EXPECT_EQ(project.all<FixRow>()->size(), 5U);
    EXPECT_EQ(project.last_action()->table, "occupation");
    ASSERT_TRUE(project.undo().ok());
    for (const auto& fix : *project.all<FixRow>())
        EXPECT_TRUE(fix.struck);
    EXPECT_TRUE(project.all<OccupationRow>()->at(0).struck);
    EXPECT_FALSE(project.all<StationRow>()->at(0).struck);
}

TEST_F(HistoryTest, TogetherStoresNothingWhenOneBookingFails) {
    Project project = create();
    const auto refused = project.together([&](Project::Batch& batch) -> Expected<void> {
        static_cast<void>(batch.book(note("good")));
        static_cast<void>(batch.book(note(""))); // refused, and the refusal is not handed on
        EXPECT_FALSE(batch.book(note("after the refusal")).ok());
        return {};
    });
    EXPECT_EQ(refused.error().where, "note.text");
    const auto own = project.together([&](Project::Batch& batch) -> Expected<void> {
        static_cast<void>(batch.book(note("good")));
        return refusal("test.refused");
    });
    EXPECT_EQ(own.error().code, "test.refused");
    EXPECT_TRUE(project.all<NoteRow>()->empty());
    EXPECT_TRUE(project.edit_log()->empty());
    EXPECT_TRUE(project.book(note("works again")).ok());
}

TEST_F(HistoryTest, RawSqlCannotChangeOrDeleteObservations) {
    {
        Project project = create();
        const Id station_id = *project.book(station("A"));
        const Id book = *project.book(level_book("line"));
        ASSERT_TRUE(project.book(sight(book, 1, 1.0)).ok());
        ASSERT_TRUE(project.book(note("x")).ok());
        FixRow fix;
        ASSERT_TRUE(project.book(fix).ok());
        OccupationRow occupation;
        occupation.station_id = station_id;
        ASSERT_TRUE(project.book(occupation).ok());
        FlowTestRow test;
        test.method = "container";
        test.name = "t";
        FillRow fill;
        fill.test_id = *project.book(test);
        fill.volume_m3 = 0.01;
        fill.time_s = 5.0;
        ASSERT_TRUE(project.book(fill).ok());
        VerticalRow vertical;
        vertical.test_id = fill.test_id;
        VelocityRow velocity;
        velocity.vertical_id = *project.book(vertical);
        ASSERT_TRUE(project.book(velocity).ok());
        FlowReadingRow float_run;
        float_run.test_id = vertical.test_id;
        float_run.role = "run";
        ASSERT_TRUE(project.book(float_run).ok());
        FlowSeriesRow series;
        series.kind = "stage";
        series.name = "Staff gauge";
        FlowSeriesBlockRow block;
        block.series_id = *project.book(series);
        block.first_at = "2026-05-01T00:00:00.000Z";
        block.readings = 1;
        block.data = "0,0.42\n";
        ASSERT_TRUE(project.book(block).ok());
        HeightRunRow run;
        run.method = "hand-level";
        run.name = "Up the bank";
        HeightReadingRow reading;
        reading.run_id = *project.book(run);
        ASSERT_TRUE(project.book(reading).ok());
        AlternativeRow alternative;
        alternative.name = "A";
        PipeSectionRow section;
        section.alternative_id = *project.book(alternative);
        PipeFittingRow fitting;
        fitting.alternative_id = section.alternative_id;
        fitting.section_id = *project.book(section);
        ASSERT_TRUE(project.book(fitting).ok());
        PipePriceRow price;
        price.pipe_id = "pvc-sdr41-12in";
        ASSERT_TRUE(project.book(price).ok());
        ASSERT_TRUE(project.book(AnswerRow{0, "permissions", "yes", "", ""}).ok());
        ImportRow source;
        source.format = "gpx";
        source.file_name = "walk.gpx";
        ASSERT_TRUE(project.book(source).ok());
        ASSERT_TRUE(project.strike("note", project.all<NoteRow>()->at(0).row.id, "r").ok());
        ASSERT_TRUE(project.book_photo({{}, {1}, {}}, station_id).ok());
    }
    RawDatabase raw(path);
    for (const Table& table : tables()) {
        if (table.name == "schema_version" || table.name == "meter")
            continue;
        ASSERT_NE(raw.rows("SELECT count(*) FROM " + table.name)[0][0], "0") << table.name;
        EXPECT_NE(raw.execute("DELETE FROM " + table.name), "") << table.name;
        if (table.name == "station_photo")
            continue;
        const std::string replaced = raw.execute("INSERT OR REPLACE INTO " + table.name + " SELECT * FROM " + table.name);
        EXPECT_NE(replaced.find("never replaced"), std::string::npos) << table.name << replaced;
        if (table.sort != Table::Sort::Item) {
            EXPECT_NE(raw.execute("UPDATE " + table.name + " SET id = id"), "") << table.name;
            for (const TableColumn& column : table.columns)
                EXPECT_NE(raw.execute("UPDATE " + table.name + " SET " + column.name + " = 1"), "")
                    << table.name << "." << column.name;
        } else {
            EXPECT_NE(raw.execute("UPDATE " + table.name + " SET id = id + 1"), "") << table.name;
        }
    }
}

TEST_F(HistoryTest, PhotosAreMediaOfTheirStation) {
    Project project = create();
    const Id station_id = *project.book(station("A"));
    std::vector<unsigned char> picture(3'000'000);
    for (std::size_t i = 0; i < picture.size(); ++i)
        picture[i] = static_cast<unsigned char>(i * 31);
    PhotoData photo{{}, picture, {0xFF, 0xD8}};
    photo.row.title = "Intake from the left bank";
    photo.row.direction_deg = 359.5;
    const auto linked = project.book_photo(photo, station_id);
    const auto loose = project.book_photo({{}, {9}, {}}, 0);
    ASSERT_TRUE(linked.ok() && loose.ok());
    EXPECT_EQ(*project.picture(*linked), picture);
    EXPECT_EQ(project.thumbnail(*linked)->size(), 2U);
    EXPECT_TRUE(project.thumbnail(*loose)->empty());
    ASSERT_EQ(project.photo_links()->size(), 1U);
    EXPECT_EQ(project.photo_links()->at(0).station_id, station_id);
    EXPECT_EQ(project.all<PhotoRow>()->at(0).row.title, photo.row.title);

    EXPECT_EQ(project.book_photo({{}, {}, {}}, 0).error().where, "photo.data");
    EXPECT_EQ(project.book_photo({{}, {1}, {}}, 4711).error().code, "project.broken_reference");
    EXPECT_EQ(project.all<PhotoRow>()->size(), 2U);
    EXPECT_EQ(project.picture(4711).error().code, "project.no_such_row");
    EXPECT_TRUE(project.verify().empty());
}

} // namespace
} // namespace rillmark::testing
