// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "project/project.h"

#include <QString>

#include <cstdint>
#include <optional>
#include <span>
#include <string>

namespace rillmark {

/// What we know of a photo apart from its picture. What is missing is taken from its EXIF block.
struct PhotoContext {
    std::optional<double> latitude_deg{};  // WGS 84, -90..90; counts only together with the longitude
    std::optional<double> longitude_deg{}; // -180..180
    std::optional<double> height_msl_m{};
    std::optional<double> direction_deg{}; // bearing of the view from true north, any turn
    std::string time_utc{};                // ISO 8601; empty: unknown
    std::string title{};
    std::string source = "file"; // or camera
};

// Limits of what is taken in. Our choice, no source: a phone's largest pictures pass, a file made to exhaust it does
// not.
inline constexpr std::int64_t kMaxPhoto_bytes = std::int64_t{64} * 1024 * 1024;
inline constexpr std::int64_t kMaxPhoto_pixels = 120'000'000;
// A progressive JPEG is held in memory as a whole, and once more a scan in time.
inline constexpr std::int64_t kMaxProgressive_pixels = 40'000'000;
// A PNG is decoded as a whole: eight bytes a pixel at most, within the 128 MiB that Qt's reader allows itself.
inline constexpr std::int64_t kMaxPng_pixels = 16'000'000;
inline constexpr int kMaxScans = 100;
inline constexpr int kThumbnail_px = 320; // the longer side

/// Makes a picture ready to be stored: checks it, completes its EXIF block and its row from each other, and makes the
/// thumbnail (JPEG, upright, never larger than the picture). The picture's pixels stay as they came.
///
/// Takes JPEG and PNG, told by content and each within its limit above. A context out of its range counts as unknown.
/// Refuses: `photo.empty`, `photo.too_many_bytes`, `photo.not_a_picture`, `photo.cut_short`, `photo.too_many_pixels`,
/// `photo.too_many_scans`, `photo.damaged`. Takes some 0.1 s for 12 megapixels: call it off the UI thread
/// (PhotoWorker).
[[nodiscard]] Expected<PhotoData> prepare_photo(std::span<const unsigned char> picture, const PhotoContext& context);

/// The same for a file on the device, or a content address that the system's picture chooser gave.
/// Refuses `photo.unreadable_file` as well. The file is only read.
[[nodiscard]] Expected<PhotoData> prepare_photo(const QString& file, const PhotoContext& context);

} // namespace rillmark
