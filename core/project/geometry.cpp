// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/geometry.h"

#include <bit>
#include <cmath>
#include <cstdint>

namespace rillmark {

namespace {

constexpr std::uint32_t kWgs84 = 4326;
constexpr std::uint32_t kWkbPoint = 1;
constexpr std::size_t kHeaderBytes = 8;
constexpr std::size_t kWkbPointBytes = 21;

template <class Unsigned>
void put(unsigned char* to, Unsigned value) {
    for (std::size_t byte = 0; byte < sizeof(Unsigned); ++byte)
        to[byte] = static_cast<unsigned char>(value >> (8U * byte));
}

template <class Unsigned>
Unsigned get(const unsigned char* from, bool little_endian) {
    Unsigned value = 0;
    for (std::size_t byte = 0; byte < sizeof(Unsigned); ++byte) {
        const std::size_t place = little_endian ? byte : sizeof(Unsigned) - 1 - byte;
        value |= static_cast<Unsigned>(from[byte]) << (8U * place);
    }
    return value;
}

} // namespace

std::array<unsigned char, kPointBlobBytes> point_blob(const GeometryPoint& point) {
    std::array<unsigned char, kPointBlobBytes> blob{'G', 'P', 0, 1}; // version 0, little-endian, no envelope
    put(&blob[4], kWgs84);
    blob[kHeaderBytes] = 1;
    put(&blob[kHeaderBytes + 1], kWkbPoint);
    put(&blob[kHeaderBytes + 5], std::bit_cast<std::uint64_t>(point.longitude_deg));
    put(&blob[kHeaderBytes + 13], std::bit_cast<std::uint64_t>(point.latitude_deg));
    return blob;
}

std::optional<GeometryPoint> read_point_blob(std::span<const unsigned char> blob) {
    if (blob.size() < kHeaderBytes || blob[0] != 'G' || blob[1] != 'P' || blob[2] != 0)
        return std::nullopt;
    const unsigned char flags = blob[3];
    static constexpr std::array<std::size_t, 5> kEnvelopeBytes = {0, 32, 48, 48, 64};
    const std::size_t envelope = (flags >> 1U) & 7U;
    // Bit 4: empty; bit 5: extended type; 6 and 7: reserved.
    if ((flags & 0xF0U) != 0 || envelope >= kEnvelopeBytes.size())
        return std::nullopt;
    const std::size_t wkb = kHeaderBytes + kEnvelopeBytes[envelope];
    if (blob.size() != wkb + kWkbPointBytes || blob[wkb] > 1)
        return std::nullopt;
    if (get<std::uint32_t>(&blob[4], (flags & 1U) != 0) != kWgs84)
        return std::nullopt;
    const bool little_endian = blob[wkb] == 1;
    if (get<std::uint32_t>(&blob[wkb + 1], little_endian) != kWkbPoint)
        return std::nullopt;
    const GeometryPoint point{std::bit_cast<double>(get<std::uint64_t>(&blob[wkb + 5], little_endian)),
                         std::bit_cast<double>(get<std::uint64_t>(&blob[wkb + 13], little_endian))};
    if (!std::isfinite(point.longitude_deg) || !std::isfinite(point.latitude_deg))
        return std::nullopt;
    return point;
}

} // namespace rillmark
