// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/import_kml.h"

#include "exchange/import_xml.h"

#include <algorithm>

namespace rillmark {

namespace {

constexpr std::string_view kXmlSpaces = " \t\r\n";

std::vector<std::string> xml_pieces(std::string_view text, std::string_view separators) {
    std::vector<std::string> pieces;
    for (std::size_t at = text.find_first_not_of(separators); at != std::string_view::npos;) {
        const std::size_t end = std::min(text.find_first_of(separators, at), text.size());
        pieces.emplace_back(text.substr(at, end - at));
        at = text.find_first_not_of(separators, end);
    }
    return pieces;
}

class KmlReader {
public:
    explicit KmlReader(const std::string& file) : m_file(file), m_count(file) { m_read.format = "kml"; }

    Expected<void> opened(const XmlElement& element) {
        const std::string& name = element.path.back();
        if (element.path.size() == 1)
            return name == "kml" ? Expected<void>()
                                 : refusal("exchange.import_wrong_root", name, {{"expected", std::string("kml")}});
        if (name == "Placemark") {
            m_placemark = {};
            m_placemark.line = element.line;
            m_placemark.layer = m_folders.empty() ? std::string() : m_folders.back();
            m_geometries.clear();
            m_in_placemark = true;
        } else if (name == "NetworkLink") {
            m_read.notes.push_back(note("exchange.kml_link", m_file, {{"line", element.line}}));
        } else if (name == "Folder" || name == "Document") {
            m_folders.emplace_back();
        }
        return m_in_placemark ? geometry_opened(element) : Expected<void>();
    }

    Expected<void> closed(const XmlPath& path, const std::string& text) {
        const std::string& name = path.back();
        const std::string above = path.size() > 1 ? path[path.size() - 2] : std::string();
        if (name == "Folder" || name == "Document")
            m_folders.pop_back();
        if (!m_in_placemark) {
            if (name == "name" && !m_folders.empty() && (above == "Folder" || above == "Document"))
                m_folders.back() = import_text(text);
            return {};
        }
        if (name == "Placemark")
            return finish();
        if (above == "Placemark")
            of_placemark(name, text);
        else if ((name == "value" && above == "Data") || name == "SimpleData")
            m_placemark.fields.emplace_back(m_field, import_text(text));
        return geometry_closed(name, text);
    }

    ImportedFile take() { return std::move(m_read); }

private:
    struct Geometry {
        ImportShape shape = ImportShape::Point;
        bool walked = false;
        bool absolute = false;
        std::vector<std::vector<ImportPoint>> parts;
        std::vector<std::string> times;
    };

    std::string m_file;
    ImportCount m_count;
    ImportedFile m_read;
    std::vector<std::string> m_folders;
    bool m_in_placemark = false;
    ImportFeature m_placemark;
    std::vector<Geometry> m_geometries;
    std::string m_field;

    Expected<void> geometry_opened(const XmlElement& element) {
        const std::string& name = element.path.back();
        if (name == "Data" || name == "SimpleData") {
            m_field = import_text(element.attribute("name"));
            return {};
        }
        const bool within = std::ranges::count(element.path, "Polygon") > 0;
        if (name == "Point")
            m_geometries.push_back({ImportShape::Point, false, false, {}, {}});
        else if (name == "LineString" || (name == "LinearRing" && !within))
            m_geometries.push_back({ImportShape::Line, false, false, {}, {}});
        else if (name == "Polygon")
            m_geometries.push_back({ImportShape::Area, false, false, {}, {}});
        else if (name == "Track")
            m_geometries.push_back({ImportShape::Line, true, true, {{}}, {}});
        else
            return {};
        return m_count.feature();
    }

    void of_placemark(const std::string& name, const std::string& text) {
        if (name == "name")
            m_placemark.name = import_text(text);
        else if (name == "description")
            m_placemark.note = import_text(text);
    }

    Expected<void> geometry_closed(const std::string& name, const std::string& text) {
        if (m_geometries.empty())
            return {};
        Geometry& geometry = m_geometries.back();
        if (name == "altitudeMode")
            geometry.absolute = import_text(text) == "absolute";
        else if (name == "when" && geometry.walked)
            geometry.times.push_back(import_time(text));
        else if (name == "coordinates")
            return add_part(geometry, text);
        else if (name == "coord" && geometry.walked)
            return add_point(geometry.parts.back(), xml_pieces(text, kXmlSpaces), text);
        return {};
    }

    Expected<void> add_part(Geometry& geometry, const std::string& text) {
        std::vector<ImportPoint>& part = geometry.parts.emplace_back();
        for (const std::string& tuple : xml_pieces(text, kXmlSpaces))
            if (const Expected<void> added = add_point(part, xml_pieces(tuple, ","), tuple); !added)
                return added;
        return {};
    }

    Expected<void> add_point(std::vector<ImportPoint>& part, const std::vector<std::string>& numbers,
                             const std::string& text) {
        if (numbers.size() < 2 || numbers.size() > 3)
            return refusal("exchange.import_not_a_position", {},
                           {{"longitude", import_text(text)}, {"latitude", std::string()}});
        Expected<ImportPoint> point = import_point(numbers[0], numbers[1]);
        if (!point)
            return point.error();
        if (numbers.size() == 3)
            point->height_m = import_number(numbers[2]);
        part.push_back(*point);
        return m_count.point();
    }

    Expected<void> finish() {
        m_in_placemark = false;
        bool any = false;
        for (Geometry& geometry : m_geometries) {
            std::erase_if(geometry.parts, [](const auto& part) { return part.empty(); });
            if (geometry.parts.empty())
                continue;
            any = true;
            ImportFeature feature = m_placemark;
            feature.shape = geometry.shape;
            feature.walked = geometry.walked;
            settle(geometry);
            feature.parts = std::move(geometry.parts);
            m_read.features.push_back(std::move(feature));
        }
        if (!any)
            m_read.notes.push_back(note("exchange.import_empty", m_placemark.name, {{"line", m_placemark.line}}));
        return {};
    }

    /// Times to the points of a track; no heights where they are above the ground.
    static void settle(Geometry& geometry) {
        for (std::vector<ImportPoint>& part : geometry.parts)
            for (std::size_t i = 0; i < part.size(); ++i) {
                if (!geometry.absolute)
                    part[i].height_m.reset();
                if (geometry.walked && i < geometry.times.size())
                    part[i].time_utc = geometry.times[i];
            }
    }
};

} // namespace

Expected<ImportedFile> read_kml(std::string_view bytes, const std::string& file) {
    return read_places<KmlReader>(bytes, file);
}

} // namespace rillmark
