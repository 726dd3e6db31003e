// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/import_file.h"

#include "exchange/import_geojson.h"
#include "exchange/import_gpx.h"
#include "exchange/import_kml.h"
#include "project/foreign_geopackage.h"

#include <algorithm>
#include <cerrno>
#include <fstream>
#include <system_error>

namespace rillmark {

namespace {

constexpr std::string_view kSqliteMark{"SQLite format 3\0", 16};
constexpr std::string_view kJpegMark = "\xFF\xD8\xFF";
constexpr std::string_view kPngMark = "\x89PNG";
constexpr std::string_view kFileUtf8Mark = "\xEF\xBB\xBF";
constexpr std::size_t kHead_bytes = 4096; // far enough for a comment before the root

/// The root element's name is somewhere in the head: "<gpx", also with a prefix or as UTF-16.
bool names_root(std::string_view head, std::string_view root) {
    std::string letters;
    std::ranges::copy_if(head.substr(0, kHead_bytes), std::back_inserter(letters), [](char c) { return c != '\0'; });
    for (const std::string& opening : {"<" + std::string(root), ":" + std::string(root)})
        if (letters.find(opening) != std::string::npos)
            return true;
    return false;
}

bool is_xml(std::string_view head) {
    if (head.starts_with(kFileUtf8Mark))
        head.remove_prefix(kFileUtf8Mark.size());
    const std::size_t first = head.find_first_not_of(" \t\r\n");
    return head.starts_with("\xFF\xFE") || head.starts_with("\xFE\xFF") ||
           (first != std::string_view::npos && head[first] == '<');
}

Finding unreadable(const std::filesystem::path& path, int problem) {
    return refusal("exchange.cannot_read", path.string(), {{"detail", std::generic_category().message(problem)}});
}

Expected<ImportedFile> read_geopackage(const std::filesystem::path& path, const ImportReading& reading) {
    std::string layer = reading.layer;
    if (layer.empty()) {
        const Expected<std::vector<ForeignLayer>> layers = foreign_layers(path);
        if (!layers)
            return layers.error();
        if (layers->size() > 1) {
            std::string names;
            for (const ForeignLayer& one : *layers)
                names += (names.empty() ? "" : ", ") + one.name;
            return refusal("exchange.import_choose_layer", path.filename().string(), {{"layers", names}});
        }
        layer = layers->front().name;
    }
    return read_foreign_layer(path, layer, reading.assume_wgs84);
}

} // namespace

std::string import_format(std::string_view head) {
    if (head.starts_with(kSqliteMark))
        return "geopackage";
    if (head.starts_with(kJpegMark) || head.starts_with(kPngMark))
        return "jpeg";
    if (is_xml(head))
        return names_root(head, "kml") ? "kml" : "gpx";
    const std::string_view text = head.starts_with(kFileUtf8Mark) ? head.substr(kFileUtf8Mark.size()) : head;
    const std::size_t first = text.find_first_not_of(" \t\r\n");
    return first != std::string_view::npos && (text[first] == '{' || text[first] == '[') ? "geojson" : "csv";
}

Expected<std::string> import_bytes(const std::filesystem::path& path) {
    std::error_code problem;
    if (std::filesystem::is_directory(path, problem))
        return unreadable(path, EISDIR);
    std::ifstream stream(path, std::ios::binary);
    if (!stream)
        return unreadable(path, errno);
    std::string bytes;
    constexpr std::size_t kBlock_bytes = 64 * 1024;
    while (stream && bytes.size() <= kImportLargestFile_bytes) {
        const std::size_t before = bytes.size();
        bytes.resize(before + kBlock_bytes);
        stream.read(bytes.data() + before, kBlock_bytes);
        bytes.resize(before + static_cast<std::size_t>(stream.gcount()));
    }
    if (stream.bad())
        return unreadable(path, EIO);
    if (bytes.size() > kImportLargestFile_bytes)
        return refusal("exchange.import_file_too_large", path.filename().string(),
                       {{"limit_mib", static_cast<std::int64_t>(kImportLargestFile_bytes / 1024 / 1024)}});
    return bytes;
}

Expected<ImportedFile> read_import_file(const std::filesystem::path& path, const std::string& bytes,
                                        const ImportReading& reading) {
    const std::string name = path.filename().string();
    const std::string format = import_format(bytes);
    if (format == "geopackage")
        return read_geopackage(path, reading);
    if (format == "gpx")
        return read_gpx(bytes, name);
    if (format == "kml")
        return read_kml(bytes, name);
    if (format == "geojson")
        return read_geojson(bytes, name);
    if (format == "jpeg")
        return refusal("exchange.import_is_photo", name);
    return read_place_table(bytes, name, reading.positions);
}

} // namespace rillmark
