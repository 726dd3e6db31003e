// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/import_geojson.h"

#include "exchange/csv.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace rillmark {

namespace {

using Json = nlohmann::json;

Finding at_byte(Finding finding, std::string_view bytes, std::size_t byte, const std::string& file) {
    const std::string_view before = bytes.substr(0, std::min(byte, bytes.size()));
    const auto line = static_cast<std::int64_t>(std::ranges::count(before, '\n')) + 1;
    const std::size_t start = before.rfind('\n');
    const std::size_t column = before.size() - (start == std::string_view::npos ? 0 : start + 1);
    return at_place(std::move(finding), file, line, std::to_string(column));
}

/// Before anything is built of it.
Expected<void> check_depth(std::string_view bytes, const std::string& file) {
    int depth = 0;
    bool in_text = false;
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        const char c = bytes[i];
        if (in_text) {
            i += c == '\\' ? 1 : 0;
            in_text = c != '"';
        } else if (c == '"') {
            in_text = true;
        } else if (c == '[' || c == '{') {
            if (++depth > kGeoJsonDeepest)
                return at_byte(refusal("exchange.json_too_deep", file, {{"limit", std::int64_t{kGeoJsonDeepest}}}),
                               bytes, i + 1, file);
        } else if (c == ']' || c == '}') {
            --depth;
        }
    }
    return {};
}

Expected<Json> parse_json(std::string_view bytes, const std::string& file) {
    if (bytes.size() > kImportLargestFile_bytes)
        return refusal("exchange.import_file_too_large", file,
                       {{"limit_mib", static_cast<std::int64_t>(kImportLargestFile_bytes / 1024 / 1024)}});
    if (const Expected<void> shallow = check_depth(bytes, file); !shallow)
        return shallow.error();
    try {
        return Json::parse(bytes);
    } catch (const Json::exception& error) {
        const auto* place = dynamic_cast<const Json::parse_error*>(&error);
        return at_byte(refusal("exchange.json_not_well_formed", file), bytes, place != nullptr ? place->byte : 0, file);
    }
}

std::string json_type(const Json& value) {
    const auto type = value.is_object() ? value.find("type") : value.end();
    return value.is_object() && type != value.end() && type->is_string() ? type->get<std::string>() : std::string();
}

/// What other programs may hold in a property, as text; nothing for lists and objects.
std::optional<std::string> property_text(const Json& value) {
    if (value.is_string())
        return import_text(value.get<std::string>());
    if (value.is_number() || value.is_boolean())
        return value.dump();
    return {};
}

class GeoJsonReader {
public:
    explicit GeoJsonReader(const std::string& file) : m_file(file), m_count(file) { m_read.format = "geojson"; }

    Expected<void> read(const Json& root) {
        if (const Expected<void> system = check_system(root); !system)
            return system;
        const std::string type = json_type(root);
        if (type != "FeatureCollection") {
            ++m_number;
            return type == "Feature" ? feature(root) : geometry(root, {});
        }
        const auto features = root.find("features");
        if (features == root.end() || !features->is_array())
            return wrong("features");
        for (const Json& one : *features) {
            ++m_number;
            if (json_type(one) != "Feature")
                return wrong("type");
            if (const Expected<void> done = feature(one); !done)
                return done;
        }
        return {};
    }

    ImportedFile take() { return std::move(m_read); }

private:
    std::string m_file;
    ImportCount m_count;
    ImportedFile m_read;
    std::int64_t m_number = 0;

    [[nodiscard]] Finding wrong(const std::string& what) const {
        return refusal("exchange.geojson_wrong", m_file, {{"number", m_number}, {"what", what}});
    }

    /// RFC 7946 knows no other than WGS 84; files by the draft of 2008 could name one.
    [[nodiscard]] Expected<void> check_system(const Json& root) const {
        if (!root.is_object() || !root.contains("crs") || root["crs"].is_null())
            return {};
        std::string name;
        const Json& system = root["crs"];
        if (system.is_object() && system.contains("properties") && system["properties"].is_object())
            name = system["properties"].value("name", Json()).is_string()
                       ? system["properties"]["name"].get<std::string>()
                       : std::string();
        if (name.ends_with("CRS84") || name.ends_with(":4326") || name.ends_with("/4326"))
            return {};
        return refusal("exchange.geojson_crs", m_file, {{"name", import_text(name)}});
    }

    Expected<void> feature(const Json& one) {
        ImportFeature described;
        described.line = m_number;
        const auto properties = one.find("properties");
        std::vector<std::string> times;
        if (properties != one.end() && properties->is_object())
            describe(*properties, described, times);
        const auto shape = one.find("geometry");
        if (shape == one.end() || shape->is_null()) {
            m_read.notes.push_back(note("exchange.import_empty", described.name, {{"line", m_number}}));
            return {};
        }
        const std::size_t first = m_read.features.size();
        const Expected<void> done = geometry(*shape, described);
        if (done && m_read.features.size() == first + 1)
            put_times(m_read.features.back(), times);
        return done;
    }

