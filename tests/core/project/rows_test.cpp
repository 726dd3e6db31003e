// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/project/project_fixture.h"

#include "project/columns.h"
#include "project/geometry.h"
#include "project/tables.h"

#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace rillmark::testing {
namespace {

/// The keys of one row of each table, so that a filled record can refer to them.
using Keys = std::map<std::string, Id>;

const std::map<std::string, std::string> kTexts = {
    {"flow_choice", "weighted-mean"}, {"cable_system", "three-phase"}, {"edge", "vertical-bank"},
    {"share_out", "setup"}, {"leave_rule", "fixed"}, {"lower_end", "tailwater"},
    {"flow_figure", "mean"}, {"transfer", "area"}, {"duration_rule", "linear"}, {"first_at", "2026-11-24T08:15:30.000Z"},
    {"tracer", "dye"}, {"verdict", "not-needed"}, {"intake_kind", "broad-crest"}, {"pipe_anchoring", "throughout"},
    {"created_at", "2026-11-24T08:15:30.250Z"}, {"observed_at", "2026-11-24T09:15:30.125Z"}};

/// Every column filled with a value that its limits allow and that differs from the record's default.
template <class Record>
Record filled(const Keys& keys) {
    Record record;
    const std::map<std::string, std::string> references = {
        {"station_id", "station"},   {"meter_id", "meter"},      {"flow_test_id", "flow_test"},
        {"alternative_id", "alternative"}, {"intake_id", "station"}, {"powerhouse_id", "station"},
        {"house_id", "station"},     {"occupation_id", "occupation"}, {"book_id", "level_book"},
        {"run_id", "height_run"}, {"from_id", "station"}, {"to_id", "station"},
        {"test_id", "flow_test"},    {"vertical_id", "gauging_vertical"}, {"series_id", "flow_series"},
        {"section_id", "pipe_section"}};
    for (const Column<Record>& column : columns<Record>()) {
        const std::string name = column.name;
        if (name == "id")
            continue;
        std::visit(
            [&]<class Value>(Value Record::* member) {
                if constexpr (std::is_same_v<Value, Id> || std::is_same_v<Value, std::optional<Id>>)
                    record.*member = references.contains(name) ? keys.at(references.at(name)) : 7;
                else if constexpr (std::is_same_v<Value, std::string>)
                    record.*member = kTexts.contains(name) ? kTexts.at(name)
                                     : name == "kind" && std::is_same_v<Record, SightRow> ? "foresight"
                                                                                          : "Grüße, 流れ 'quoted' \"" + name;
                else if constexpr (std::is_same_v<Value, bool>)
                    record.*member = !(record.*member);
                else
                    record.*member = 0.1 + 0.2; // not exact in decimal
            },
            column.member);
    }
    return record;
}

template <class Record>
void expect_same(const Record& stored, const Record& booked) {
    for (const Column<Record>& column : columns<Record>())
        std::visit([&](auto member) { EXPECT_EQ(stored.*member, booked.*member) << Record::kTable << "." << column.name; },
                   column.member);
}

class RowsTest : public ProjectTest {
protected:
    template <class Record>
    void book_filled(Project& project, Keys& keys) {
        Record record = filled<Record>(keys);
        const auto id = project.book(record);
        ASSERT_TRUE(id.ok()) << Record::kTable << " " << id.error().code << " " << id.error().where;
        keys[Record::kTable] = *id;
        record.id = *id;
        const auto stored = project.get<Record>(*id);
        ASSERT_TRUE(stored.ok());
        expect_same(stored->row, record);
    }
    /// Books one row of each table and keeps it for reading back after reopening.
    void book_all(Project& project, Keys& keys) {
        book_filled<StationRow>(project, keys);
        book_filled<MeterRow>(project, keys);
        book_filled<FlowTestRow>(project, keys);
        book_filled<FlowSeriesRow>(project, keys);
        book_filled<FlowSeriesBlockRow>(project, keys);
        book_filled<LevelBookRow>(project, keys);
        book_filled<AlternativeRow>(project, keys);
        book_filled<PipeSectionRow>(project, keys);
        book_filled<PipeFittingRow>(project, keys);
        book_filled<PipePriceRow>(project, keys);
        book_filled<OccupationRow>(project, keys);
        book_filled<FixRow>(project, keys);
        book_filled<SightRow>(project, keys);
        book_filled<HeightRunRow>(project, keys);
        book_filled<HeightReadingRow>(project, keys);
        book_filled<FillRow>(project, keys);
        book_filled<FlowReadingRow>(project, keys);
        book_filled<VerticalRow>(project, keys);
        book_filled<VelocityRow>(project, keys);
        book_filled<NoteRow>(project, keys);
        book_filled<AnswerRow>(project, keys);
        book_filled<ImportRow>(project, keys);
    }
};

TEST_F(RowsTest, EveryRecordComesBackWithAllColumns) {
    Keys keys;
    {
        Project project = create();
        book_all(project, keys);
        SiteRow site = filled<SiteRow>(keys);
        site.id = project.site()->id;
        ASSERT_TRUE(project.change(site).ok());
        PhotoData photo{filled<PhotoRow>(keys), {1, 2, 3}, {4}};
        const auto id = project.book_photo(photo, keys.at("station"));
        ASSERT_TRUE(id.ok());
        keys["photo"] = *id;
    }
    Project project = reopen();
    for_each_record([&]<class Record>(const Record&) {
        if constexpr (!std::is_same_v<Record, StrikeOutRow>) {
            const auto all = project.all<Record>();
            ASSERT_TRUE(all.ok()) << Record::kTable;
            ASSERT_EQ(all->size(), 1U) << Record::kTable;
            Record expected = filled<Record>(keys);
            expected.id = all->front().row.id;
            expect_same(all->front().row, expected);
            EXPECT_FALSE(all->front().struck);
        }
    });
    EXPECT_TRUE(project.verify().empty());
}

TEST_F(RowsTest, MissingStaysMissing) {
    Project project = create();
    const auto id = project.book(station("A"));
    ASSERT_TRUE(id.ok());
    const auto stored = project.get<StationRow>(*id);
    EXPECT_FALSE(stored->row.longitude_deg.has_value());
    EXPECT_FALSE(stored->row.route_order.has_value());
    EXPECT_EQ(stored->row.created_at, "2026-11-25T10:30:00.000Z");
    EXPECT_EQ(RawDatabase(path).rows("SELECT geom FROM station")[0][0], "NULL");
}

TEST_F(RowsTest, RowsComeInTheOrderOfBookingWhateverTheirKeys) {
    Project project = create();
    std::vector<Id> booked;
    for (int i = 0; i < 200; ++i)
        booked.push_back(*project.book(note("note " + std::to_string(i))));
    EXPECT_FALSE(std::is_sorted(booked.begin(), booked.end()));
    const auto all = project.all<NoteRow>();
    ASSERT_EQ(all->size(), booked.size());
    for (std::size_t i = 0; i < booked.size(); ++i)
        EXPECT_EQ((*all)[i].row.id, booked[i]);
}

TEST_F(RowsTest, SystemKeysFitIn52BitsAndDiffer) {
    const ProjectContext system = system_context();
    std::set<Id> ids;
    Id largest = 0;
    for (int i = 0; i < 10000; ++i) {
        const Id id = system.new_id();
        ids.insert(id);
        ASSERT_GE(id, 1);
        ASSERT_LT(id, Id{1} << 52);
        largest = std::max(largest, id);
    }
    EXPECT_EQ(ids.size(), 10000U);
    EXPECT_GT(largest, Id{1} << 50); // the upper bits are used
    const std::string now = system.now_utc();
    ASSERT_EQ(now.size(), 24U);
    EXPECT_EQ(now.back(), 'Z');
}

TEST_F(RowsTest, LimitsNameTableAndColumn) {
    Project project = create();
    const Id book = *project.book(level_book("line"));
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinite = std::numeric_limits<double>::infinity();
    for (const double reading_m : {10.5, -10.5, 1e300, nan, infinite, -infinite}) {
        const auto refused = project.book(sight(book, 1, reading_m));
        ASSERT_FALSE(refused.ok()) << reading_m;
        EXPECT_EQ(refused.error().code, "project.out_of_range");
        EXPECT_EQ(refused.error().where, "level_sight.reading_m");
    }
    SightRow odd = sight(book, 1, 1.0);
    odd.distance_m = nan; // an optional NaN must not turn into "not measured"
    EXPECT_EQ(project.book(odd).error().where, "level_sight.distance_m");
    odd = sight(book, 1, 1.0);
    odd.kind = "sidesight";
    EXPECT_EQ(project.book(odd).error().where, "level_sight.kind");
    odd = sight(book, 1, 1.0);
    odd.observed_at = "yesterday";
    EXPECT_EQ(project.book(odd).error().where, "level_sight.observed_at");
    odd.observed_at = "2026-13-25T10:30:00.000Z";
    EXPECT_EQ(project.book(odd).error().where, "level_sight.observed_at");
    EXPECT_EQ(project.book(note("")).error().where, "note.text");
    EXPECT_TRUE(project.all<SightRow>()->empty());
    EXPECT_TRUE(project.verify().empty());
}

TEST_F(RowsTest, LatitudeAndLongitudeGoTogetherAndInRange) {
    Project project = create();
    StationRow row = station("A");
    row.longitude_deg = 8.0;
    EXPECT_EQ(project.book(row).error().code, "project.out_of_range");
    row.latitude_deg = 90.5;
    EXPECT_EQ(project.book(row).error().where, "station.latitude_deg");
    row.latitude_deg = -90.0;
    row.longitude_deg = -180.0;
    EXPECT_TRUE(project.book(row).ok());
}

TEST_F(RowsTest, ReferencesMustExistAndKeysMustBeNew) {
    Project project = create();
    EXPECT_EQ(project.book(sight(12345, 1, 1.0)).error().code, "project.broken_reference");
    NoteRow row = note("one");
    row.id = *project.book(note("zero"));
    EXPECT_EQ(project.book(row).error().code, "project.duplicate_id");
    row.id = -4;
    EXPECT_EQ(project.book(row).error().where, "note.id");
    row.id = Id{1} << 53;
    EXPECT_EQ(project.book(row).error().where, "note.id");
    EXPECT_EQ(project.all<NoteRow>()->size(), 1U);
}

TEST_F(RowsTest, TextWithNulAndLongTextSurvive) {
    Project project = create();
    const std::string odd = std::string("a\0b", 3) + std::string(100'000, 'x');
    const auto id = project.book(note(odd));
    ASSERT_TRUE(id.ok());
    EXPECT_EQ(project.get<NoteRow>(*id)->row.text, odd);
}

TEST_F(RowsTest, SchemaHasExactlyTheColumnsOfTheRecords) {
    create();
    RawDatabase raw(path);
    for (const Table& table : tables()) {
        std::map<std::string, std::pair<std::string, bool>> declared;
        for (const auto& row : raw.rows("SELECT name, type, \"notnull\" FROM pragma_table_info('" + table.name + "')"))
            declared[row[0]] = {row[1], row[2] == "1"};
        EXPECT_EQ(declared.size(), table.columns.size()) << table.name;
        for (const TableColumn& column : table.columns) {
            ASSERT_TRUE(declared.contains(column.name)) << table.name << "." << column.name;
            EXPECT_EQ(declared[column.name].first, declared_type(column)) << table.name << "." << column.name;
            EXPECT_EQ(declared[column.name].second, column.required) << table.name << "." << column.name;
        }
    }
    // No table of the file is missing from the list.
    const auto ours = raw.rows("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'gpkg%' AND name "
                               "NOT LIKE 'sqlite%'");
    EXPECT_EQ(ours.size(), tables().size());
}

TEST_F(RowsTest, EveryColumnIsDescribedWithItsUnit) {
    create();
    RawDatabase raw(path);
    std::size_t count = 0;
    for (const Table& table : tables())
        for (const TableColumn& column : table.columns) {
            const auto rows = raw.rows("SELECT title, description FROM gpkg_data_columns WHERE table_name = '" +
                                       table.name + "' AND column_name = '" + column.name + "'");
            ASSERT_EQ(rows.size(), 1U) << table.name << "." << column.name;
            EXPECT_GT(rows[0][0].size(), 2U);
            if (column.name.ends_with("_m")) {
                EXPECT_EQ(rows[0][1], "unit: m");
            }
            if (column.name.ends_with("_m3s")) {
                EXPECT_EQ(rows[0][1], "unit: m3/s");
            }
            if (column.kind == CellKind::Real) {
                EXPECT_TRUE(rows[0][1].starts_with("unit: ")) << table.name << "." << column.name;
            }
            ++count;
        }
    EXPECT_EQ(raw.rows("SELECT count(*) FROM gpkg_data_columns")[0][0], std::to_string(count));
}

TEST(Geometry, PointRoundTripsAndOddBlobsAreRefused) {
    const auto blob = point_blob({-122.25, 47.5});
    const auto point = read_point_blob(blob);
    ASSERT_TRUE(point.has_value());
    EXPECT_EQ(point->longitude_deg, -122.25);
    EXPECT_EQ(point->latitude_deg, 47.5);
    for (std::size_t length = 0; length < blob.size(); ++length)
        EXPECT_FALSE(read_point_blob(std::span(blob).first(length)).has_value()) << length;
    for (const std::size_t byte : {0U, 1U, 2U, 4U, 8U, 9U}) {
        auto odd = blob;
        odd[byte] ^= 0x40U;
        EXPECT_FALSE(read_point_blob(odd).has_value()) << byte;
    }
    auto empty = blob;
    empty[3] |= 0x10U;
    EXPECT_FALSE(read_point_blob(empty).has_value());
    const auto nan = point_blob({std::nan(""), 1.0});
    EXPECT_FALSE(read_point_blob(nan).has_value());
}

TEST(Geometry, BigEndianWithEnvelopeIsRead) {
    // POINT(1 2), big-endian header and WKB, envelope code 1; bytes by OGC 12-128r18, clause 2.1.3.
    std::vector<unsigned char> blob = {'G', 'P', 0, 0x02, 0, 0, 0x10, 0xE6};
    blob.resize(8 + 32, 0);
    const std::vector<unsigned char> wkb = {0, 0, 0, 0, 1, 0x3F, 0xF0, 0, 0, 0, 0, 0, 0, 0x40, 0, 0, 0, 0, 0, 0, 0};
    blob.insert(blob.end(), wkb.begin(), wkb.end());
    const auto point = read_point_blob(blob);
    ASSERT_TRUE(point.has_value());
    EXPECT_EQ(point->longitude_deg, 1.0);
    EXPECT_EQ(point->latitude_deg, 2.0);
}

} // namespace
} // namespace rillmark::testing
