// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/import_plan.h"

#include "position/local_frame.h"
#include "position/position_fix.h"
#include "position/station_kind.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace rillmark {

namespace {

struct LinesEntry {
    ImportLines lines;
    const char* id;
    const char* kind; // of the stations along it
};
constexpr std::array kLineChoices{
    LinesEntry{ImportLines::Track, "track", ""}, LinesEntry{ImportLines::Pipe, "pipe", "route-point"},
    LinesEntry{ImportLines::Cable, "cable", "cable-point"},
    LinesEntry{ImportLines::Boundary, "boundary", "boundary-corner"}, LinesEntry{ImportLines::None, "none", ""}};

const LinesEntry& lines_entry(ImportLines lines) {
    return *std::ranges::find(kLineChoices, lines, &LinesEntry::lines);
}

bool is_station_kind(const std::string& id) {
    return std::ranges::any_of(station_kinds(), [&](const StationKindEntry& one) { return one.id == id; });
}

bool sound_uncertainty(const std::optional<double>& u) {
    return !u || (std::isfinite(*u) && *u >= 0.0);
}

/// Makes the plan feature by feature.
class Planner {
public:
    Planner(const ImportChoice& choice, std::string file_name) : m_choice(choice), m_file(std::move(file_name)) {}

    Expected<ImportPlan> plan(const ImportedFile& file) {
        if (!is_station_kind(m_choice.point_kind))
            return refusal("site.import_kind_unknown", m_choice.point_kind, {{"kind", m_choice.point_kind}});
        if (!sound_uncertainty(m_choice.u_horizontal_m) || !sound_uncertainty(m_choice.u_up_m))
            return refusal("site.import_bad_uncertainty", m_file);
        for (const std::string& field : {m_choice.name_field, m_choice.kind_field, m_choice.height_field})
            if (!field.empty() && !has_field(file, field))
                return refusal("site.import_field_missing", m_file, {{"field", field}, {"known", known_fields(file)}});
        m_plan.notes = file.notes;
        for (const ImportFeature& feature : file.features)
            take(feature);
        if (m_holes > 0)
            m_plan.notes.push_back(note("site.import_holes", m_file, {{"holes", m_holes}}));
        if (m_plan.stations.size() > kMostImportStations)
            return refusal("site.import_too_many_stations", m_file,
                           {{"stations", static_cast<std::int64_t>(m_plan.stations.size())},
                            {"limit", static_cast<std::int64_t>(kMostImportStations)}});
        if (!m_choice.u_horizontal_m && !m_plan.stations.empty())
            m_plan.notes.push_back(
                note("site.import_position_unsure", m_file,
                     {{"u", default_claim(FixQuality::Unknown).horizontal_axis_m, Quantity::Length}}));
        if (m_plan.stations.empty() && m_plan.fixes.empty())
            return refusal("site.import_nothing_left", m_file);
        return std::move(m_plan);
    }

private:
    const ImportChoice& m_choice;
    std::string m_file;
    ImportPlan m_plan;
    std::int64_t m_holes = 0;

    static bool has_field(const ImportedFile& file, const std::string& field) {
        return std::ranges::any_of(file.features,
                                   [&](const ImportFeature& one) { return field_of(one, field) != nullptr; });
    }

    static std::string known_fields(const ImportedFile& file) {
        std::vector<std::string> names;
        for (const ImportFeature& feature : file.features)
            for (const auto& [name, value] : feature.fields)
                if (std::ranges::find(names, name) == names.end())
                    names.push_back(name);
        std::string list;
        for (const std::string& name : names)
            list += (list.empty() ? "" : ", ") + name;
        return list;
    }

    /// A chosen field goes before what the file itself calls it.
    static std::string chosen(const ImportFeature& feature, const std::string& field, const std::string& own) {
        const std::string* value = field.empty() ? nullptr : field_of(feature, field);
        return value != nullptr ? *value : own;
    }

    void take(const ImportFeature& feature) {
        const std::string name = chosen(feature, m_choice.name_field, feature.name);
        std::string becomes;
        if (feature.shape == ImportShape::Point)
            becomes = take_point(feature, name);
        else if (feature.shape == ImportShape::Line)
            becomes = take_line(feature, name);
        else if (m_choice.areas_are_boundary)
            becomes = take_area(feature, name);
        m_plan.preview.push_back({name, feature.layer, feature.shape, point_count(feature), becomes, feature.line});
    }

