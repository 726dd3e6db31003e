// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/nmea_reader.h"
#include "position/position_fix.h"

#include <cstddef>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace rillmark::fixes {

inline constexpr double kNow_s = 1778780000.0; // 2026-05-14T17:33:20Z, passed in as the device's clock

/// A good fix of an invented place, `seconds` after a fixed instant.
inline PositionFix good(double seconds = 0.0) {
    PositionFix fix;
    fix.time_s = 1.7e9 + seconds;
    fix.time_utc = iso_utc(fix.time_s);
    fix.latitude_deg = 44.73;
    fix.longitude_deg = -119.6;
    fix.height_msl_m = 1042.0;
    fix.geoid_separation_m = -19.6;
    fix.height_ellipsoid_m = 1022.4;
    fix.quality = FixQuality::Autonomous;
    fix.source = "test";
    return fix;
}

inline std::optional<std::string> file_bytes(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file)
        return {};
    return std::string(std::istreambuf_iterator<char>(file), {});
}

inline std::string own_log(const std::string& name) {
    return file_bytes(std::string(RILLMARK_SOURCE_DIR) + "/tests/logs/" + name).value();
}

/// All fixes of a log, fed in pieces of `chunk` bytes.
inline std::vector<PositionFix> read_all(NmeaReader& reader, const std::string& bytes, std::size_t chunk = 4096) {
    std::vector<PositionFix> all;
    for (std::size_t at = 0; at < bytes.size(); at += chunk)
        for (PositionFix& fix : reader.feed(std::string_view(bytes).substr(at, chunk), kNow_s))
            all.push_back(std::move(fix));
    for (PositionFix& fix : reader.finish(kNow_s))
        all.push_back(std::move(fix));
    return all;
}

} // namespace rillmark::fixes
