// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/import_gpx.h"

#include "exchange/import_xml.h"

namespace rillmark {

namespace {

class GpxReader {
public:
    explicit GpxReader(std::string file) : m_count(std::move(file)) { m_read.format = "gpx"; }

    Expected<void> opened(const XmlElement& element) {
        const XmlPath& path = element.path;
        const std::string& name = path.back();
        if (path.size() == 1)
            return name == "gpx" ? Expected<void>()
                                 : refusal("exchange.import_wrong_root", name, {{"expected", std::string("gpx")}});
        if (path.size() == 2 && (name == "wpt" || name == "rte" || name == "trk"))
            return begin(name, element);
        if (path.size() == 3 && path[1] == "trk" && name == "trkseg")
            m_feature.parts.emplace_back();
        if (is_point(path))
            return add_point(element);
        return {};
    }

    Expected<void> closed(const XmlPath& path, const std::string& text) {
        if (path.size() < 2)
            return {};
        if (path.size() == 2 && (path[1] == "wpt" || path[1] == "rte" || path[1] == "trk"))
            finish();
        const XmlPath above(path.begin(), path.end() - 1);
        if (is_point(above))
            of_point(path.back(), text);
        if (above.size() == 2)
            of_feature(path.back(), text);
        return {};
    }

    ImportedFile take() { return std::move(m_read); }

private:
    ImportCount m_count;
    ImportedFile m_read;
    ImportFeature m_feature;

    static bool is_point(const XmlPath& path) {
        return (path.size() == 2 && path[1] == "wpt") || (path.size() == 3 && path[1] == "rte" && path[2] == "rtept") ||
               (path.size() == 4 && path[1] == "trk" && path[2] == "trkseg" && path[3] == "trkpt");
    }

    Expected<void> begin(const std::string& name, const XmlElement& element) {
        m_feature = {};
        m_feature.line = element.line;
        m_feature.shape = name == "wpt" ? ImportShape::Point : ImportShape::Line;
        m_feature.walked = name == "trk";
        m_feature.layer = name == "wpt" ? "waypoints" : name == "rte" ? "routes" : "tracks";
        if (name != "trk")
            m_feature.parts.emplace_back();
        if (const Expected<void> counted = m_count.feature(); !counted)
            return counted;
        return name == "wpt" ? add_point(element) : Expected<void>();
    }

    Expected<void> add_point(const XmlElement& element) {
        Expected<ImportPoint> point = import_point(element.attribute("lon"), element.attribute("lat"));
        if (!point)
            return point.error();
        m_feature.parts.back().push_back(*point);
        return m_count.point();
    }

    void of_point(const std::string& name, const std::string& text) {
        ImportPoint& point = m_feature.parts.back().back();
        if (name == "ele")
            point.height_m = import_number(text);
        else if (name == "time")
            point.time_utc = import_time(text);
        else if (name == "name")
            point.name = import_text(text);
    }

    void of_feature(const std::string& name, const std::string& text) {
        const std::string clean = import_text(text);
        if (name == "name")
            m_feature.name = clean;
        else if (name == "type" || (name == "sym" && m_feature.kind.empty()))
            m_feature.kind = clean;
        else if ((name == "desc" || name == "cmt") && !clean.empty() && clean != m_feature.note)
            m_feature.note += (m_feature.note.empty() ? "" : "; ") + clean;
    }

    void finish() {
        std::erase_if(m_feature.parts, [](const auto& part) { return part.empty(); });
        if (m_feature.parts.empty())
            m_read.notes.push_back(note("exchange.import_empty", m_feature.name, {{"line", m_feature.line}}));
        else
            m_read.features.push_back(std::move(m_feature));
        m_feature = {};
    }
};

} // namespace

Expected<ImportedFile> read_gpx(std::string_view bytes, const std::string& file) {
    return read_places<GpxReader>(bytes, file);
}

} // namespace rillmark
