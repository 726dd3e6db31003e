// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace rillmark {

/// What a picture's EXIF block says of where and when it was taken, as far as it can be believed.
struct ExifFacts {
    std::optional<double> latitude_deg;  // WGS 84, -90..90; both or neither of the two
    std::optional<double> longitude_deg; // -180..180
    std::optional<double> height_msl_m;
    std::optional<double> direction_deg; // bearing of the view from true north, 0..<360
    std::string time_utc;                // ISO 8601 with milliseconds; empty: unknown
};

/// Reads position, direction and time from the EXIF block of a JPEG or PNG.
///
/// Values out of range, a position of 0/0, fractions over zero and directions from magnetic north count as missing, as
/// does everything where the block cannot be read. The time is DateTimeOriginal with its OffsetTimeOriginal; else the
/// GPS date and time, which are UTC; else DateTimeOriginal in the time zone of this device (common practice, no
/// source). Source: CIPA DC-008 (Exif 2.32), tables of the Exif and GPS attribute information (from memory,
/// unconfirmed).
[[nodiscard]] ExifFacts read_exif(std::span<const unsigned char> picture);

/// The picture with those facts added that its own EXIF block lacks. What is there is never changed, nor a pixel.
/// A picture whose metadata cannot be written comes back as it was. Accuracy: position to 1e-5 arc second (0.3 mm),
/// height to 1 mm, direction to 0.01 degree, time to 1 s.
[[nodiscard]] std::vector<unsigned char> with_missing_exif(std::span<const unsigned char> picture,
                                                           const ExifFacts& facts);

} // namespace rillmark