    std::string take_point(const ImportFeature& feature, const std::string& name) {
        const std::string kind = chosen(feature, m_choice.kind_field, feature.kind);
        const bool ours = is_station_kind(kind);
        ImportPoint point = feature.parts.front().front();
        if (!m_choice.height_field.empty()) {
            const std::string* height = field_of(feature, m_choice.height_field);
            point.height_m = height != nullptr ? import_number(*height) : std::nullopt;
        }
        std::string note = feature.note;
        if (!ours && !kind.empty())
            note = note.empty() ? kind : kind + "; " + note;
        add_station(point, ours ? kind : m_choice.point_kind, name, note);
        return m_plan.stations.back().station.kind;
    }

    std::string take_line(const ImportFeature& feature, const std::string& name) {
        if (m_choice.lines == ImportLines::None)
            return {};
        const LinesEntry& entry = lines_entry(m_choice.lines);
        for (const std::vector<ImportPoint>& part : feature.parts)
            if (m_choice.lines == ImportLines::Track)
                for (const ImportPoint& point : part)
                    m_plan.fixes.push_back(fix_of(point));
            else
                add_along(part, entry.kind, name);
        return m_choice.lines == ImportLines::Track ? entry.id : entry.kind;
    }

    std::string take_area(const ImportFeature& feature, const std::string& name) {
        std::vector<ImportPoint> ring = feature.parts.front();
        const bool closed = ring.size() > 1 && ring.front().longitude_deg == ring.back().longitude_deg &&
                            ring.front().latitude_deg == ring.back().latitude_deg;
        if (closed)
            ring.pop_back();
        m_holes += static_cast<std::int64_t>(feature.parts.size()) - 1;
        add_along(ring, lines_entry(ImportLines::Boundary).kind, name);
        return lines_entry(ImportLines::Boundary).kind;
    }

    void add_along(const std::vector<ImportPoint>& part, const char* kind, const std::string& name) {
        std::size_t number = 0;
        for (const ImportPoint& point : part) {
            ++number;
            const std::string stem = name.empty() ? std::string(kind) : name;
            add_station(point, kind, point.name.empty() ? stem + " " + std::to_string(number) : point.name, {});
        }
    }

    void add_station(const ImportPoint& point, const std::string& kind, const std::string& name,
                     const std::string& note) {
        ImportStation one;
        one.station.kind = kind;
        one.station.name = name.empty() ? kind + " " + std::to_string(m_plan.stations.size() + 1) : name;
        one.station.note = note;
        one.station.longitude_deg = point.longitude_deg;
        one.station.latitude_deg = point.latitude_deg;
        const double u_m = m_choice.u_horizontal_m.value_or(default_claim(FixQuality::Unknown).horizontal_axis_m);
        one.stay.longitude_deg = point.longitude_deg;
        one.stay.latitude_deg = point.latitude_deg;
        one.stay.height_msl_m = point.height_m;
        one.stay.u_east_m = one.stay.u_north_m = u_m;
        if (point.height_m)
            one.stay.u_up_m = m_choice.u_up_m;
        one.stay.quality = fix_quality_id(FixQuality::Unknown);
        one.stay.source = m_file;
        one.stay.observed_at = point.time_utc;
        m_plan.stations.push_back(std::move(one));
    }

