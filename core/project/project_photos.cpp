// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/project_impl.h"

namespace rillmark {

namespace {

using sqlite::Run;

std::vector<unsigned char> bytes_of(sqlite::Database& database, const std::string& sql, Id photo_id) {
    Run run = database.run(sql);
    run.bind(1, photo_id);
    if (!run.step())
        throw Refused{refusal("project.no_such_row", PhotoRow::kTable,
                              {{"table", std::string(PhotoRow::kTable), Quantity::Number},
                               {"id", photo_id, Quantity::Number}})};
    const auto bytes = run.blob(0);
    return {bytes.begin(), bytes.end()};
}

Id insert_photo(Deed& deed, const PhotoData& photo, Id station_id) {
    PhotoRow row = photo.row;
    complete(deed, row);
    write_to(PhotoRow::kTable, [&] {
        const std::int64_t order = deed.log({"booked", PhotoRow::kTable, row.id, {}, {}, {}});
        Run run = deed.database().run(insert_sql<PhotoRow>("data, thumbnail"));
        const int next = bind_record(run, row, order);
        run.bind(next, std::span<const unsigned char>(photo.picture));
        if (!photo.thumbnail.empty())
            run.bind(next + 1, std::span<const unsigned char>(photo.thumbnail));
        run.step();
    });
    if (station_id != 0)
        write_to("station_photo", [&] {
            deed.database()
                .run("INSERT INTO station_photo (base_id, related_id) VALUES (?, ?)")
                .bind(1, station_id)
                .bind(2, row.id)
                .step();
        });
    return row.id;
}

} // namespace

Expected<Id> Project::book_photo(const PhotoData& photo, Id station_id) {
    return m_impl->write([&](Deed& deed) { return insert_photo(deed, photo, station_id); });
}

Expected<Id> Project::Batch::book_photo(const PhotoData& photo, Id station_id) {
    if (m_impl.batch_refusal)
        return *m_impl.batch_refusal;
    auto id = guarded(m_impl.where(), [&] { return insert_photo(*m_impl.deed, photo, station_id); });
    if (!id)
        m_impl.batch_refusal = id.error();
    return id;
}

Expected<std::vector<unsigned char>> Project::picture(Id photo_id) const {
    return guarded(m_impl->where(), [&] {
        return bytes_of(m_impl->database, "SELECT data FROM photo WHERE id = ?", photo_id);
    });
}

Expected<std::vector<unsigned char>> Project::thumbnail(Id photo_id) const {
    return guarded(m_impl->where(), [&] {
        return bytes_of(m_impl->database, "SELECT thumbnail FROM photo WHERE id = ?", photo_id);
    });
}

Expected<std::vector<Project::PhotoLink>> Project::photo_links() const {
    return guarded(m_impl->where(), [&] {
        std::vector<PhotoLink> links;
        Run run = m_impl->database.run("SELECT related_id, base_id FROM station_photo ORDER BY rowid");
        while (run.step())
            links.push_back({run.integer(0), run.integer(1)});
        return links;
    });
}

} // namespace rillmark
