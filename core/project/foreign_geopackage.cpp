// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/foreign_geopackage.h"

#include "project/files.h"
#include "project/foreign_geometry.h"
#include "project/sqlite_finding.h"
#include "project/tables.h"

#include <GeographicLib/UTMUPS.hpp>

#include <algorithm>
#include <cctype>

namespace rillmark {

namespace {

using sqlite::Access;
using sqlite::Database;
using sqlite::Run;

// EPSG codes: WGS 84 in two and three dimensions; its UTM zones north and south begin after these.
constexpr std::int64_t kEpsgWgs84 = 4326;
constexpr std::int64_t kEpsgWgs84Height = 4979;
constexpr std::int64_t kUtmNorth = 32600;
constexpr std::int64_t kUtmSouth = 32700;
constexpr std::int64_t kZones = 60;

struct ReferenceSystem {
    std::int64_t srs_id = 0;
    std::int64_t code = 0; // of EPSG; 0: none

    [[nodiscard]] bool geographic() const { return code == kEpsgWgs84 || code == kEpsgWgs84Height; }
    [[nodiscard]] bool north() const { return code > kUtmNorth && code <= kUtmNorth + kZones; }
    [[nodiscard]] bool south() const { return code > kUtmSouth && code <= kUtmSouth + kZones; }
    [[nodiscard]] bool readable() const { return geographic() || north() || south(); }
    [[nodiscard]] std::string name() const { return code == 0 ? "undefined" : "EPSG:" + std::to_string(code); }
};

struct LayerPlace {
    std::string table;
    std::string geometry_column;
    std::string geometry;
    ReferenceSystem system;
};

std::string quoted_name(const std::string& name) {
    std::string text = "\"";
    for (const char letter : name)
        text += letter == '"' ? std::string("\"\"") : std::string(1, letter);
    return text + '"';
}

bool has_gpkg_table(Database& database, const char* name) {
    Run run = database.run("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?");
    return run.bind(1, std::string_view(name)).step();
}

ReferenceSystem reference_system(Database& database, std::int64_t srs_id) {
    ReferenceSystem system{srs_id, 0};
    Run run = database.run("SELECT organization, organization_coordsys_id FROM gpkg_spatial_ref_sys WHERE srs_id = ?");
    if (!run.bind(1, srs_id).step())
        return system;
    std::string organization = run.text_or_empty(0);
    std::ranges::transform(organization, organization.begin(),
                           [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    if (organization == "EPSG" && !run.null(1))
        system.code = run.integer(1);
    return system;
}

std::vector<LayerPlace> layer_places(Database& database, const std::string& where) {
    for (const char* table : {"gpkg_contents", "gpkg_geometry_columns", "gpkg_spatial_ref_sys"})
        if (!has_gpkg_table(database, table))
            throw Refused{refusal("exchange.gpkg_no_contents", where, {{"table", std::string(table)}})};
    std::vector<LayerPlace> list;
    std::vector<std::int64_t> systems;
    {
        Run run = database.run("SELECT g.table_name, g.column_name, g.geometry_type_name, g.srs_id "
                               "FROM gpkg_geometry_columns AS g JOIN gpkg_contents AS c ON c.table_name = g.table_name "
                               "JOIN sqlite_schema AS s ON s.name = g.table_name AND s.type = 'table' "
                               "WHERE c.data_type = 'features' ORDER BY g.table_name");
        while (run.step()) {
            list.push_back({run.text(0), run.text(1), run.text_or_empty(2), {}});
            systems.push_back(run.integer(3));
        }
    }
    for (std::size_t i = 0; i < list.size(); ++i)
        list[i].system = reference_system(database, systems[i]);
    if (list.empty())
        throw Refused{refusal("exchange.gpkg_no_layer", where)};
    return list;
}

std::vector<std::string> layer_columns(Database& database, const LayerPlace& place) {
    std::vector<std::string> columns;
    Run run = database.run("SELECT name FROM pragma_table_info(?)");
    run.bind(1, place.table);
    while (run.step())
        if (run.text(0) != place.geometry_column)
            columns.push_back(run.text(0));
    return columns;
}

/// Reads one layer's rows into features.
class LayerReader {
public:
    LayerReader(Database& database, LayerPlace place, std::string where, bool assume_wgs84)
        : m_database(database), m_place(std::move(place)), m_where(std::move(where)), m_assume(assume_wgs84),
          m_count(m_where) {}

    ImportedFile run() {
        if (!m_assume && !m_place.system.readable())
            throw Refused{refusal("exchange.gpkg_reference_system", m_where,
                                  {{"layer", m_place.table}, {"system", m_place.system.name()}})};
        m_read.format = "geopackage";
        m_columns = layer_columns(m_database, m_place);
        std::string list = quoted_name(m_place.geometry_column);
        // text of any cell but a blob, so that no type of a foreign column stands in the way
        for (const std::string& column : m_columns)
            list += ", CASE typeof(" + quoted_name(column) + ") WHEN 'blob' THEN NULL ELSE CAST(" +
                    quoted_name(column) + " AS TEXT) END";
        Run rows = m_database.run("SELECT " + list + " FROM " + quoted_name(m_place.table));
        std::int64_t number = 0;
        while (rows.step())
            take_row(rows, ++number);
        if (m_empty > 0)
            m_read.notes.push_back(note("exchange.gpkg_empty_rows", m_place.table, {{"rows", m_empty}}));
        if (m_unsaid > 0)
            m_read.notes.push_back(
                warning("exchange.gpkg_blob_system", m_place.table, {{"system", m_place.system.name()}}));
        return std::move(m_read);
    }

private:
    Database& m_database;
    LayerPlace m_place;
    std::string m_where;
    bool m_assume;
    ImportCount m_count;
    ImportedFile m_read;
    std::vector<std::string> m_columns;
    std::int64_t m_empty = 0;
    std::int64_t m_unsaid = 0;

    [[noreturn]] void refuse(const std::string& code, std::int64_t number, std::vector<Arg> args = {}) const {
        args.push_back({"layer", m_place.table});
        args.push_back({"row", number});
        throw Refused{refusal(code, m_where, std::move(args))};
    }

    void take_row(const Run& rows, std::int64_t number) {
        if (rows.null(0)) {
            ++m_empty;
            return;
        }
        const std::optional<ForeignGeometry> geometry = read_foreign_geometry(rows.blob(0));
        if (!geometry)
            refuse("exchange.gpkg_bad_geometry", number);
        if (geometry->shapes.empty()) {
            ++m_empty;
            return;
        }
        check_system(*geometry, number);
        const ImportFeature described = describe(rows, number);
        for (const ForeignShape& shape : geometry->shapes) {
            ImportFeature feature = described;
            feature.shape = shape.shape;
            for (const std::vector<ForeignVertex>& part : shape.parts) {
                std::vector<ImportPoint>& points = feature.parts.emplace_back();
                for (const ForeignVertex& vertex : part)
                    points.push_back(placed(vertex, number));
            }
            if (const Expected<void> counted = m_count.feature(); !counted)
                throw Refused{counted.error()};
            m_read.features.push_back(std::move(feature));
        }
    }

    void check_system(const ForeignGeometry& geometry, std::int64_t number) {
        if (m_assume || geometry.srs_id == m_place.system.srs_id)
            return;
        if (geometry.srs_id != 0)
            refuse("exchange.gpkg_systems_differ", number,
                   {{"system", m_place.system.name()}, {"other", std::int64_t{geometry.srs_id}}});
        ++m_unsaid;
    }

    [[nodiscard]] ImportFeature describe(const Run& rows, std::int64_t number) const {
        ImportFeature feature;
        feature.layer = m_place.table;
        feature.line = number;
        for (std::size_t i = 0; i < m_columns.size(); ++i) {
            const std::string text = import_text(rows.text_or_empty(static_cast<int>(i) + 1));
            feature.fields.emplace_back(m_columns[i], text);
            if (m_columns[i] == "name")
                feature.name = text;
            else if (m_columns[i] == "kind")
                feature.kind = text;
            else if (m_columns[i] == "note")
                feature.note = text;
        }
        return feature;
    }

    ImportPoint placed(const ForeignVertex& vertex, std::int64_t number) {
        double latitude_deg = vertex.y;
        double longitude_deg = vertex.x;
        if (!m_assume && !m_place.system.geographic()) {
            const bool north = m_place.system.north();
            const auto zone = static_cast<int>(m_place.system.code - (north ? kUtmNorth : kUtmSouth));
            try {
                GeographicLib::UTMUPS::Reverse(zone, north, vertex.x, vertex.y, latitude_deg, longitude_deg);
            } catch (const std::exception&) {
                refuse("exchange.gpkg_off_zone", number);
            }
        }
        Expected<ImportPoint> point = import_point(number_text(longitude_deg), number_text(latitude_deg));
        if (!point)
            refuse(point.error().code, number, point.error().args);
        if (const Expected<void> counted = m_count.point(); !counted)
            throw Refused{counted.error()};
        point->height_m = vertex.z;
        return *point;
    }
};

/// Opens the file to look at it alone, and runs work(database).
template <class Work>
auto with_foreign_file(const std::filesystem::path& path, Work&& work)
    -> Expected<decltype(work(std::declval<Database&>()))> {
    if (const Expected<void> header = check_header(path); !header)
        return header.error();
    const std::string where = path.filename().string();
    if (has_side_files(path))
        return refusal("project.side_file", where);
    return guarded(where, [&] {
        Database database(path, Access::Look);
        return work(database);
    });
}

} // namespace

Expected<std::vector<ForeignLayer>> foreign_layers(const std::filesystem::path& path) {
    return with_foreign_file(path, [&](Database& database) {
        std::vector<ForeignLayer> layers;
        for (const LayerPlace& place : layer_places(database, path.filename().string()))
            layers.push_back({place.table, place.geometry, place.system.name(), place.system.readable(),
                              database.integer("SELECT count(*) FROM " + quoted_name(place.table)),
                              layer_columns(database, place)});
        return layers;
    });
}

Expected<ImportedFile> read_foreign_layer(const std::filesystem::path& path, const std::string& layer,
                                          bool assume_wgs84) {
    const std::string where = path.filename().string();
    Expected<ImportedFile> read = with_foreign_file(path, [&](Database& database) {
        const std::vector<LayerPlace> known = layer_places(database, where);
        const auto place = std::ranges::find(known, layer, &LayerPlace::table);
        if (place == known.end())
            throw Refused{refusal("exchange.gpkg_no_such_layer", where, {{"layer", layer}})};
        return LayerReader(database, *place, where, assume_wgs84).run();
    });
    if (read && read->features.empty())
        return refusal("exchange.import_nothing", where);
    return read;
}

} // namespace rillmark