    [[nodiscard]] FixRow fix_of(const ImportPoint& point) const {
        FixRow fix;
        fix.longitude_deg = point.longitude_deg;
        fix.latitude_deg = point.latitude_deg;
        fix.height_msl_m = point.height_m;
        fix.u_east_m = fix.u_north_m = m_choice.u_horizontal_m;
        fix.u_up_m = point.height_m ? m_choice.u_up_m : std::nullopt;
        fix.quality = fix_quality_id(FixQuality::Unknown);
        fix.source = m_file;
        fix.observed_at = point.time_utc;
        return fix;
    }
};

/// Stations that are there and those that have just been booked, for the photos.
struct PhotoPlace {
    Id id = 0;
    GeoPoint point;
};

Id nearest_station(const std::vector<PhotoPlace>& stations, const PhotoRow& photo) {
    if (!photo.latitude_deg || !photo.longitude_deg)
        return 0;
    const GeoPoint here{*photo.latitude_deg, *photo.longitude_deg};
    Id nearest = 0;
    double least_m = kPhotoReach_m;
    for (const PhotoPlace& one : stations)
        if (const Expected<GeodesicLine> line = geodesic(here, one.point); line && line->distance_m <= least_m) {
            least_m = line->distance_m;
            nearest = one.id;
        }
    return nearest;
}

std::vector<PhotoPlace> photo_places(const Project& project) {
    std::vector<PhotoPlace> list;
    const Expected<std::vector<Booked<StationRow>>> stations = project.all<StationRow>();
    if (stations)
        for (const Booked<StationRow>& one : *stations)
            if (!one.struck && one.row.latitude_deg && one.row.longitude_deg)
                list.push_back({one.row.id, {*one.row.latitude_deg, *one.row.longitude_deg}});
    return list;
}

ImportRow source_row(const ImportSource& source, const ImportOutcome& outcome) {
    ImportRow row;
    row.format = source.format;
    row.file_name = source.file_name;
    row.file_sha256 = source.file_sha256;
    row.layer = source.layer;
    row.mapping = source.mapping;
    row.stations = static_cast<std::int64_t>(outcome.stations);
    row.fixes = static_cast<std::int64_t>(outcome.fixes);
    row.photos = static_cast<std::int64_t>(outcome.photos);
    return row;
}

} // namespace

const char* import_lines_id(ImportLines lines) {
    return lines_entry(lines).id;
}

std::optional<ImportLines> import_lines_from_id(std::string_view id) {
    const auto found = std::ranges::find_if(kLineChoices, [id](const LinesEntry& one) { return one.id == id; });
    return found == kLineChoices.end() ? std::nullopt : std::optional(found->lines);
}

Expected<ImportPlan> plan_import(const ImportedFile& file, const ImportChoice& choice, const std::string& file_name) {
    return Planner(choice, file_name).plan(file);
}

std::string mapping_text(const ImportChoice& choice) {
    std::string text = "points: " + choice.point_kind + "; lines: " + import_lines_id(choice.lines) +
                       "; areas: " + (choice.areas_are_boundary ? "boundary" : "none");
    for (const auto& [label, field] : {std::pair{"name", choice.name_field}, std::pair{"kind", choice.kind_field},
                                       std::pair{"height", choice.height_field}})
        if (!field.empty())
            text += std::string("; ") + label + ": " + field;
    return text;
}

Expected<ImportOutcome> book_import(Project& project, const ImportPlan& plan, const ImportSource& source,
                                    const std::vector<PhotoData>& photos) {
    const ImportOutcome outcome{plan.stations.size(), plan.fixes.size(), photos.size()};
    std::vector<PhotoPlace> placed = photos.empty() ? std::vector<PhotoPlace>{} : photo_places(project);
    const Expected<void> booked = project.together([&](Project::Batch& batch) -> Expected<void> {
        if (const Expected<Id> id = batch.book(source_row(source, outcome)); !id)
            return id.error();
        for (const ImportStation& one : plan.stations) {
            const Expected<Id> station = batch.book(one.station);
            if (!station)
                return station.error();
            placed.push_back({*station, {one.stay.latitude_deg, one.stay.longitude_deg}});
            OccupationRow stay = one.stay;
            stay.station_id = *station;
            if (const Expected<Id> id = batch.book(stay); !id)
                return id.error();
        }
        for (const FixRow& fix : plan.fixes)
            if (const Expected<Id> id = batch.book(fix); !id)
                return id.error();
        for (const PhotoData& photo : photos)
            if (const Expected<Id> id = batch.book_photo(photo, nearest_station(placed, photo.row)); !id)
                return id.error();
        return {};
    });
    if (!booked)
        return booked.error();
    return outcome;
}

std::optional<ImportRow> earlier_import(const Project& project, const std::string& file_sha256) {
    const Expected<std::vector<Booked<ImportRow>>> rows = project.all<ImportRow>();
    if (rows)
        for (const Booked<ImportRow>& one : *rows)
            if (!one.struck && !file_sha256.empty() && one.row.file_sha256 == file_sha256)
                return one.row;
    return std::nullopt;
}

} // namespace rillmark