    static void describe(const Json& properties, ImportFeature& described, std::vector<std::string>& times) {
        for (const auto& [key, value] : properties.items()) {
            if (key == "coordTimes" && value.is_array())
                for (const Json& one : value)
                    if (one.is_string())
                        times.push_back(import_time(one.get<std::string>()));
            const std::optional<std::string> text = property_text(value);
            if (!text)
                continue;
            described.fields.emplace_back(import_text(key), *text);
            if (key == "name")
                described.name = *text;
            else if (key == "kind" || (key == "type" && described.kind.empty()))
                described.kind = *text;
            else if (key == "note" || ((key == "desc" || key == "description") && described.note.empty()))
                described.note = *text;
        }
    }

    static void put_times(ImportFeature& feature, const std::vector<std::string>& times) {
        if (times.size() != point_count(feature))
            return;
        feature.walked = feature.shape == ImportShape::Line;
        std::size_t at = 0;
        for (std::vector<ImportPoint>& part : feature.parts)
            for (ImportPoint& point : part)
                point.time_utc = times[at++];
    }

    Expected<void> geometry(const Json& shape, const ImportFeature& described) {
        const std::string type = json_type(shape);
        if (type == "GeometryCollection") {
            const auto members = shape.find("geometries");
            if (members == shape.end() || !members->is_array())
                return wrong("geometries");
            for (const Json& one : *members)
                if (const Expected<void> done = geometry(one, described); !done)
                    return done;
            return {};
        }
        const auto coordinates = type.empty() ? shape.end() : shape.find("coordinates");
        if (type.empty() || coordinates == shape.end() || !coordinates->is_array())
            return wrong("coordinates");
        return by_type(type, *coordinates, described);
    }

    Expected<void> by_type(const std::string& type, const Json& coordinates, const ImportFeature& described) {
        if (coordinates.empty()) { // an empty geometry: RFC 7946, section 3.1
            m_read.notes.push_back(note("exchange.import_empty", described.name, {{"line", m_number}}));
            return {};
        }
        if (type == "Point")
            return add(ImportShape::Point, Json::array({Json::array({coordinates})}), described);
        if (type == "LineString")
            return add(ImportShape::Line, Json::array({coordinates}), described);
        if (type == "MultiLineString")
            return add(ImportShape::Line, coordinates, described);
        if (type == "Polygon")
            return add(ImportShape::Area, coordinates, described);
        if (type != "MultiPoint" && type != "MultiPolygon")
            return wrong("type");
        for (const Json& one : coordinates) {
            const Expected<void> done = type == "MultiPoint"
                                            ? add(ImportShape::Point, Json::array({Json::array({one})}), described)
                                            : add(ImportShape::Area, one, described);
            if (!done)
                return done;
        }
        return {};
    }

    Expected<void> add(ImportShape shape, const Json& parts, ImportFeature feature) {
        feature.shape = shape;
        if (!parts.is_array())
            return wrong("coordinates");
        for (const Json& part : parts) {
            if (!part.is_array())
                return wrong("coordinates");
            std::vector<ImportPoint>& points = feature.parts.emplace_back();
            for (const Json& one : part) {
                const Expected<ImportPoint> point = position(one);
                if (!point)
                    return point.error();
                if (const Expected<void> counted = m_count.point(); !counted)
                    return counted;
                points.push_back(*point);
            }
        }
        std::erase_if(feature.parts, [](const auto& part) { return part.empty(); });
        if (feature.parts.empty())
            return {};
        m_read.features.push_back(std::move(feature));
        return m_count.feature();
    }

    [[nodiscard]] Expected<ImportPoint> position(const Json& numbers) const {
        if (!numbers.is_array() || numbers.size() < 2 || !numbers[0].is_number() || !numbers[1].is_number())
            return wrong("coordinates");
        Expected<ImportPoint> point = import_point(numbers[0].dump(), numbers[1].dump());
        if (!point) {
            Finding finding = point.error();
            finding.where = m_file;
            finding.args.push_back({"number", m_number});
            return finding;
        }
        if (numbers.size() > 2 && numbers[2].is_number())
            point->height_m = import_number(numbers[2].dump());
        return point;
    }
};

} // namespace

Expected<ImportedFile> read_geojson(std::string_view bytes, const std::string& file) {
    constexpr std::string_view kJsonUtf8Mark = "\xEF\xBB\xBF";
    if (bytes.starts_with(kJsonUtf8Mark))
        bytes.remove_prefix(kJsonUtf8Mark.size());
    const Expected<Json> root = parse_json(bytes, file);
    if (!root)
        return root.error();
    GeoJsonReader reader(file);
    if (const Expected<void> read = reader.read(*root); !read)
        return read.error();
    ImportedFile imported = reader.take();
    if (imported.features.empty())
        return refusal("exchange.import_nothing", file);
    return imported;
}

} // namespace rillmark
