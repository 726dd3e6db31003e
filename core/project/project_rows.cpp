// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/project_impl.h"

#include <algorithm>
#include <unordered_map>
#include <utility>

namespace rillmark {

namespace {

using sqlite::Database;
using sqlite::Run;

template <class Record>
Id insert(Deed& deed, Record record) {
    complete(deed, record);
    write_to(Record::kTable, [&] {
        static const std::string sql = insert_sql<Record>();
        const std::int64_t order = deed.log({"booked", Record::kTable, record.id, {}, {}, {}});
        Run run = deed.database().run(sql);
        const int next = bind_record(run, record, order);
        if constexpr (kHasGeometry<Record>) {
            const auto geometry = geometry_of(record);
            if (geometry)
                run.bind(next, std::span<const unsigned char>(*geometry));
            run.step();
        } else {
            static_cast<void>(next);
            run.step();
        }
    });
    return record.id;
}

/// Strike-outs in force and the reason of the last.
struct Strike {
    std::int64_t count = 0;
    std::string reason;
};
using Strikes = std::unordered_map<Id, Strike>;

Strikes read_strikes(Database& database, const char* table) {
    Strikes strikes;
    Run run = database.run("SELECT struck_id, restores, reason FROM strike_out WHERE struck_table = ? "
                           "ORDER BY booked_order, id");
    run.bind(1, std::string_view(table));
    while (run.step()) {
        Strike& strike = strikes[run.integer(0)];
        if (run.integer(1) != 0) {
            --strike.count;
        } else {
            ++strike.count;
            strike.reason = run.text(2);
        }
    }
    return strikes;
}

template <class Record>
void mark(Booked<Record>& booked, const Strikes& strikes) {
    const auto strike = strikes.find(booked.row.id);
    if (strike == strikes.end() || strike->second.count <= 0)
        return;
    booked.struck = true;
    booked.struck_reason = strike->second.reason;
}

template <class Record>
std::string select_sql() {
    return "SELECT " + rows::column_list<Record>() + ", booked_order FROM " + Record::kTable;
}

/// Where a row belongs and where it stands.
struct Place {
    std::int64_t order;
    Id id;
    std::size_t index;
};

/// Puts rows into the order of their places without a second copy of them, which a long track would feel.
template <class Row>
void put_in_order(std::vector<Row>& rows, std::vector<Place>& places) {
    std::ranges::sort(places, [](const Place& a, const Place& b) {
        return a.order != b.order ? a.order < b.order : a.id < b.id;
    });
    for (std::size_t start = 0; start < rows.size(); ++start) {
        if (places[start].index == start)
            continue;
        Row first = std::move(rows[start]);
        std::size_t hole = start;
        while (places[hole].index != start) {
            const std::size_t next = std::exchange(places[hole].index, hole);
            rows[hole] = std::move(rows[next]);
            hole = next;
        }
        rows[hole] = std::move(first);
        places[hole].index = hole;
    }
}

template <class Record>
std::vector<Booked<Record>> read_all(Database& database) {
    static const std::string sql = select_sql<Record>();
    const Strikes strikes = read_strikes(database, Record::kTable);
    const auto order_column = static_cast<int>(columns<Record>().size());
    const auto count =
        static_cast<std::size_t>(database.integer("SELECT count(*) FROM " + std::string(Record::kTable)));
    std::vector<Booked<Record>> all;
    std::vector<Place> places;
    all.reserve(count);
    places.reserve(count);
    Run run = database.run(sql);
    while (run.step()) {
        Booked<Record>& booked = all.emplace_back();
        rows::read_record(run, booked.row);
        mark(booked, strikes);
        places.push_back({run.integer(order_column), booked.row.id, places.size()});
    }
    put_in_order(all, places);
    return all;
}

template <class Record>
std::optional<Record> read_one(Database& database, Id id) {
    static const std::string sql = select_sql<Record>() + " WHERE id = ?";
    Run run = database.run(sql);
    run.bind(1, id);
    if (!run.step())
        return std::nullopt;
    Record record;
    rows::read_record(run, record);
    return record;
}

template <class Record>
Finding no_such_row(Id id) {
    return refusal("project.no_such_row", Record::kTable,
                   {{"table", std::string(Record::kTable), Quantity::Number}, {"id", id, Quantity::Number}});
}

template <class Record>
void update(Deed& deed, Record item) {
    const std::optional<Record> stored = read_one<Record>(deed.database(), item.id);
    if (!stored)
        throw Refused{no_such_row<Record>(item.id)};
    complete(deed, item);
    bool differs = false;
    for (const Column<Record>& column : columns<Record>()) {
        const auto before = rows::text_of(column, *stored);
        const auto after = rows::text_of(column, item);
        if (before == after)
            continue;
        differs = true;
        deed.log({"changed", Record::kTable, item.id, column.name, before, after});
    }
    if (!differs)
        return;
    // One statement for all columns, so that limits between columns see the row as it will be.
    std::string sql = "UPDATE " + std::string(Record::kTable) + " SET ";
    for (const Column<Record>& column : columns<Record>().subspan(1))
        sql += std::string(column.name) + " = ?, ";
    sql.resize(sql.size() - 2);
    sql += " WHERE id = ?";
    write_to(Record::kTable, [&] {
        Run run = deed.database().run(sql);
        int index = 1;
        for (const Column<Record>& column : columns<Record>().subspan(1))
            rows::bind(run, index++, column, item);
        run.bind(index, item.id);
        run.step();
    });
    if constexpr (kHasGeometry<Record>)
        refresh_geometry(deed.database(), Record::kTable, item.id);
}

} // namespace

Deed::Deed(Database& database, const ProjectContext& context, std::optional<Id> undoes)
    : m_database(database), m_context(context), m_undoes(undoes), m_now(context.now_utc()),
      m_sequence(database.integer("SELECT coalesce(max(sequence), 0) FROM edit_log")) {}

std::int64_t Deed::log(const LogLine& line) {
    static const std::string sql =
        "INSERT INTO edit_log (id, sequence, action_id, undoes, at, device, verb, table_name, row_id, column_name, "
        "before, after) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";
    const Id id = m_context.new_id();
    if (m_action_id == 0)
        m_action_id = id;
    m_database.run(sql)
        .bind(1, id)
        .bind(2, ++m_sequence)
        .bind(3, m_action_id)
        .bind(4, m_undoes)
        .bind(5, m_now)
        .bind(6, m_context.device)
        .bind(7, std::string_view(line.verb))
        .bind(8, line.table)
        .bind(9, line.row_id)
        .bind(10, line.column)
        .bind(11, line.before)
        .bind(12, line.after)
        .step();
    return m_sequence;
}

void refresh_geometry(Database& database, const std::string& table, Id id) {
    std::optional<std::array<unsigned char, kPointBlobBytes>> geometry;
    {
        Run run = database.run("SELECT longitude_deg, latitude_deg FROM " + table + " WHERE id = ?");
        run.bind(1, id);
        if (run.step() && !run.null(0) && !run.null(1))
            geometry = point_blob({run.real(0), run.real(1)});
    }
    Run run = database.run("UPDATE " + table + " SET geom = ? WHERE id = ?");
    if (geometry)
        run.bind(1, std::span<const unsigned char>(*geometry));
    run.bind(2, id).step();
}

template <class Record>
Expected<Id> Project::book(Record record) {
    return m_impl->write([&](Deed& deed) { return insert(deed, std::move(record)); });
}

template <class Record>
Expected<Id> Project::Batch::book(Record record) {
    // After a first refusal SQLite may have ended the transaction: nothing more is written to it.
    if (m_impl.batch_refusal)
        return *m_impl.batch_refusal;
    auto id = guarded(m_impl.where(), [&] { return insert(*m_impl.deed, std::move(record)); });
    if (!id)
        m_impl.batch_refusal = id.error();
    return id;
}

Expected<void> Project::together(const std::function<Expected<void>(Batch&)>& bookings) {
    Impl& impl = *m_impl;
    impl.batch_refusal.reset();
    return impl.write([&](Deed& deed) {
        impl.deed = &deed;
        Batch batch(impl);
        const auto done = bookings(batch);
        impl.deed = nullptr;
        if (!done)
            throw Refused{done.error()};
        if (impl.batch_refusal)
            throw Refused{*impl.batch_refusal};
    });
}

template <class Record>
Expected<void> Project::change(const Record& item) {
    if constexpr (kIsItem<Record>)
        return m_impl->write([&](Deed& deed) { update(deed, item); });
    else
        return refusal("project.never_changed", Record::kTable,
                       {{"table", std::string(Record::kTable), Quantity::Number}});
}

template <class Record>
Expected<std::vector<Booked<Record>>> Project::all() const {
    return guarded(m_impl->where(), [&] { return read_all<Record>(m_impl->database); });
}

template <class Record>
Expected<Booked<Record>> Project::get(Id id) const {
    return guarded(m_impl->where(), [&] {
        auto row = read_one<Record>(m_impl->database, id);
        if (!row)
            throw Refused{no_such_row<Record>(id)};
        Booked<Record> booked;
        booked.row = std::move(*row);
        mark(booked, read_strikes(m_impl->database, Record::kTable));
        return booked;
    });
}

Expected<SiteRow> Project::site() const {
    auto sites = all<SiteRow>();
    if (!sites)
        return sites.error();
    if (sites->empty())
        return refusal("project.no_such_row", SiteRow::kTable, {{"table", std::string(SiteRow::kTable), Quantity::Number}});
    return std::move(sites->front().row);
}

// Not for SiteRow (made by create()) and StrikeOutRow (strike() and restore() check what they say).
#define RILLMARK_BOOKED(Record)                                                                                        \
    template Expected<Id> Project::book(Record);                                                                       \
    template Expected<Id> Project::Batch::book(Record);
#define RILLMARK_READ(Record)                                                                                          \
    template Expected<void> Project::change(const Record&);                                                            \
    template Expected<std::vector<Booked<Record>>> Project::all<Record>() const;                                       \
    template Expected<Booked<Record>> Project::get<Record>(Id) const;

RILLMARK_BOOKED(StationRow)
RILLMARK_BOOKED(MeterRow)
RILLMARK_BOOKED(FlowTestRow)
RILLMARK_BOOKED(LevelBookRow)
RILLMARK_BOOKED(HeightRunRow)
RILLMARK_BOOKED(AlternativeRow)
RILLMARK_BOOKED(PipeSectionRow)
RILLMARK_BOOKED(PipeFittingRow)
RILLMARK_BOOKED(PipePriceRow)
RILLMARK_BOOKED(OccupationRow)
RILLMARK_BOOKED(FixRow)
RILLMARK_BOOKED(SightRow)
RILLMARK_BOOKED(HeightReadingRow)
RILLMARK_BOOKED(FillRow)
RILLMARK_BOOKED(FlowReadingRow)
RILLMARK_BOOKED(FlowSeriesRow)
RILLMARK_BOOKED(FlowSeriesBlockRow)
RILLMARK_BOOKED(VerticalRow)
RILLMARK_BOOKED(VelocityRow)
RILLMARK_BOOKED(NoteRow)
RILLMARK_BOOKED(AnswerRow)
RILLMARK_BOOKED(ImportRow)
RILLMARK_READ(SiteRow)
RILLMARK_READ(StationRow)
RILLMARK_READ(MeterRow)
RILLMARK_READ(FlowTestRow)
RILLMARK_READ(LevelBookRow)
RILLMARK_READ(HeightRunRow)
RILLMARK_READ(AlternativeRow)
RILLMARK_READ(PipeSectionRow)
RILLMARK_READ(PipeFittingRow)
RILLMARK_READ(PipePriceRow)
RILLMARK_READ(OccupationRow)
RILLMARK_READ(FixRow)
RILLMARK_READ(SightRow)
RILLMARK_READ(HeightReadingRow)
RILLMARK_READ(FillRow)
RILLMARK_READ(FlowReadingRow)
RILLMARK_READ(FlowSeriesRow)
RILLMARK_READ(FlowSeriesBlockRow)
RILLMARK_READ(VerticalRow)
RILLMARK_READ(VelocityRow)
RILLMARK_READ(NoteRow)
RILLMARK_READ(PhotoRow)
RILLMARK_READ(AnswerRow)
RILLMARK_READ(ImportRow)
RILLMARK_READ(StrikeOutRow)

} // namespace rillmark
